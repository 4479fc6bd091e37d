/** What was said once is offered where it is asked again, and taken with Enter. */
import { expect, test } from 'vitest';
import { suggestionOf } from '../../src/engine/values/texts.js';
import { Job, model } from './good-job.js';

const offered = (job: Job, step: string, place: string, key: string): string | undefined => {
  const { state } = job.run();
  const question = model.steps.get(step)?.ask?.find((q) => q.key === key);
  return question && suggestionOf(state.values, question, place);
};

test('the job may bear the name of its machine', () => {
  const job = new Job();
  job.items.length = 0;
  expect(offered(job, 'machine', 'job', 'machine')).toBe('College test bench 30 kW rotor');
});

test('what was done about the cause at one bearing is offered at the other, in either order', () => {
  const done = 'New felt ring in front of the bearing, KO (invented)';
  for (const [first, second] of [
    ['a', 'b'],
    ['b', 'a'],
  ] as const) {
    const job = new Job();
    const at = (place: string): number =>
      job.items.findIndex((x) => 'step' in x && x.step === 'cause' && x.at === place);
    const [one, other] = [at('a'), at('b')].map((i) => structuredClone(job.items[i]!));
    job.items.length = at('a');
    job.items.push(first === 'a' ? one! : other!);
    expect(offered(job, 'cause', second, 'cause_done')).toBe(done);
    job.items.pop();
    expect(offered(job, 'cause', second, 'cause_done'), 'nothing was said yet').toBeUndefined();
  }
});
