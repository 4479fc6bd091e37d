/** Whose hands were where, and who may therefore not vouch: each condition by itself. */
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { noHands, ownStop, ownWork, withHand } from '../../src/engine/journal/witness.js';

const entry = (seq: number, kind: string, place: string | undefined, by = 'AP'): Entry =>
  ({ seq, at: '', by, kind, ...(place === undefined ? {} : { place }) }) as unknown as Entry;
const handsAfter = (...entries: Entry[]) => entries.reduce(withHand, noHands);
const own = (
  entries: Entry[],
  place: string,
  initials: string,
  more: { operator?: string; apprentice?: string } = {},
  step?: Parameters<typeof ownWork>[3],
): boolean =>
  ownWork(
    {
      hands: handsAfter(...entries),
      operator: more.operator ?? 'OP',
      job: more.apprentice ? { apprentice: more.apprentice } : undefined,
    },
    place,
    initials,
    step,
  );

describe('own work', () => {
  it.each(['answer', 'correct', 'done', 'settle'])('%s is work at its place', (kind) => {
    expect(own([entry(2, kind, 'a')], 'a', 'AP')).toBe(true);
    expect(own([entry(2, kind, 'a')], 'a', 'KR')).toBe(false);
  });
  it.each(['caution', 'note', 'raise', 'overrule', 'predict'])('%s is none', (kind) => {
    expect(own([entry(2, kind, 'a')], 'a', 'AP')).toBe(false);
  });
  it('at a place counts for what holds it, not for its neighbour', () => {
    const front = [entry(2, 'done', 'a.front')];
    expect(own(front, 'a', 'AP')).toBe(true);
    expect(own(front, 'job', 'AP')).toBe(true);
    expect(own(front, 'a.front', 'AP')).toBe(true);
    expect(own(front, 'a.back', 'AP')).toBe(false);
    expect(own(front, 'b', 'AP')).toBe(false);
    expect(own([entry(2, 'done', 'a')], 'a.front', 'AP')).toBe(false);
    expect(own([entry(2, 'done', 'ab')], 'a', 'AP')).toBe(false);
    expect(own([entry(2, 'operator', undefined)], 'job', 'AP')).toBe(false);
  });
  it('ends with a signature for that place, by the latest that this person did', () => {
    const signed = [entry(2, 'done', 'a'), entry(3, 'sign', 'a', 'MN')];
    expect(own(signed, 'a', 'AP')).toBe(false);
    expect(own(signed, 'job', 'AP')).toBe(true);
    expect(own([...signed, entry(4, 'done', 'a')], 'a', 'AP')).toBe(true);
    expect(own([...signed, entry(4, 'done', 'a', 'KR')], 'a', 'AP')).toBe(false);
    expect(own([...signed, entry(4, 'done', 'a', 'KR')], 'a', 'KR')).toBe(true);
    expect(own([entry(3, 'sign', 'a', 'MN'), entry(3, 'done', 'a')], 'a', 'AP')).toBe(false);
  });
  it('each person once at a place, the others beside', () => {
    const { worked } = handsAfter(entry(2, 'done', 'a'), entry(3, 'done', 'a', 'KR'), entry(4, 'answer', 'a'));
    expect(worked.get('a')).toEqual([
      { initials: 'KR', seq: 3 },
      { initials: 'AP', seq: 4 },
    ]);
  });
  it('is also that of whoever types, learns, or recorded something of the step', () => {
    expect(own([], 'a', 'OP')).toBe(true);
    expect(own([], 'a', 'LE', { apprentice: 'LE' })).toBe(true);
    const step = (done?: string, ...answers: [first: string, entry: string][]) => ({
      done: done === undefined ? undefined : { by: done },
      answers: new Map(answers.map(([first, last], i) => [String(i), { first: { by: first }, entry: { by: last } }])),
    });
    expect(own([], 'a', 'DO', {}, step('DO'))).toBe(true);
    expect(own([], 'a', 'FI', {}, step(undefined, ['FI', 'LA']))).toBe(true);
    expect(own([], 'a', 'LA', {}, step(undefined, ['FI', 'LA']))).toBe(true);
    expect(own([], 'a', 'XY', {}, step('DO', ['FI', 'LA']))).toBe(false);
  });
});

describe('own stop', () => {
  const stop = (initials: string, job: { mentor?: string; apprentice?: string } | undefined) =>
    ownStop({ operator: 'OP', job }, initials, 'BY', false);
  it('is let pass by nobody who works on it, where a mentor is named', () => {
    for (const who of ['OP', 'BY', 'b.y']) expect(stop(who, { mentor: 'MN' }), who).toMatch(/the mentor, answers/);
    expect(stop('LE', { mentor: 'MN', apprentice: 'LE' })).toMatch(/^LE works on this/);
    expect(stop('MN', { mentor: 'MN', apprentice: 'LE' })).toBeUndefined();
    expect(stop('OP', {})).toBeUndefined();
    expect(stop('OP', undefined)).toBeUndefined();
  });
});
