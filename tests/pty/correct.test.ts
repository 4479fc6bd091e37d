/**
 * A mistake caught after the first bearing has its dose: the bore of the syringe was misread as 12.4 mm, it is 12.8 mm.
 * What that changes is on the screen before it is confirmed, and the work already done under the old figure after it.
 */
import { afterEach, expect, test } from 'vitest';
import { Driver, goOn, practiceFile, readReplay } from './drive.js';
import { closeTerminals, type TerminalUnderTest } from './harness.js';
import { jobBefore } from './job-at.js';
import { digitBefore } from './keys-for.js';
import { newProgram } from './program.js';
import { screenReader, shipped } from './read-screen.js';

afterEach(() => closeTerminals());

const file = readReplay(practiceFile);
const flat = (screen: string): string => screen.replace(/[\s┃]+/g, ' ');

// pi/4 x 12.8^2 = 128.68 mm2: 2.3 mL = 17.87 mm, and 1.4 mL = 10.88 mm more, to 28.75 mm. (A, volume of a cylinder)
const exactly = [17.87, 28.75];
// The plunger stands behind the old marks: the next one lies its own travel beyond that. 1400 / 128.68 = 10.88 mm. (A)
const marksAgain = /its own travel beyond that.{1,40} 17\.9 mm.{1,40} 10\.9 mm/;

/** All lines of a page, moved through from its first to its last. */
async function readThrough(term: TerminalUnderTest): Promise<string> {
  const lines: string[] = [];
  term.press('home');
  for (let page = 0; page < 20; page++) {
    await term.rest();
    const screen = term.screen().split('\n');
    const rules = screen.flatMap((l, i) => (/^ ?─{3}/.test(l) ? [i] : []));
    const body = screen.slice((rules[0] ?? 0) + 1, rules.at(-1));
    const m = /lines (\d+)-(\d+) of (\d+)/.exec(screen[0] ?? '');
    if (!m) return body.join('\n');
    const [from, to, all] = m.slice(1).map(Number) as [number, number, number];
    for (const [i, l] of body.slice(0, to - from + 1).entries()) lines[from - 1 + i] = l;
    if (to === all) return lines.join('\n');
    term.press('space');
  }
  throw new Error(`The last line never comes:\n${term.screen()}`);
}

test.each([
  [80, 40],
  [80, 24],
  [60, 20],
])('at %i by %i: the new second mark and the remedy before it is confirmed, then after', async (cols, rows) => {
  const program = newProgram();
  const { procedure } = shipped(file.procedure);
  await jobBefore(program, file, 'gap-fill', 'b');
  const driver = new Driver({ program, reader: screenReader(procedure), procedure, file, pace: 'fast' });
  const term = program.open(['resume'], { cols, rows });
  await goOn(term);
  await term.waitFor('Round 1 - inner race');
  const before = program.entries(file.name);

  term.write('m');
  await term.waitFor('Correct an earlier reading');
  term.write(digitBefore('Correct an earlier reading', term.screen()) ?? '');
  await term.waitFor('Which one?');
  term.write('Inside diameter of the barr');
  await term.waitFor(/▸ +Inside diameter of the barrel: 12\.4/);
  await term.rest();
  term.press('enter');
  await term.waitFor(/Inside diameter of the barrel was 12\.4/);
  await driver.press(term, '12.8\r');
  await term.waitFor('Why is it corrected?');
  await driver.press(term, 'misread the calliper\r');

  // Before: what changes is said, and nothing is recorded yet; Enter does not do it.
  await term.waitFor(/9 +correct it|Press 9 to correct it/);
  const told = flat(await readThrough(term));
  expect(told).toContain('12.4 mm → 12.8 mm');
  expect(told).toMatch(marksAgain);
  // The first dose was weighed, and is right: nothing is to be done about it.
  expect(told).not.toContain('The plunger was to move');
  term.press('end', 'enter');
  await term.taken();
  expect(program.entries(file.name)).toEqual(before);

  // After: one thing to put right, the other bearing's travel is the new one, the old reading is kept.
  term.write('9');
  const after = flat(await term.waitFor(/PUT RIGHT/));
  expect(after).toContain('Corrected. The old reading stays on record.');
  expect(after).toMatch(marksAgain);
  expect(after).toContain('Round 1 - inner race');
  const entries = program.entries(file.name);
  expect(entries.slice(0, -1)).toEqual(before);
  expect(entries.at(-1)).toMatchObject({ kind: 'correct', value: 12.8, typed: '12.8', reason: 'misread the calliper' });
  const sheet = await program.sheet(file.name);
  const marks = sheet.headline.find((f) => f.key === 'syringe_marks')?.value as number[];
  for (const [i, mm] of exactly.entries()) expect(marks[i]).toBeCloseTo(mm, 2);

  // Put right: a word on it, then nothing is left to put right.
  await term.rest();
  term.write('r');
  await term.waitFor('What was done about it?');
  await driver.press(term, 'wiped and drawn anew\r');
  await term.waitFor('Round 1 - inner race');
  expect(term.screen()).not.toContain('PUT RIGHT');
  expect(program.entries(file.name).at(-1)).toMatchObject({ kind: 'settle', step: 'marks', place: 'job' });
  program.remove();
});
