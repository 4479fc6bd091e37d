/** A wait ends while a hand is about to press: no key answers a question that was not on the screen. */
import { afterEach, expect, test } from 'vitest';
import { Driver, goOn, practiceFile, readReplay } from './drive.js';
import { closeTerminals } from './harness.js';
import { jobBefore } from './job-at.js';
import { newProgram } from './program.js';
import { screenReader, shipped } from './read-screen.js';

afterEach(() => closeTerminals());

const file = readReplay(practiceFile);
const { procedure } = shipped(file.procedure);
const reader = screenReader(procedure);
/** The second bearing has dried by then. */
const later = '2026-03-03T23:00:00Z';

async function drying(hurry: boolean) {
  const program = newProgram();
  await jobBefore(program, file, 'balls-count', 'a');
  const driver = new Driver({ program, reader, procedure, file, pace: 'fast', hurry });
  const term = program.open(['resume']);
  await goOn(term);
  await term.waitFor('Number of balls');
  return { program, driver, term };
}

test('while something is typed: the step stays until it is done, then comes what has finished waiting', async () => {
  const { program, driver, term } = await drying(true);
  expect(term.screen()).toContain('Non-drive end: solvent drying');
  const before = program.entries(file.name).length;
  // Waits are looked at every five seconds.
  program.clock.tick();
  await term.taken();
  term.write('9');
  await term.waitFor('> 9');
  program.stand(later);
  term.write('\r');
  await term.waitFor(/1 +Measured/);
  term.write('1');
  await term.waitFor(/> .* mm/);
  // Seconds later it is told, and nothing else has changed.
  program.clock.tick();
  await term.waitFor('Finished waiting: solvent drying (Non-drive end).');
  expect(term.screen()).toContain('Count the balls');
  expect(program.entries(file.name).slice(before)).toMatchObject([
    { kind: 'answer', step: 'balls-count', place: 'a', key: 'balls', value: 9 },
    { kind: 'answer', step: 'balls-count', place: 'a', key: 'ball_by', value: 'measured' },
  ]);
  await driver.until(term, (m) => m.step.id === 'white-cloth' && m.place === 'b');
  program.remove();
});

test('on the page of a wait: the first key only brings up what is next', async () => {
  const { program, driver, term } = await drying(true);
  while ((await driver.stands(term)).kind !== 'waiting') await driver.step(term);
  const before = program.entries(file.name);
  term.press('tab');
  await term.waitFor((s) => s.startsWith(' Non-drive end'));
  // From now on it looks at its waits only when a key makes it.
  program.clock.tick();
  await term.taken();
  program.stand(later);
  // Meant for the line “1 Where everything stands”; it would record a white cloth.
  await term.rest();
  term.write('1');
  await term.waitFor('White cloth test');
  await term.taken();
  expect(program.entries(file.name)).toEqual(before);
  await term.rest();
  term.write('9');
  await term.waitFor('1  Yes');
  term.write('1');
  await term.waitFor('Recorded  No smell');
  await term.rest();
  term.write('1');
  await term.waitFor('Count the balls');
  expect(program.entries(file.name).at(-1)).toMatchObject({ step: 'white-cloth', place: 'b', value: 'white' });
  program.remove();
});
