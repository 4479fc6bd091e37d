/** What a stop says, and which amounts of a job clash: each condition by itself. */
import { describe, expect, it } from 'vitest';
import type { Answer } from '../../src/engine/journal/entry.js';
import { currencyClash, gateSentence, stopWords } from '../../src/engine/state/refusals.js';
import type { State } from '../../src/engine/state/state.js';
import type { StepView } from '../../src/engine/steps/step-view.js';
import type { Gate } from '../../src/procedure/schema.js';
import { Bench, modelFrom, prepared, readyToFill } from './pump.js';

const ready = readyToFill().state;
const open = prepared().state;
const gate = (say: string, overrule: Gate['overrule'] = 'with-reason'): Gate => ({
  ...{ id: 'g', at: 'leave', must: 'false', say, overrule },
});

describe('a stop says', () => {
  const says = (state: State, say: string, missing: string[] = [], refusal?: string): string =>
    stopWords(state, { gate: gate(say), missing, refusal }, 'a');
  const why = 'The bore is wide.';
  it.each<[string, State, string, string[], string | undefined, string]>([
    ['its sentence with the figures', ready, 'Fill {oil_due}.', [], undefined, 'Fill 31.4 mL.'],
    ['its sentence alone', open, 'Stop.', [], undefined, 'Stop.'],
    // What there is not is no figure that lacks its value.
    ['its sentence as it is', ready, 'Fill {nope}.', ['bore'], why, `Fill {nope}. (${why})`],
    ['the name of a figure without a value', open, 'Fill {oil_due}.', [], undefined, 'Fill (oil to pour).'],
    [
      'why it has none',
      open,
      'Fill {oil_due}.',
      ['bore'],
      why,
      `This cannot be judged yet. ${why} Correct the wrong figure.`,
    ],
    [
      'why, as a sentence',
      open,
      'Fill {oil_due}.',
      [],
      'it is wide',
      'This cannot be judged yet. it is wide. Correct the wrong figure.',
    ],
    [
      'why, as a question',
      open,
      'Fill {oil_due}.',
      [],
      'Wide?',
      'This cannot be judged yet. Wide? Correct the wrong figure.',
    ],
    [
      'why, called out',
      open,
      'Fill {oil_due}.',
      [],
      'Wide!',
      'This cannot be judged yet. Wide! Correct the wrong figure.',
    ],
    [
      'why, with a point within',
      open,
      'Fill {oil_due}.',
      [],
      'Over 1.5 mm',
      'This cannot be judged yet. Over 1.5 mm. Correct the wrong figure.',
    ],
    [
      'what is lacking, each once',
      open,
      'Fill {oil_due} of {gauge}.',
      ['bore', 'nope', 'oil', 'bore'],
      undefined,
      'This cannot be judged yet. Not known: Bore, Oil. Answer that first.',
    ],
    ['nothing that there is not', open, 'Fill {oil_due}.', ['nope'], undefined, 'Fill (oil to pour).'],
    ['beside its sentence why', open, 'Stop at {gauge}.', ['bore'], why, `Stop at 0. (${why})`],
    [
      'beside its sentence what is lacking',
      open,
      'Stop.',
      ['bore', 'oil'],
      undefined,
      'Stop. (not known yet: Bore, Oil)',
    ],
  ])('%s', (_, state, say, missing, refusal, words) => {
    expect(says(state, say, missing, refusal)).toBe(words);
  });

  it('that it cannot be overruled, where it cannot', () => {
    const told = (...overrules: Gate['overrule'][]): string => {
      const gates = overrules.map((o) => ({ gate: gate('Stop.', o), missing: [], refusal: undefined }));
      return gateSentence(ready, { gates, place: 'a' } as unknown as StepView);
    };
    expect(told()).toBe('');
    expect(told('never', 'with-reason')).toBe('Stop. This can’t be overruled.');
    expect(told('with-reason', 'never')).toBe('Stop.');
    expect(told('second-person')).toBe('Stop.');
  });
});

describe('an amount clashes with another of the job', () => {
  const model = modelFrom(`
procedure: prices
version: 1.0.0
title: Prices
summary: Invented.
places: [ { id: side, name: Side, instances: [ { id: a, label: Left }, { id: b, label: Right } ] } ]
phases: [ { id: work, title: Work } ]
steps:
  - id: price
    phase: work
    at: side
    title: Prices
    do: Ask.
    why: So.
    ask:
      - { key: spare, kind: quantity, quantity: money, unit: "", label: "Price of {maker}", limits: [0, 100000] }
      - { key: maker, kind: text, label: Maker }
  - id: all
    phase: work
    at: job
    title: All
    do: Ask.
    why: So.
    ask: [ { key: bill, kind: quantity, quantity: money, unit: "", label: Bill, limits: [0, 100000] } ]
`);
  type Given = [step: string, place: string, key: string, value: Answer, typed?: string];
  const clash = (given: Given[], key: string, place: string, typed?: string): string | undefined => {
    const bench = new Bench(model);
    for (const [step, at, k, value, said] of given)
      bench.add({ kind: 'answer', step, place: at, key: k, value, ...(said && { typed: said }), by: 'AP' });
    return currencyClash(bench.state, key, place, typed);
  };
  const left: Given[] = [
    ['price', 'a', 'maker', 'Works'],
    ['price', 'a', 'spare', 640, '640 JPY'],
  ];
  const toLeft = '“Price of Works” was given in JPY; type this amount in JPY too.';
  it.each<[string, Given[], string, string, string | undefined, string | undefined]>([
    ['in another currency', left, 'bill', 'job', '280 EUR', `Bill: ${toLeft}`],
    ['at another place', left, 'spare', 'b', '280 EUR', `Price of (maker): ${toLeft}`],
    ['not with itself', left, 'spare', 'a', '280 EUR', undefined],
    ['not in the same currency', left, 'bill', 'job', '280 JPY', undefined],
    ['not without a currency', left, 'bill', 'job', '280', undefined],
    ['not where nothing was typed', left, 'bill', 'job', undefined, undefined],
    ['not where it is none', left, 'maker', 'b', '280 EUR', undefined],
    ['not where there is no such key', left, 'nope', 'b', '280 EUR', undefined],
    ['not with what is none', [['price', 'a', 'maker', '640 JPY', '640 JPY']], 'bill', 'job', '280 EUR', undefined],
    ['not with what was not typed', [['price', 'a', 'spare', 640]], 'bill', 'job', '280 EUR', undefined],
    ['not with a bare figure', [['price', 'a', 'spare', 640, '640']], 'bill', 'job', '280 EUR', undefined],
    [
      'with the first that does',
      [
        ['price', 'a', 'spare', 1, '1'],
        ['all', 'job', 'bill', 2, '2 EUR'],
        ['price', 'b', 'spare', 3, '3 JPY'],
      ],
      'spare',
      'a',
      '5 CHF',
      'Price of (maker): “Bill” was given in EUR; type this amount in EUR too.',
    ],
  ])('%s', (_, given, key, place, typed, sentence) => {
    expect(clash(given, key, place, typed)).toBe(sentence);
  });
});
