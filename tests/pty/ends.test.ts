/** Every way out: by key, by signal, by closing the window; no terminal at all; and a second window on the same job. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { goOn, practiceFile, readReplay } from './drive.js';
import { closeTerminals, openTerminal, type TerminalUnderTest } from './harness.js';
import { jobBefore } from './job-at.js';
import { cli, newProgram, type Program } from './program.js';

/** A program that the next test finds open. */
let goesOn: TerminalUnderTest | undefined;
afterEach(() => closeTerminals(goesOn));

const file = readReplay(practiceFile);
const oneLine = /^The guide needs a terminal[^\n]*rotorside replay FILE\.\r?\n$/;

/** On the bench, before the question that is typed or picked there. */
async function opened(program: Program, shows: string, options: Parameters<Program['open']>[1] = {}) {
  const term = program.open(['resume'], options);
  await goOn(term);
  await term.waitFor(shows);
  return term;
}

describe('without a terminal', () => {
  test.each([[[]], [['resume']], [['practice', 'quiet-one']]])(
    '%j: one line on stderr that names replay, exit 2',
    (args) => {
      const done = spawnSync(process.execPath, [cli, ...args], { encoding: 'utf8', input: '1\n' });
      expect(done.status).toBe(2);
      expect(done.stdout).toBe('');
      expect(done.stderr).toMatch(oneLine);
      expect(done.stderr).not.toContain('\x1b');
    },
  );

  test.each(['</dev/null', '| cat'])('one end is none (%s)', async (how) => {
    const program = newProgram();
    const script = `{ "$0" "$1"; echo "code $?" >"$2"; } ${how}`;
    const told = join(program.data, '..', 'code');
    const term = openTerminal({ command: '/bin/sh', args: ['-c', script, process.execPath, cli, told] });
    await term.exit;
    expect(readFileSync(told, 'utf8')).toBe('code 2\n');
    expect(term.raw()).toMatch(oneLine);
    program.remove();
  });
});

describe('left from outside, in the middle of typing', () => {
  const ways: [string, (t: TerminalUnderTest) => void, number][] = [
    ['Ctrl-C', (t) => t.press('ctrl-c'), 130],
    ['Ctrl-C twice', (t) => t.press('ctrl-c', 'ctrl-c'), 130],
    ['SIGINT', (t) => t.kill('SIGINT'), 130],
    ['SIGTERM', (t) => t.kill('SIGTERM'), 143],
    ['SIGHUP', (t) => t.kill('SIGHUP'), 129],
    ['SIGQUIT', (t) => t.kill('SIGQUIT'), 131],
    ['SIGUSR2', (t) => t.kill('SIGUSR2'), 140],
    ['SIGALRM', (t) => t.kill('SIGALRM'), 142],
    ['the window closed', (t) => t.hangUp(), 129],
  ];
  // One job for all of them: a letter more each time, and the program that finds it again is left in the next way.
  let program: Program;
  let before = 0;
  let typed = '';
  beforeAll(async () => {
    program = newProgram();
    await jobBefore(program, file, 'make', 'a');
    const first = await opened(program, 'Balls, as claimed');
    before = program.entries(file.name).length;
    first.write('1');
    await first.waitFor('Limiting speed, open');
    goesOn = first;
  });
  afterAll(() => {
    goesOn = undefined;
    closeTerminals();
    program.remove();
  });

  test.each(ways)('%s', async (name, leave, code) => {
    goesOn ??= await opened(program, 'Limiting speed, open');
    const left = goesOn;
    goesOn = undefined;
    const more = '13000 rpm'.slice(typed.length, typed.length + 1);
    typed += more;
    left.write(more);
    await left.waitFor(`> ${typed}▏`);
    // What is typed is kept a moment after the last key.
    await program.keeps(typed);
    leave(left);
    const ended = await left.exit;
    if (name !== 'the window closed') {
      expect(ended).toEqual({ code });
      // Paste mode off, cursor shown: the shell gets its terminal back.
      const tail = left.raw().slice(-200);
      expect(tail).toContain('\x1b[?2004l');
      expect(left.raw().lastIndexOf('\x1b[?25h')).toBeGreaterThan(left.raw().lastIndexOf('\x1b[?25l'));
    }
    const entries = program.entries(file.name);
    expect(entries).toHaveLength(before + 1);
    expect(entries.at(-1)).toMatchObject({ kind: 'answer', key: 'hybrid_claim', value: 'hybrid' });
    // Nothing holds the job, and what was typed stands there still.
    goesOn = await opened(program, 'Limiting speed, open');
    expect(goesOn.screen()).toContain(`> ${typed}▏`);
    expect(goesOn.screen()).not.toContain('to look at only');
  });

  test('and what was typed so is recorded like any other answer', async () => {
    expect(typed).toBe('13000 rpm');
    await goesOn?.rest();
    goesOn?.write('\r');
    await goesOn?.waitFor('PA66 (nylon)');
    expect(program.entries(file.name).at(-1)).toMatchObject({ key: 'open_limit', value: 13_000, typed: '13000 rpm' });
  });
});

