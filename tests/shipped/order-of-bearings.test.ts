/** One filling, two marks: a mark counts both doses in the order drawn, and only in that. */
import { describe, expect, it } from 'vitest';
import { fillIn } from '../../src/engine/values/texts.js';
import { Job, model } from './good-job.js';

/** What round two says at a place once these steps are done. */
function roundTwo(place: string, before: string, at: string): string {
  const job = new Job();
  job.items.length = job.items.findIndex((x) => 'step' in x && x.step === before && x.at === at);
  const { state } = job.run();
  return fillIn(state.values, model.steps.get('race-fill')?.do ?? '', place);
}

describe('round two', () => {
  it('goes to the mark where the bearings come in the order of the marks', () => {
    expect(roundTwo('a', 'race-fill', 'a')).toMatch(/until the plunger is at its mark\.$/);
    expect(roundTwo('b', 'race-fill', 'b')).toMatch(/until the plunger is at its mark\.$/);
  });
  it('warns of the mark where the second is packed while the first still waits', () => {
    expect(roundTwo('b', 'race-fill', 'a')).toMatch(/by “Still to push now”, no further\. Do not use the tape mark/);
  });
});
