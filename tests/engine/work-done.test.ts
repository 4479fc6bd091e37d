/** Work that was done under a figure: when another one matters, what settles it, and what the work itself holds. */
import { describe, expect, it } from 'vitest';
import type { Answer } from '../../src/engine/journal/entry.js';
import { derivation } from '../../src/engine/state/derivation.js';
import { Bench, modelFrom } from './pump.js';

const model = modelFrom(`
procedure: done
version: 1.0.0
title: Done
summary: Invented.
places: []
phases: [ { id: all, title: All } ]
steps:
  - id: read
    phase: all
    at: job
    title: Read
    do: Read it off.
    why: So.
    ask:
      - { key: n, kind: number, label: Number, limits: [-1000, 1000] }
      - { key: w, kind: text, label: Word, optional: true }
      - { key: d, kind: dimensions, parts: [d_long, d_wide], unit: mm, label: Size, limits: [1, 500] }
      - { key: s, kind: series, label: Series, least: 1, most: 3, options: [ { value: x, label: X }, { value: y, label: Y } ] }
  - id: work
    phase: all
    at: job
    title: Work
    do: Do it.
    why: So.
    physical: true
    rests_on: [n, w, d, s]
    remedy: Do it anew.
  - id: after
    phase: all
    at: job
    title: After
    do: Do it.
    why: So.
    physical: true
    ask: [ { key: fine, kind: yes-no, label: Fine } ]
    rests_on: [twice]
    remedy: "It was {twice.old}, is {twice} ({twice.change}, {w.old})."
  - id: marked
    phase: all
    at: job
    title: Marked
    do: Mark it.
    why: So.
    physical: true
    rests_on: [twice]
    remedy: "It moved. {how} {twice}."
  - id: later
    phase: all
    at: job
    title: Later
    do: Look.
    why: So.
    ask:
      - { key: ready, kind: yes-no, label: Ready }
      - { key: begun, kind: yes-no, label: Begun, when: ready, otherwise: false }
facts:
  - { key: twice, at: job, label: Twice, type: double, is: n * 2.0 }
  - { key: how, at: job, label: What to do, is: "begun ? 'Go on from there.' : 'Draw it again.'" }
  - { key: below, at: job, label: Below, type: double, is: n - 200.0 }
  - { key: kept, at: job, label: Kept, type: double, is: n * 2.0, held_by: work }
  - { key: of_kept, at: job, label: Of kept, type: double, is: kept + 1.0 }
`);
const read = (n = '100', w = 'x'): Bench => new Bench(model).answer('read', 'job', { n, w, d: '80x60', s: 'x,y' });
const done = (bench: Bench, figures?: Record<string, Answer>): Bench =>
  bench.add({ kind: 'done', step: 'work', place: 'job', by: 'AP', ...(figures && { figures }) });
const changed = (bench: Bench) => bench.state.view('work', 'job')!.changed;

