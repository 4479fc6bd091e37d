/** A sound is heard or not recorded: at every reading a person's own key says what it is, and nothing is offered. */
import { describe, expect, test } from 'vitest';
import { State } from '../../src/engine/state/state.js';
import { suggestionOf } from '../../src/engine/values/texts.js';
import { Job } from './good-job.js';

const good = new Job().run();
if (!good.ok) throw new Error(good.message);
const { entries, model } = good.state;
const step = model.procedure.steps.find((s) => s.id === 'run-in-log');
const question = step?.ask?.find((q) => q.key === 'sound');
if (!question) throw new Error('no sound in the log');
const sounds = entries.flatMap((e, i) =>
  e.kind === 'answer' && e.step === 'run-in-log' && e.key === 'sound' ? [i] : [],
);

/** The good job up to the sound of the reading of this number, from 0. */
const upTo = (reading: number): State => {
  const end = sounds[reading] ?? Number.NaN;
  return new State(model, entries.slice(0, end), Date.parse(entries[end]?.at ?? ''));
};

describe('the sound of a reading', () => {
  test('is none of what the brisk pace fills in', () => {
    expect(question.filled).toBeUndefined();
  });
  test('is asked for at every reading, the last thing of its row', () => {
    expect(sounds.length).toBeGreaterThan(30);
    for (const reading of [0, 1, 2, 20, sounds.length - 1])
      expect(upTo(reading).view('run-in-log', 'job')?.question?.key).toBe('sound');
  });
  test('is never offered, however smooth all was before', () => {
    for (const reading of sounds.keys()) expect(suggestionOf(upTo(reading).values, question, 'job')).toBeUndefined();
  });
});
