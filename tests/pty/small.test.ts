/** The shipped cautions in a small window of a real terminal: read to their end before they are acknowledged. */
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import type { Step } from '../../src/procedure/schema.js';
import { goOn, practiceFile, readReplay } from './drive.js';
import { closeTerminals } from './harness.js';
import { jobBefore } from './job-at.js';
import { newProgram, type Program } from './program.js';
import { shipped } from './read-screen.js';

const file = readReplay(practiceFile);
const { procedure } = shipped(file.procedure);
/** The longest cautions that always apply. */
const said = (s: Step): string => (s.caution ?? []).filter((c) => typeof c === 'string').join(' ');
const step = procedure.steps
  .filter((s) => s.at === 'job' && !s.when && !s.branch && (s.caution ?? []).every((c) => typeof c === 'string'))
  .sort((a, b) => said(b).length - said(a).length)[0]!;
const last = said(step).split(/\s+/).at(-1);
let program: Program;
const acknowledged = (): number =>
  program.entries(file.name).filter((e) => e.kind === 'caution' && e.step === step.id).length;

beforeAll(async () => {
  program = newProgram();
  await jobBefore(program, file, step.id, 'job');
});
afterAll(() => program.remove());
afterEach(() => closeTerminals());

const flat = (s: string): string => s.replace(/\s+/g, ' ');

test('below 40 by 12 no key records anything; at 40 by 12 the caution is read page by page', async () => {
  const term = program.open(['resume'], { cols: 80, rows: 24 });
  await goOn(term);
  await term.waitFor(/DANGER|WARNING/);
  for (const [cols, rows] of [
    [40, 10],
    [60, 8],
    [80, 6],
    [20, 5],
    [2, 1],
    [1, 1],
  ] as const) {
    term.resize(cols, rows);
    if (cols >= 20) await term.waitFor((s) => flat(s).includes('Make the window'));
    for (const key of ['9', '0', '\r', '1', 'u']) {
      term.write(key);
      await term.taken();
    }
    expect(acknowledged()).toBe(0);
    expect(term.raw()).not.toContain('\x1b[3J');
  }
  term.resize(40, 12);
  await term.waitFor((s) => flat(s).includes('read on, 1 of'));
  await term.readDanger();
  term.write('9');
  await term.waitFor((s) => flat(s).includes('Read on to its end first'));
  expect(acknowledged()).toBe(0);
  for (let i = 0; i < 20 && !flat(term.screen()).includes('I have read this'); i++) {
    const before = term.screen();
    await term.rest();
    term.write(' ');
    await term.waitFor((now) => now !== before);
    await term.taken();
  }
  expect(flat(term.screen())).toContain(last);
  await term.readDanger();
  term.write('9');
  // What stays of it is one line; the step itself comes up.
  await term.waitFor((s) => !flat(s).includes('I have read this'));
  expect(acknowledged()).toBe(1);
});
