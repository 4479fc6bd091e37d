/** Each gate of the procedures beside the main one holds when it should: one reading of a good job is spoilt at a time. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { runReplay } from '../../src/commands/run-replay.js';
import { type ReplayOutcome, replay } from '../../src/engine/replay/replay.js';
import type { ReplayFile } from '../../src/engine/replay/replay-file.js';
import { earlierValues } from '../../src/engine/state/earlier.js';
import { library, modelFor, root, shipped } from './library.js';

type Item = Record<string, unknown> & {
  step?: string;
  at?: string;
  answers?: Record<string, unknown>;
  rows?: unknown[];
};
const good = (name: string): ReplayFile =>
  parse(readFileSync(`${root}tests/procedure/replays/${name}.replay.yaml`, 'utf8'));
const practice = runReplay(`${root}procedures/practice/college-30kw.replay.yaml`, library);
if (!practice.ok) throw new Error(practice.message);
const before = earlierValues(shipped('inspect-after-run'), practice.state);
if (!before.ok) throw new Error(before.message);

function run(name: 'inspect', change: (items: Item[]) => Item[]): ReplayOutcome {
  const file = good(name);
  const steps = change(structuredClone(file.steps) as Item[]) as ReplayFile['steps'];
  return replay(modelFor(file.procedure), { ...file, steps }, { earlier: before.ok ? before.values : undefined });
}
const spoil =
  (step: string, at: string | undefined, answers: Record<string, unknown>) =>
  (items: Item[]): Item[] =>
    items.map((i) =>
      i.step === step && (i.at ?? 'job') === (at ?? 'job') ? { ...i, answers: { ...i.answers, ...answers } } : i,
    );
const said = (o: ReplayOutcome): string => (o.ok ? 'it went through' : o.message);

describe('inspection', () => {
  it.each([
    ['another rotor', 'same-rotor', undefined, { number_agrees: 'no' }, /It is another rotor\..*can’t be overruled/],
    ['too late', 'since-then', undefined, { hours_run: '501' }, /It was due after 500 hours, and 501 were run/],
    [
      'too fast meanwhile',
      'since-then',
      undefined,
      { fastest: '14100 rpm' },
      /It ran at 14.100 rpm, and dose and grease were chosen for 14.000 rpm/,
    ],
    ['no guard', 'stand-clear', undefined, { guard: 'open' }, /Without its guard/],
    [
      'too fast now',
      'working-speed',
      undefined,
      { speed_now: '14001 rpm' },
      /above the 14.000 rpm that it was greased for/,
    ],
    ['grinding', 'listen', 'a', { heard: 'grinding' }, /Switch off now\. It is grinding/],
    ['not locked out', 'switch-off', undefined, { locked: 'no' }, /Not locked out\./],
    ['a milder decision than the findings', 'verdict', 'b', { fate: 'watch' }, /milder than the findings/],
    ['a much milder one', 'verdict', 'b', { fate: 'run-on' }, /milder than the findings/],
  ])('holds for %s', (_, step, at, answers, sentence) => {
    expect(said(run('inspect', spoil(step, at, answers)))).toMatch(sentence);
  });

  it('stops the readings at the limit of the first sheet, and goes on after the heat was raised', () => {
    const hot = (items: Item[]): Item[] =>
      items.map((i) =>
        i.step === 'warmth' && i.at === 'a'
          ? {
              ...i,
              rows: [
                { ring_temp: '55 C' },
                { after: '5 min', ring_temp: '70 C' },
                { after: '5 min', ring_temp: '60 C' },
              ],
            }
          : i,
      );
    expect(said(run('inspect', hot))).toMatch(
      /70 ± 1 °C is at or over the limit of 70 °C|70 °C is at or over the limit/,
    );
    const raised = run('inspect', (items) =>
      items.flatMap((i): Item[] => {
        if (i.step === 'warmth' && i.at === 'a')
          return [
            { ...i, rows: [{ ring_temp: '55 C' }] },
            { raise: 'too-hot', at: 'a' },
            { step: 'hot-stop', at: 'a', answers: { peak: '74 C' } },
            { step: 'warmth', at: 'a' },
          ];
        if (i.step === 'listen' && i.at === 'a') return [{ ...i, answers: { heard: 'not-heard' } }];
        if (i.step === 'verdict' && i.at === 'a')
          return [{ ...i, predict: { advice: 'open' }, answers: { fate: 'open' } }];
        return [i];
      }),
    );
    expect(said(raised)).toBe('it went through');
    expect(raised.state.values.get('advice_why', 'a')).toMatchObject({ value: 'it went over its limit' });
    expect(raised.state.finished).toBe(true);
  });

  it('says run on and the same time again when nothing was found, a quarter when something is watched', () => {
    const calm = (items: Item[]): Item[] =>
      [
        spoil('seal-outside', 'a.back', { outside: 'dry' }),
        spoil('listen', 'b', { heard: 'smooth', tone: 'none' }),
        spoil('verdict', 'a', { fate: 'run-on' }),
        spoil('verdict', 'b', { fate: 'run-on' }),
      ]
        .reduce((list, f) => f(list), items)
        .filter((i) => i.step !== 'bring')
        .flatMap((i): Item[] =>
          i.step === 'out-of-service' ? [{ step: 'close-up', answers: { closed_up: 'yes' } } as Item, i] : [i],
        )
        .map((i) =>
          i.step === 'warmth' && i.at === 'b'
            ? {
                ...i,
                rows: [
                  { ring_temp: '40 C' },
                  { after: '10 min', ring_temp: '40 C' },
                  { after: '10 min', ring_temp: '40 C' },
                ],
              }
            : i.step === 'out-of-service'
              ? { step: 'next-look', predict: { next_due: '500' }, answers: { next_set: '500' } }
              : i,
        );
    const quiet = run('inspect', calm);
    expect(said(quiet)).toBe('it went through');
    expect(quiet.state.values.get('next_due', 'job')).toMatchObject({ value: 500 });
    const later = run('inspect', (items) => spoil('next-look', undefined, { next_set: '501' })(calm(items)));
    expect(said(later)).toMatch(/501 hours are later than 500 h\./);
    const watched = run('inspect', (items) =>
      [
        spoil('seal-outside', 'a.back', { outside: 'film' }),
        spoil('verdict', 'a', { fate: 'watch' }),
        spoil('next-look', undefined, { next_set: '120', call_whom: 'Head of the workshop' }),
      ].reduce((l, f) => f(l), calm(items)),
    );
    expect(said(watched)).toBe('it went through');
    expect(watched.state.values.get('next_due', 'job')).toMatchObject({ value: 120 });
  });
});
