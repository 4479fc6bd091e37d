/** A wait ends while a hand is about to press: no key answers a question that was not on the screen. */
// @ts-nocheck

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
const later = '2026-03-02T23:00:00Z';

async function drying(hurry: boolean) {
  const program = newProgram();
  await jobBefore(program, file, 'white-cloth', 'a');
  const driver = new Driver({ program, reader, procedure, file, pace: 'fast', hurry });
  const term = program.open(['resume']);
  await goOn(term);
  await term.waitFor('Your shop');
  return { program, driver, term };
}

test('while something is typed: the step stays until it is done, then comes what has finished waiting', async () => {
  const { program, driver, term } = await drying(true);
  expect(term.screen()).toContain('Non-drive end: solvent drying');
  const before = program.entries(file.name).length;
  // Waits are looked at every five seconds.
  program.clock.tick();
  await term.taken();
  term.write('Practice gr');
  await term.waitFor('> Practice gr');
  program.stand(later);
  // The figures in it are options of the question that would come up instead.
  term.write('ease 12\r');
  await term.waitFor('Thickener of the new grease');
  term.write('2');
  await term.waitFor('Base oil of the new grease');
  // Seconds later it is told, and nothing else has changed.
  program.clock.tick();
  await term.waitFor('Finished waiting: solvent drying (Non-drive end).');
  expect(term.screen()).toContain('Base oil of the new grease');
  expect(program.entries(file.name).slice(before)).toMatchObject([
    { kind: 'answer', step: 'grease-kind', key: 'grease_name', value: 'Practice grease 12' },
    { kind: 'answer', step: 'grease-kind', key: 'new_thickener', value: 'lithium-complex' },
  ]);
  for (let i = 0; i < 3; i++) await driver.step(term);
  await term.waitFor('White cloth test');
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
