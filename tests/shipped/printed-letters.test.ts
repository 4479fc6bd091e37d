/** Letters behind a printed size are held against what is picked. What they mean is usual in the trade (from memory). */
import { describe, expect, it } from 'vitest';
import { showKey } from '../../src/engine/values/texts.js';
import { finished, Job, refused } from './good-job.js';

/** The good job until one side of its first bearing is picked, as the print and the pick say. */
function picked(print: string, kind: string, seen?: string): Job {
  const job = new Job().answer('size', 'a', { bearing_size: print });
  job.step('seal-make', 'a.front').answers = { seal_kind: kind };
  if (seen !== undefined) job.answer('seal-make', 'a.front', { closing_seen: seen });
  if (kind === 'gap' || kind === 'contact') job.answer('seal-make', 'a.front', { seal_rubber: 'nbr' });
  return job.upTo('seal-make', 'a.back');
}
const asks = (job: Job): string[] => {
  const { state } = job.run();
  return ['closing_seen'].filter((key) => state.view('seal-make', 'a.front')?.question?.key === key);
};

describe('what is printed on the ring', () => {
  it.each([
    // 2RS: two seals that touch. 2RZ: two that do not. ZZ, 2Z: two shields. One letter: the other side can be either.
    ['6207-2RZ', 'none'],
    ['6207 2RS', 'none'],
    ['6207-ZZ', 'none'],
    ['6207-2Z/C3', 'gap'],
    ['6207 2RS', 'gap'],
    ['6207-2RZ', 'contact'],
    ['6207 2RS', 'shield-ring'],
    ['6207-RS', 'shield-ring'],
    ['6207 Z', 'contact'],
  ])('%s is asked about once where “%s” is picked', (print, kind) => {
    expect(asks(picked(print, kind))).toEqual(['closing_seen']);
    expect(refused(picked(print, kind, 'no').run())).toMatch(
      /Print and answer do not agree\. Answer "Closed by" again\./,
    );
    expect(asks(picked(print, kind, 'yes'))).toEqual([]);
  });
  it.each([
    ['6207', 'none'],
    ['6207 C3', 'none'],
    ['6207-RS', 'none'],
    ['6207-2RZ', 'gap'],
    ['6207-2RS1', 'contact'],
    ['6207 2RS', 'contact'],
    ['6207-ZZ', 'shield-ring'],
    ['6207-ZZ', 'unseen'],
  ])('%s says nothing against “%s”', (print, kind) => {
    expect(asks(picked(print, kind))).toEqual([]);
  });
  it('says what is printed in the question', () => {
    const { state } = picked('6207-2RZ', 'none').run();
    expect(showKey(state.values, 'printed_closing', 'a')).toBe('rubber seals that do not touch on both sides');
  });
  it('goes through where print and picks agree', () => {
    expect(finished(new Job().answer('size', 'a', { bearing_size: '6207-2RZ' }).run())).toBe(true);
  });
});