describe('a figure under work done', () => {
  it.each<[string, Answer, string, boolean]>([
    ['the same', 100, '100', false],
    ['one in a hundred more', 100, '101', false],
    ['over one in a hundred more', 100, '101.01', true],
    ['one in a hundred less', 100, '99', false],
    ['over one in a hundred less', 100, '98.99', true],
    ['nought', 0, '0', false],
    ['hardly more than nought', 0, '0.000000001', false],
    ['more than nought', 0, '0.000000002', true],
    ['as a word', '100', '100', true],
  ])('%s (%j, now %s) matters: %s', (_, then, now, matters) => {
    expect(changed(done(read(now), { n: then }))).toEqual(matters ? [{ key: 'n', old: then, now: Number(now) }] : []);
  });

  it.each<[string, Answer, boolean]>([
    ['d', [80, 60], false],
    ['d', [80.5, 60], false],
    ['d', [82, 60], true],
    ['d', [80, 62], true],
    ['d', [80], true],
    ['d', [80, 60, 1], true],
    ['d', 80, true],
    ['s', ['x', 'y'], false],
    ['s', ['y', 'y'], true],
    ['s', ['x', 'x'], true],
    ['s', ['x', 'y', 'x'], true],
    ['w', 'x', false],
    ['w', 'y', true],
    ['w', true, true],
  ])('%s was %j: it matters: %s', (key, then, matters) => {
    expect(changed(done(read(), { [key]: then })).map((c) => c.key)).toEqual(matters ? [key] : []);
  });

  it('below nought matters by its size', () => {
    expect(changed(done(read('99'), { below: -100 }))).toEqual([]);
    expect(changed(done(read('98'), { below: -100 }))).toEqual([{ key: 'below', old: -100, now: -102 }]);
  });

  it('that is gone matters, one that nobody had does not', () => {
    expect(changed(done(read('100', ''), { w: 'x' }))).toEqual([{ key: 'w', old: 'x', now: undefined }]);
    expect(changed(done(read()))).toEqual([]);
    expect(changed(read().done('work', 'job'))).toEqual([]);
    expect(read('100', '').done('work', 'job').entries.at(-1)).toMatchObject({
      figures: { n: 100, d: [80, 60], s: ['x', 'y'], kept: 200 },
    });
    expect(read('100', '').done('work', 'job').entries.at(-1)).not.toHaveProperty('figures.w');
  });

  it('is that of the settling from then on', () => {
    const bench = read().done('work', 'job').correct('read', 'job', 'n', '110');
    expect(changed(bench)).toEqual([{ key: 'n', old: 100, now: 110 }]);
    expect(bench.state.remedies.map((r) => r.text)).toEqual(['Do it anew.']);
    bench.do({ do: 'settle', step: 'work', place: 'job', reason: 'seen to' });
    expect([changed(bench), bench.state.remedies]).toEqual([[], []]);
    expect(changed(bench.correct('read', 'job', 'n', '100'))).toEqual([{ key: 'n', old: 110, now: 100 }]);
    // What was settled without figures is what it was when it was done.
    bench.add({ kind: 'settle', step: 'work', place: 'job', reason: 'x', by: 'AP' });
    expect(changed(bench)).toEqual([]);
    expect(changed(bench.correct('read', 'job', 'n', '110'))).toEqual([{ key: 'n', old: 100, now: 110 }]);
  });

  it('is told as it was, as it is, and what lies between', () => {
    const bench = read().done('work', 'job').answer('after', 'job', { fine: 'yes' }).done('after', 'job');
    bench.correct('read', 'job', 'n', '110');
    const [, after] = bench.state.remedies;
    expect(after?.text).toBe('It was 200, is 220 (+20, not known).');
    expect(after?.changed).toEqual([{ key: 'twice', label: 'Twice', old: '200', now: '220' }]);
    bench.do({ do: 'settle', step: 'after', place: 'job', reason: 'seen to' }).correct('read', 'job', 'n', '90');
    expect(bench.state.remedies[1]?.text).toBe('It was 220, is 180 (−40, not known).');
  });

  it('tells what to do while nobody knows yet which of two it is', () => {
    const bench = read().done('work', 'job').answer('after', 'job', { fine: 'yes' }).done('after', 'job');
    bench.done('marked', 'job').correct('read', 'job', 'n', '110');
    const said = () => bench.state.remedies.find((r) => r.view.step.id === 'marked')?.text;
    expect(said()).toBe('It moved. Look at what was done in “Marked” again. 220.');
    bench.answer('later', 'job', { ready: 'no' });
    expect(said()).toBe('It moved. Draw it again. 220.');
  });

  it('is none before the work was confirmed', () => {
    const bench = read().done('work', 'job').answer('after', 'job', { fine: 'yes' }).correct('read', 'job', 'n', '110');
    expect(bench.state.remedies.map((r) => r.view.step.id)).toEqual(['work']);
  });
});

describe('a value that work holds', () => {
  it('stays as it was when it was done', () => {
    const bench = read();
    expect(bench.value('kept', 'job')).toBe(200);
    expect(bench.do({ do: 'done', step: 'work', place: 'job' }).value('kept', 'job')).toBe(200);
    bench.correct('read', 'job', 'n', '150');
    expect([bench.value('kept', 'job'), bench.value('twice', 'job'), bench.value('of_kept', 'job')]).toEqual([
      ...[200, 300, 201],
    ]);
    // Read by entries 2 to 5, done by 6.
    expect(bench.state.values.get('kept', 'job')).toEqual({
      ...{ known: true, value: 200, plusMinus: undefined, origin: { from: 'fact', inputs: [] }, asOf: 6 },
    });
    expect(bench.state.values.get('of_kept', 'job')).toMatchObject({ asOf: 6 });
    expect(derivation(bench.state, 'kept', 'job')).toMatchObject({ kind: 'rule', shown: '200' });
  });

  it('is not known where nothing was recorded of it', () => {
    const bench = done(read(), { n: 100 });
    expect(bench.state.values.get('kept', 'job')).toEqual({ known: false, missing: ['kept'], refusal: undefined });
    expect(done(read()).value('kept', 'job')).toBeUndefined();
  });
});
