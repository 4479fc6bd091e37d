/**
 * The keyboard through a real pseudo-terminal, with whole bursts in one write. The expected answers are worked out by
 * hand from the keys; for noise each answer is held against the frame that stood before the person.
 */
import { performance } from 'node:perf_hooks';
import fc from 'fast-check';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { buildFixture, type Fixture } from '../keys/fixture/start.js';
import { size } from '../setup/size.js';
import { closeTerminals, holdDown, type KeyName } from './harness.js';

let fixture: Fixture;
beforeAll(async () => {
  fixture = await buildFixture();
});
afterAll(() => {
  closeTerminals();
  fixture.remove();
});
afterEach(() => closeTerminals(shared));

type Running = ReturnType<Fixture['start']>;
const text = (t: string) => ({ text: t });
const answers = (term: Running) => term.recorded().map((r) => r.recorded);
const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const paste = (content: string) => text(`\x1b[200~${content}\x1b[201~`);

function alive(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch {
    return false;
  }
}

async function started(options: Parameters<Fixture['start']>[0] = {}): Promise<Running> {
  const term = fixture.start(options);
  await term.waitFor('Step 1');
  return term;
}
/** A program that others were tested with before, standing on a choice; the number of its step and the answers so far. */
let shared: Running | undefined;
async function sharing(): Promise<{ term: Running; step: number; before: number }> {
  await shared?.rest();
  if (!shared || shared.ended()) shared = await started();
  const term = shared;
  if (term.screen().includes('Type: ')) {
    term.press(text('0'), 'enter');
    await term.rest();
  }
  return { term, step: Number(/Step (\d+)/.exec(term.screen())?.[1]), before: answers(term).length };
}
/** On the text field of step 2. */
async function atField(): Promise<Running> {
  const term = await started();
  term.write('1');
  await term.waitFor('Type:');
  return term;
}
/** The same in the program that is shared. */
async function sharingField(): ReturnType<typeof sharing> {
  const { term, step } = await sharing();
  term.write('1');
  await term.waitFor('Type:');
  return { term, step: step + 1, before: answers(term).length };
}

describe('bursts in one write', () => {
  const bursts: [string, (KeyName | { text: string })[], string[]][] = [
    ['Down Enter', ['down', 'enter'], ['birch']],
    ['Down Down Enter', ['down', 'down', 'enter'], ['cedar']],
    ['Down Up Up Enter goes round', ['down', 'up', 'up', 'enter'], ['ebony']],
    ['a digit answers at once', [text('4')], ['dune']],
    ['digits and Enter', [text('3'), text('12.5'), 'enter'], ['cedar', '12.5']],
    ['three answers', ['down', 'enter', text('12.5'), 'enter', 'down', 'down', 'enter'], ['birch', '12.5', 'cedar']],
    [
      'six answers, each Enter with other keys between',
      ['down', 'enter', text('1'), 'enter', text('2'), text('2'), 'enter', text('3'), text('3'), 'enter'],
      ['birch', '1', 'birch', '2', 'cedar', '3'],
    ],
    ['Backspace takes back', ['down', 'enter', text('12'), 'backspace', text('3'), 'enter'], ['birch', '13']],
  ];
  it.each(bursts)('%s', async (_name, keys, expected) => {
    const { term, step, before } = await sharing();
    term.press(...keys);
    await term.taken();
    expect(term.screen()).toContain(`Step ${step + expected.length} `);
    expect(answers(term).slice(before)).toEqual(expected);
    expect(term.screen()).toContain(`${expected.slice(-6).join(', ')}`);
    expect(term.raw()).not.toContain('\x1b[3J');
  });

  it('a sequence cut in two writes is still one key', async () => {
    const term = await started();
    // However late the rest of it comes here, it comes before the silence after which Esc was meant.
    fixture.clock.slow(40);
    term.write('\x1b');
    await term.heard();
    term.write('[');
    await term.heard();
    term.press(text('B'), 'enter');
    await term.waitFor('Step 2');
    fixture.clock.slow(1);
    expect(answers(term)).toEqual(['birch']);
  });

  it('lone Esc, Tab, Home and Page Down arrive as such; two Esc are two', async () => {
    const term = await started();
    for (const [key, name] of [
      ['escape', 'Esc'],
      ['tab', 'Tab'],
      ['shift-tab', 'Shift-Tab'],
      ['home', 'Home'],
      ['pagedown', 'PageDown'],
    ] as const) {
      term.press(key);
      await term.waitFor(`[${name}]`);
    }
    term.press('escape', 'escape');
    await term.waitFor('[Esc]');
    expect(answers(term)).toEqual([]);
  });
});

