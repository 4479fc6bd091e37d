// @ts-nocheck
import { afterEach, describe, expect, it } from 'vitest';
import { closeTerminals, openTerminal } from './harness.js';

afterEach(() => closeTerminals());

const node = (program: string, options = {}) => openTerminal({ args: ['-e', program], ...options });

describe('the pseudo-terminal harness', () => {
  it('gives a real terminal of the wanted size, and tells of a new size', async () => {
    const term = node(
      `const say = () => console.log(process.stdin.isTTY, process.stdout.columns + 'x' + process.stdout.rows);
       say(); process.stdout.on('resize', () => { say(); process.exit(3); }); setTimeout(() => {}, 9e3);`,
      { cols: 61, rows: 17 },
    );
    await term.waitFor('true 61x17');
    expect(term.lines()).toHaveLength(17);
    term.resize(100, 30);
    await term.waitFor('true 100x30');
    expect(await term.exit).toEqual({ code: 3 });
  });

  it('passes every byte of one write at once, invalid UTF-8 too', async () => {
    const term = node(
      `process.stdin.setRawMode(true); console.log('go');
       process.stdin.on('data', (d) => { console.log('[' + d.toString('hex') + ']'); });`,
    );
    await term.waitFor('go');
    term.press('down', 'enter', { text: '7' });
    await term.waitFor('[1b5b420d37]');
    term.write(new Uint8Array([0xff, 0xc3, 0x28]));
    await term.waitFor('[ffc328]');
  });

  it('holds a clean environment', async () => {
    const term = node('console.log(Object.keys(process.env).sort().join(" "), process.env.LANG)', {
      noColor: true,
      lang: 'de_DE.UTF-8',
      env: { EXTRA: '1' },
    });
    await term.exit;
    expect(term.screen().replace(/\s+/g, ' ')).toBe('EXTRA HOME LANG LC_ALL NO_COLOR PATH PWD TERM TMPDIR de_DE.UTF-8');
  });

  it('keeps the screen as drawn, the raw log, and the signal that ended the program', async () => {
    const term = node(`process.stdout.write('first\\x1b[2K\\rsecond'); setTimeout(() => {}, 9e3);`);
    await term.waitFor(/^second$/);
    expect(term.raw()).toContain('\x1b[2K');
    expect(term.cursor()).toEqual({ x: 6, y: 0 });
    term.kill('SIGKILL');
    expect((await term.exit).signal).toBe(9);
  });

  it('shows the screen when a wait fails', async () => {
    const term = node(`console.log('only this')`);
    await expect(term.waitFor('something else')).rejects.toThrow(/the program ended \(\{"code":0\}\).*\nonly this/s);
  });
});