test('SIGTERM on a page without a job ends with its code too', async () => {
  const program = newProgram();
  const term = program.open();
  await term.waitFor('Start a job');
  term.write('1');
  await term.waitFor('Which procedure?');
  term.kill('SIGTERM');
  expect(await term.exit).toEqual({ code: 143 });
  program.remove();
});

test.each(['CI', 'CONTINUOUS_INTEGRATION'])('with %s set each key is followed by its frame', async (name) => {
  const program = newProgram();
  await jobBefore(program, file, 'make', 'a');
  const term = await opened(program, 'Balls, as claimed', { env: { [name]: '1' } });
  term.write('1');
  await term.waitFor('Limiting speed, open');
  term.write('13');
  await term.waitFor('> 13');
  program.remove();
});

test('suspended, the shell has its terminal; brought back, the screen is drawn with no key', async () => {
  const program = newProgram();
  await jobBefore(program, file, 'make', 'a');
  const term = await opened(program, 'Balls, as claimed');
  const before = program.entries(file.name).length;
  const from = term.raw().length;
  await term.stop('SIGTSTP');
  await waitUntil(() => term.raw().slice(from).includes('\x1b[?25h'));
  expect(term.raw().slice(from)).toContain('\x1b[?2004l');
  const stopped = term.raw().length;
  term.kill('SIGCONT');
  await waitUntil(() => term.raw().slice(stopped).includes('Balls, as claimed'));
  await term.waitFor('Balls, as claimed');
  expect(term.raw().slice(stopped)).toMatch(/\x1b\[\?2004h[\s\S]*\x1b\[\?25l/);
  expect(program.entries(file.name)).toHaveLength(before);
  await term.rest();
  term.write('1');
  await term.waitFor('Limiting speed, open');
  program.remove();
});

async function waitUntil(holds: () => boolean): Promise<void> {
  for (const end = Date.now() + 60_000; !holds(); ) {
    if (Date.now() > end) throw new Error('It never was so');
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

describe('two windows on one job', () => {
  test('the second can only look, and says why; it can work once the first is closed', async () => {
    const program = newProgram();
    await jobBefore(program, file, 'make', 'a');
    const first = await opened(program, 'Balls, as claimed');
    const before = program.entries(file.name).length;
    const second = program.open(['resume']);
    const says = (await second.waitFor('leave this job')).replace(/\s+/g, ' ');
    expect(says).toContain(
      `This job is open in another window (process ${first.pid}), so it can only be looked at here; close it there first.`,
    );
    await goOn(second);
    await second.waitFor('Balls, as claimed');
    expect(second.screen()).toContain('to look at only');
    second.write('1');
    await second.taken();
    expect(second.screen()).toContain('Balls, as claimed');
    expect(program.entries(file.name)).toHaveLength(before);
    // The first is not disturbed.
    first.write('1');
    await first.waitFor('Limiting speed, open');
    expect(program.entries(file.name)).toHaveLength(before + 1);
    first.press('ctrl-c');
    await first.exit;
    second.press('ctrl-c');
    expect(await second.exit).toEqual({ code: 130 });
    const third = await opened(program, 'Limiting speed, open');
    expect(third.screen()).not.toContain('to look at only');
    program.remove();
  });

  test('two windows opened at the same instant: one works, the other looks', async () => {
    const program = newProgram();
    await jobBefore(program, file, 'make', 'a');
    const both = [program.open(['resume']), program.open(['resume'])];
    const screens = await Promise.all(both.map((t) => t.waitFor('leave this job')));
    expect(screens.filter((s) => s.includes('open in another window'))).toHaveLength(1);
    program.remove();
  });
});