describe('paste', () => {
  it('becomes its characters; a line end in it never confirms', async () => {
    const { term, step, before } = await sharingField();
    term.press(paste('12.5\r\n'));
    await term.waitFor('Type: 12.5|');
    await term.taken();
    expect(term.screen()).toContain(`Step ${step} `);
    term.press('enter');
    await term.waitFor(`Step ${step + 1} `);
    expect(answers(term).slice(before)).toEqual(['12.5']);
  });
  it('keeps lines apart by one space, and drops what does not print', async () => {
    const { term, step, before } = await sharingField();
    term.press(paste('\n10\r\n\t x\x1b[Aä\x00\x1b]0;t\x07 5\u202e'), 'enter');
    await term.waitFor(`Step ${step + 1} `);
    // The line end and tab are one space; the space that was in the text stays.
    expect(answers(term).slice(before)).toEqual(['10  xä 5']);
  });
  it('does not answer a choice', async () => {
    const { term, step, before } = await sharing();
    term.press(paste('2\n3\n'), 'down', 'enter');
    await term.waitFor(`Step ${step + 1} `);
    expect(answers(term).slice(before)).toEqual(['birch']);
  });
});

describe('what is no key', () => {
  it.each([
    ['Ctrl+F1', '\x1b[1;5P'],
    ['function keys', '\x1bOP\x1b[15~\x1b[24;2~\x1b[[A'],
    ['mouse reports', '\x1b[<0;10;5M\x1b[<0;10;5m\x1b[M !!'],
    ['focus reports', '\x1b[I\x1b[O'],
    ['answers of the terminal', '\x1b[?62;22c\x1b[5;1R\x1b]11;rgb:0000/0000/0000\x1b\\\x1bP1$r0m\x1b\\'],
    ['Alt and Ctrl with keys', '\x1b2\x1bq\x1b\r\x04\x0b\x1a'],
    ['bytes that are not UTF-8', Buffer.from([0xff, 0xc3, 0xc0, 0x80, 0xed, 0xa0, 0x80, 0xf5])],
    ['kilobytes of one sequence', `\x1b[${'1;'.repeat(4000)}P`],
  ])('%s neither acts nor ends the program', async (_name, sent) => {
    const { term, step, before } = await sharing();
    term.write(sent);
    term.press('down', 'enter');
    await term.waitFor(`Step ${step + 1} `);
    expect(answers(term).slice(before)).toEqual(['birch']);
    expect(term.ended()).toBe(false);
  });
});

describe('a held key', () => {
  it('never answers two steps, from its first repeat on', async () => {
    const term = await started();
    await holdDown(term, fixture.clock, '\r', 1200);
    expect(answers(term)).toEqual(['amber']);
    expect(term.screen()).toContain('Step 2');
  });
  it('a held digit does not answer the next choice nor type itself into the next field', async () => {
    const term = await started();
    await holdDown(term, fixture.clock, '2', 660, { delay: 250 });
    expect(answers(term)).toEqual(['birch']);
    expect(term.screen()).toContain('Type: |');
  });
  it('may be pressed again on purpose', async () => {
    const { term, step, before } = await sharingField();
    term.press(text('5'), 'enter');
    await term.waitFor(`Step ${step + 1} `);
    await term.rest();
    term.press('enter');
    await term.waitFor(`Step ${step + 2} `);
    expect(answers(term).slice(before)).toEqual(['5', 'amber']);
  });
  it('Enter out of habit after a one-key answer is not meant for the next step', async () => {
    const term = await started();
    term.press(text('2'), 'enter');
    await term.waitFor('Step 2');
    term.press(text('7'), 'enter');
    await term.waitFor('Step 3');
    term.press(text('3'));
    await term.waitFor('Step 4');
    expect(answers(term)).toEqual(['birch', '7', 'cedar']);
  });
});

