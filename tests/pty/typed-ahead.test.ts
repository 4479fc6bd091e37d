/** Hands that know the way: no digit is lost or doubled between one answer and the next, typed or pasted. */
import { afterAll, expect, test } from 'vitest';
import { practiceFile, readReplay } from './drive.js';
import { closeTerminals } from './harness.js';
import { entriesBefore, InTurn } from './job-at.js';

const file = readReplay(practiceFile);
const jobs = new InTurn();
const { program } = jobs;
afterAll(() => {
  closeTerminals();
  jobs.remove();
});

async function at(step: string, place: string, shows: string) {
  const term = await jobs.open(file.name, entriesBefore(file, step, place));
  await term.waitFor(shows);
  const before = program.entries(file.name).length;
  const given = () =>
    program
      .entries(file.name)
      .slice(before)
      .flatMap((e) => (e.kind === 'answer' ? [`${e.key}=${e.typed ?? String(e.value)}`] : [e.kind]));
  return { term, given };
}

test('1 for the choice and 13000 for the figure after it, in one go', async () => {
  const { term, given } = await at('make', 'a', 'Balls, as claimed');
  term.write('113000\r');
  await term.waitFor('PA66 (nylon)');
  expect(given()).toEqual(['hybrid_claim=hybrid', 'open_limit=13000']);
});

test('the same within an eye-blink, key by key', async () => {
  const { term, given } = await at('make', 'a', 'Balls, as claimed');
  for (const [i, key] of [...'113000'].entries()) {
    program.clock.hold(90 * i);
    term.write(key);
    await term.heard();
  }
  program.clock.release();
  await term.waitFor('> 13000');
  term.write('\r');
  await term.waitFor('PA66 (nylon)');
  expect(given()).toEqual(['hybrid_claim=hybrid', 'open_limit=13000']);
});

test('a figure that is pasted stands in the field, and its line end does not record it', async () => {
  const { term, given } = await at('make', 'a', 'Balls, as claimed');
  term.write('1');
  await term.waitFor('Limiting speed, open');
  term.write('\x1b[200~13 000 rpm\r\n\x1b[201~');
  await term.waitFor(/> 13 000 rpm/);
  await term.taken();
  expect(given()).toEqual(['hybrid_claim=hybrid']);
  await term.rest();
  term.press('enter');
  await term.waitFor('PA66 (nylon)');
  expect(given()).toEqual(['hybrid_claim=hybrid', 'open_limit=13 000 rpm']);
});

test('pasted words are no commands where a figure is asked', async () => {
  const { term, given } = await at('make', 'a', 'Balls, as claimed');
  term.write('1');
  await term.waitFor('Limiting speed, open');
  // u would take the answer back, m open the menu.
  term.write('\x1b[200~maximum 13000 rpm\x1b[201~');
  await term.taken();
  expect(term.screen()).toContain('Limiting speed, open');
  expect(given()).toEqual(['hybrid_claim=hybrid']);
});

test.each([0, 30, 200, 600])('a danger is not confirmed by what is typed %i ms ahead of reading it', async (ms) => {
  const { term, given } = await at('isolate', 'job', 'DANGER');
  await term.readDanger();
  program.clock.hold(0);
  term.write('9');
  if (ms > 0) await term.taken();
  // The next danger of the step, or its confirmation, stands there now.
  program.clock.hold(ms);
  term.write('x9');
  await term.heard();
  program.clock.release();
  await term.taken();
  expect(given()).toEqual(['caution']);
});
