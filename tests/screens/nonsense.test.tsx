/** Meaning goes by id: a procedure whose every sentence is nonsense is worked just as the one with its words. */
import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { calculators } from '../../src/calc/index.js';
import { replay } from '../../src/engine/replay/replay.js';
import { replaySchema } from '../../src/engine/replay/replay-file.js';
import { correctable } from '../../src/engine/state/correctable.js';
import type { State } from '../../src/engine/state/state.js';
import { type Model, modelOf } from '../../src/procedure/model.js';
import type { Procedure } from '../../src/procedure/schema.js';
import { library, root, shipped } from '../procedure/library.js';
import { type Bench, openBench } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const prose = new Set(
  'title summary notice name label help note do why otherwise tell say self_check mark caution remedy heading each text'.split(
    ' ',
  ),
);

/** Blocks whose names are those of values, not of texts. */
const ids = new Set(['gives', 'with', 'names', 'reads']);

/** The same procedure in a language that nobody speaks; figures in braces stay, since they are no words. */
function nonsense(procedure: Procedure): Procedure {
  let n = 0;
  const word = (text: string): string => `Zq${++n}.${(text.match(/\{[^}]*\}/g) ?? []).map((k) => ` ${k}`).join('')}`;
  const turn = (value: unknown, named: boolean): unknown => {
    if (typeof value === 'string') return named ? word(value) : value;
    if (Array.isArray(value)) return value.map((v) => turn(v, named && typeof v === 'string'));
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      // A question's `otherwise` is a value, a step's is a sentence.
      Object.entries(value).map(([k, v]) => [
        k,
        ids.has(k) ? v : turn(v, prose.has(k) && !(k === 'otherwise' && 'kind' in value)),
      ]),
    );
  };
  return turn(procedure, false) as Procedure;
}

describe('the shipped practice job', () => {
  const run = (p: Procedure): State => {
    const model = modelOf(p, 'h', library.tables, calculators);
    const file = parse(readFileSync(`${root}procedures/practice/college-30kw.replay.yaml`, 'utf8'));
    const out = replay(model, replaySchema.parse(file));
    if (!out.ok) throw new Error(out.message);
    return out.state;
  };
  const real = run(shipped('regrease-in-place'));
  const strange = run(nonsense(shipped('regrease-in-place')));

  test('runs to the same end', () => {
    expect(JSON.stringify(strange.model.procedure)).not.toMatch(/bearing is|grease the/i);
    expect(strange.finished).toBe(real.finished);
    const plain = (s: State) => s.entries.map(({ at: _, ...e }) => e);
    expect(plain(strange)).toEqual(plain(real));
  });

  test('knows the same values', () => {
    const all = (s: State) =>
      [...s.model.keys.keys()].flatMap((key) =>
        s.values.placesOf(key).map((place) => {
          const v = s.values.get(key, place);
          return [key, place, v.known, v.known && typeof v.value !== 'string' ? v.value : ''];
        }),
      );
    expect(all(strange)).toEqual(all(real));
  });

  test('offers the same readings at every stop', () => {
    const ways = (s: State) =>
      s.model.procedure.steps.flatMap((x) =>
        (x.gates ?? []).flatMap((g) =>
          s.model.places
            .filter((p) => p.kind === x.at)
            .map((p) => {
              const { readings, named } = correctable(s, g, p.id);
              return [x.id, g.id, p.id, named, ...readings.map((r) => r.given.first.seq)];
            }),
        ),
      );
    expect(ways(real).length).toBeGreaterThan(90);
    expect(ways(strange)).toEqual(ways(real));
  });
});

describe('the ways of a page', () => {
  const open: Bench[] = [];
  afterEach(() => {
    for (const b of open.splice(0)) b.end();
  });
  const model = pump(
    [
      step('scale', { ask: [{ key: 'scale', kind: 'yes-no', label: 'Scale at hand' }] }),
      step('check', {
        ask: [{ key: 'seen', kind: 'yes-no', label: 'Seen' }],
        gates: [
          { id: 'calm', must: '!seen', say: 'Not calm. Raise "It rattles" here.', overrule: 'never', raise: 'rattle' },
        ],
      }),
      step('hush', { branch: 'rattle', ask: [{ key: 'hushed', kind: 'yes-no', label: 'Hushed' }] }),
      asks.end,
    ],
    {
      branches: [
        { id: 'spill', at: 'job', title: 'It rattles a little', mark: 'Spilled' },
        { id: 'rattle', at: 'job', title: 'It rattles', mark: 'It rattled' },
      ],
    },
  );
  const other: Model = modelOf(nonsense(model.procedure), 'h', model.tables, {});

  test.each([
    ['with its words', model],
    ['in nonsense', other],
  ])('raise what the stop names, by one digit, %s', async (_, of) => {
    const b = openBench({
      model: of,
      entries: begun({}, [
        { kind: 'answer', step: 'scale', place: 'job', key: 'scale', value: true },
        { kind: 'answer', step: 'check', place: 'job', key: 'seen', value: true },
      ]),
      rows: 40,
    });
    open.push(b);
    await b.ready();
    await b.press('1');
    await b.waitFor('go on');
    await b.press('enter');
    const screen = await b.waitFor('STOP');
    expect(screen).toMatch(/ 1 {2}Answer again/);
    expect(screen).toMatch(/ 2 {2}Report “/);
    expect(screen.match(/Report “/g)).toHaveLength(1);
    await b.press('2', 'enter', '9');
    expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'raise', branch: 'rattle', place: 'job' });
  });
});