describe('every way out gives the terminal back', () => {
  const restored = '\x1b[?2004l\x1b[?25h';
  it('Ctrl-C: 130, after the answers before it', async () => {
    const term = await started();
    term.press('down', 'enter', 'ctrl-c');
    expect(await term.exit).toEqual({ code: 130 });
    expect(answers(term)).toEqual(['birch']);
    expect(term.raw()).toContain(restored);
  });
  it.each([
    ['SIGTERM', 143],
    ['SIGHUP', 129],
    ['SIGINT', 130],
  ] as const)('%s: %i', async (signal, code) => {
    const term = await started();
    term.press('down', 'enter');
    await term.waitFor('Step 2');
    term.kill(signal);
    expect(await term.exit).toEqual({ code });
    expect(term.raw()).toContain(restored);
    expect(answers(term)).toEqual(['birch']);
  });
  it('a crash in a key handler: 1, and the error is readable', async () => {
    const term = await started();
    term.write('x');
    expect((await term.exit).code).toBe(1);
    expect(term.raw()).toContain(restored);
    expect(term.screen()).toContain('Broken on purpose');
  });
  it('a crash while drawing: 1, and the error is readable', async () => {
    const term = await started();
    term.write('r');
    expect((await term.exit).code).toBe(1);
    expect(term.raw()).toContain(restored);
    expect(term.screen()).toContain('Broken while drawing');
  });
  it('the window was closed: 129, and the program is gone', async () => {
    const term = await started();
    term.press('down', 'enter');
    await term.waitFor('Step 2');
    term.hangUp();
    for (let i = 0; i < 100 && term.endCode() === undefined; i++) await pause(20);
    expect(term.endCode()).toBe('129');
    for (let i = 0; i < 100 && alive(term.pid); i++) await pause(20);
    expect(alive(term.pid)).toBe(false);
  });
  it('after a stop it takes the terminal over again', async () => {
    const term = await started();
    const taken = term.raw().split('\x1b[?2004h').length;
    await term.stop();
    term.kill('SIGCONT');
    await term.waitFor(() => term.raw().split('\x1b[?2004h').length > taken);
    expect(term.raw().split('\x1b[?2004h')).toHaveLength(taken + 1);
    // What comes at once was meant for the shell.
    await term.rest();
    term.press('down', 'enter');
    await term.waitFor('Step 2');
    expect(answers(term)).toEqual(['birch']);
  });
  it('the ordinary end: 0', async () => {
    const term = await started();
    term.write('q');
    expect(await term.exit).toEqual({ code: 0 });
    expect(term.raw()).toContain(restored);
  });
  it('leaves the line discipline as it was', async () => {
    const shell = fixture.start({ inShell: (program) => `stty -g; ${program}; stty -g; echo over` });
    await shell.waitFor('Step 1');
    shell.press('ctrl-c');
    await shell.waitFor('over');
    await shell.exit;
    const settings = shell.raw().match(/[0-9a-f]+(:[0-9a-f]+){10,}/g)!;
    expect(settings).toHaveLength(2);
    expect(settings[1]).toBe(settings[0]);
  });
});

describe('noise', () => {
  const many = size(150, 1000);
  it(`${many} seeded bursts: each answer is what the frame showed`, async () => {
    const known = ['\x1b[A', '\x1b[B', '\r', '1', '2', '3', '4', '5', '7.5', '\x7f', '\t', '\x1b', 'ä', ' ', '\x1bOB'];
    const junk = [
      '\x1b[200~9\r\x1b[201~',
      '\x1b[1;5P',
      '\x1b[<0;1;1M',
      '\x1b]0;x\x07',
      '\x1b[',
      '\x1b[I',
      '\x1b[201~',
      '\x00',
    ];
    // Ctrl-C ends the program, and q, r and x are the fixture's own way out.
    const raw = fc
      .uint8Array({ minLength: 1, maxLength: 6 })
      .map((b) => Buffer.from(b.map((x) => ([3, 0x71, 0x72, 0x78].includes(x) ? 0 : x))));
    const piece = fc.oneof(
      { weight: 8, arbitrary: fc.constantFrom(...known).map((s) => Buffer.from(s)) },
      { weight: 2, arbitrary: fc.constantFrom(...junk).map((s) => Buffer.from(s)) },
      { weight: 1, arbitrary: raw },
    );
    const bursts = fc.sample(
      fc.array(piece, { minLength: 1, maxLength: 20 }).map((p) => Buffer.concat(p)),
      {
        seed: 20240611,
        numRuns: many,
      },
    );
    const term = await started({ every: true });
    const begin = performance.now();
    let sent = 0;
    for (const burst of bursts) {
      term.write(burst);
      sent += burst.length;
      await pause(sent % 7 === 0 ? 25 : 4);
    }
    await term.taken();
    expect(term.ended()).toBe(false);
    const recorded = term.recorded();
    const wrong = recorded.filter((r) => r.recorded !== r.shown || r.step !== r.shownStep);
    const outOfOrder = recorded.filter((r, i) => r.step !== i + 1);
    const shown = recorded.filter((r) => r.shown !== undefined).length;
    console.log(
      `noise: sent ${sent} bytes in ${bursts.length} bursts, shown ${shown}, recorded ${recorded.length}, wrong ${wrong.length} (${Math.round(performance.now() - begin)} ms)`,
    );
    expect(wrong).toEqual([]);
    expect(outOfOrder).toEqual([]);
    expect(recorded.length).toBeGreaterThan(many / 10);
    // And it still listens.
    const before = recorded.length;
    await term.rest();
    term.press(text('8'), 'down', text('2'), 'enter');
    await term.waitFor(() => term.recorded().length > before);
  });

  it('typed ahead at speed, nothing is lost', async () => {
    const term = await atField();
    const digits = Array.from({ length: 1000 }, (_, i) => String(i % 10)).join('');
    const begin = performance.now();
    term.press(text(digits), 'enter');
    await term.waitFor('Step 3');
    const ms = performance.now() - begin;
    console.log(`typed ahead: sent 1001 keys, ${Math.round(1001 / (ms / 1000))} keys a second`);
    expect(answers(term)[1]).toBe(digits.slice(-40));
  });
});
