/** Lists from which something begins, and the way back from what began. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.js';
import { asks, pump } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const rotors = ['One', 'Two', 'Three'].map((title) => ({ id: title, title: `Rotor ${title}`, procedure: 'pump' }));

test('a digit opens the rotor beside it, a stray Enter none', async () => {
  const b = openBench({ model: pump([asks.choice]), app: { practices: () => rotors } });
  open.push(b);
  await b.ready();
  await b.press('2');
  await b.waitFor('Which invented rotor?');
  await b.press('enter');
  await b.waitFor('Nothing is picked yet');
  await b.press('2');
  await b.waitFor('Your initials');
  expect(b.screen()).toContain('Rotor Two');
  await b.press('esc');
  await b.waitFor('Which invented rotor?');
  await b.press('enter');
  await b.waitFor('Your initials');
  expect(b.screen()).toContain('Rotor Two');
});

test('Esc before the first step goes back to the list with the job in it', async () => {
  const model = pump([asks.choice]);
  const told = { ...model, procedure: { ...model.procedure, notice: 'Mind your fingers.' } };
  const b = openBench({ model: told });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('Name of the job');
  await b.press('Bench job', 'enter', 'AP', 'enter', '1');
  await b.waitFor('Before you begin');
  await b.press('esc');
  await b.waitFor('Start a job');
  expect(b.kept.entries.map((e) => e.kind)).toEqual(['job']);
  expect(b.kept.closed).toBe(1);
});
