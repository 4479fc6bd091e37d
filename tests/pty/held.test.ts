/** A key that is held down answers one step at most, and nothing that is dangerous or picked. */
import { afterAll, describe, expect, test } from 'vitest';
import { practiceFile, readReplay } from './drive.js';
import { closeTerminals, holdDown, keySequences as k } from './harness.js';
import { entriesBefore, InTurn } from './job-at.js';

describe('a held key', () => {
  const file = readReplay(practiceFile);
  const jobs = new InTurn();
  const { program } = jobs;
  afterAll(() => {
    closeTerminals();
    jobs.remove();
  });

  async function held(step: string, place: string, shows: string, key: string, caution = false) {
    const term = await jobs.open(file.name, entriesBefore(file, step, place));
    await term.waitFor(shows);
    const before = program.entries(file.name).length;
    // The Enter that came here is another press.
    await term.rest();
    if (caution) {
      await term.readDanger();
      term.write('9');
      await term.taken();
      await term.rest();
    }
    await holdDown(term, program.clock, key, 2000);
    const added = program.entries(file.name).slice(before);
    return { added, screen: term.screen() };
  }

  test('Enter, held for two seconds, answers one step', async () => {
    const { added } = await held('fill-syringe', 'job', 'Fill the syringe', k.enter, true);
    expect(added.map((e) => e.kind)).toEqual(['caution', 'done']);
  });

  test.each([
    ['a danger', 'isolate', 'job', 'DANGER'],
    ['a question that is picked', 'make', 'a', 'Balls, as claimed'],
  ])('Enter, held for two seconds at %s, records nothing', async (_, step, place, shows) => {
    const { added } = await held(step, place, shows, k.enter);
    expect(added).toEqual([]);
  });

  test('the key that confirms a danger, held, confirms one: the next wants another', async () => {
    const { added, screen } = await held('isolate', 'job', 'DANGER', '9');
    expect(added.length).toBeLessThanOrEqual(1);
    expect(screen).not.toMatch(/Press +0 /);
  });
});
