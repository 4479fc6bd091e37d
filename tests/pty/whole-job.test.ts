/** The shipped practice job in the real program, from the first screen to the last signature, with a break in it. */
import { cpSync } from 'node:fs';
import { afterEach, expect, test } from 'vitest';
import { Driver, practiceFile, readReplay } from './drive.js';
import { closeTerminals, type TerminalUnderTest } from './harness.js';
import { newProgram, type SheetJson } from './program.js';
import { screenReader, shipped } from './read-screen.js';

afterEach(() => closeTerminals());

const file = readReplay(practiceFile);
const { procedure } = shipped(file.procedure);
const reader = screenReader(procedure);

/** Esc to where everything stands (out of a text first), l leaves the job, q the program. */
async function quit(term: TerminalUnderTest): Promise<void> {
  term.press('escape');
  await term.taken();
  if (!term.screen().includes('leave this job')) {
    await term.rest();
    term.press('escape');
  }
  await term.waitFor('leave this job');
  term.write('l');
  await term.waitFor('Start a job');
  term.write('q');
  expect(await term.exit).toEqual({ code: 0 });
}

const figure = (sheet: SheetJson, key: string, place: string): number =>
  Number(sheet.headline.find((f) => f.key === key && f.place === place)?.value);

test('a whole job by keys, left in the middle and taken up again, gives the doses worked out by hand', async () => {
  const program = newProgram();
  const copy = newProgram();
  const driver = new Driver({ program, reader, procedure, file, pace: 'fast' });
  let term = program.open();
  await driver.begin(term);

  // The second bearing dries, the balls of the first are counted meanwhile. Away for an hour.
  await driver.until(term, (m) => m.step.id === 'balls-count' && m.place === 'a');
  expect(term.screen()).toMatch(/Non-drive end: solvent drying, \d+\smin\sleft, until \d\d:\d\d/);
  await quit(term);
  expect((await program.sheet(file.name)).head.finished).toBe(false);
  cpSync(program.data, copy.data, { recursive: true });

  program.pass(60);
  term = program.open(['resume']);
  await term.waitFor(/Finished waiting: solvent drying \(Non-drive end\), over at \d\d:\d\d/);
  await driver.toEnd(term);
  await quit(term);

  const sheet = await program.sheet(file.name);
  expect(sheet.head).toMatchObject({ finished: true, open: [] });
  // Drive end, 6207: pi/4 x 17 x (72^2 - 35^2) = 52 859 mm3 of envelope, less 288 g of steel at 7.81 g/mL = 36.88 mL,
  // leaves 15.98 mL, less 4.68 mL of seals, chamfers and cage (tests/shipped/closures.test.ts) 11.30 mL; 20 % of it is
  // 2.26 mL, read on a syringe: 2.3 mL. (Sizes ISO 15; mass M; 52100 steel P; A)
  expect(figure(sheet, 'dose_set', 'a')).toBe(2.3);
  // Non-drive end: (110.1 - 106.2) g / 0.85 g/mL = 4.588 mL x 30 % = 1.376 mL, read on a syringe: 1.4 mL. (A)
  expect(figure(sheet, 'dose_set', 'b')).toBe(1.4);
  // Weighed: (14.10 - 12.05) g / 0.90 g/mL = 2.278 mL; (12.05 - 10.80) / 0.90 = 1.389 mL. (A)
  expect(figure(sheet, 'dose_given', 'a')).toBeCloseTo(2.278, 3);
  expect(figure(sheet, 'dose_given', 'b')).toBeCloseTo(1.389, 3);
  // What the same readings give without a terminal is the same sheet.
  const replayed = await program.run('replay', practiceFile.pathname, '--json');
  expect(replayed.code).toBe(0);
  const said = (s: SheetJson) => s.headline.map(({ key, place, text }) => `${key} ${place}: ${text}`);
  expect(said(sheet)).toEqual(said(JSON.parse(replayed.out) as SheetJson));
  process.stdout.write(`the whole job by keys: ${program.entries(file.name).length} entries\n`);

  // In the copy somebody does not wait: the screen asks for a reason and initials, and the sheet says so.
  const hurried = copy.open(['resume']);
  const hurry = new Driver({ program: copy, reader, procedure, file, pace: 'person', hurry: true });
  await hurried.waitFor('leave this job');
  while ((await hurry.stands(hurried)).kind !== 'waiting') await hurry.step(hurried);
  const line = hurried
    .lines()
    .map((l) => /([1-9]) +Do not wait for solvent drying \(Non-drive end\)/.exec(l)?.[1])
    .find(Boolean);
  hurried.write(String(line));
  await hurried.waitFor('Reason, for the job sheet');
  hurried.write('no smell and a dry cloth\r');
  await hurried.waitFor('Initials of who answers for it');
  hurried.write('MN');
  hurried.press('end', 'enter');
  const asks = await hurried.waitFor(/Press \d to go on all the same/);
  // Enter is no such key.
  hurried.press('end', 'enter');
  await hurried.taken();
  expect(hurried.screen()).toMatch(/Press \d to go on all the same/);
  hurried.write(/Press (\d) to go on/.exec(asks)?.[1] ?? '');
  await hurried.waitFor('White cloth test');
  expect(copy.entries(file.name).at(-1)).toMatchObject({
    kind: 'overrule',
    step: 'dry',
    place: 'b',
    gate: 'wait',
    reason: 'no smell and a dry cloth',
    initials: 'MN',
  });
  expect((await copy.run('sheet', file.name)).out).toContain('no smell and a dry cloth');
  program.remove();
  copy.remove();
});
