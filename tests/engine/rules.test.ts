/** A rule in the numbers of a job, the table rows that it reads, and the readings by which a stop is put right. */
import { describe, expect, it } from 'vitest';
import { type CorrectableReading, correctable, readingsOf } from '../../src/engine/state/correctable.js';
import { ruleWords } from '../../src/engine/values/rule-words.js';
import { rowsReadBy } from '../../src/engine/values/table-sources.js';
import type { Gate } from '../../src/procedure/schema.js';
import { Bench, finished, measured, prepared, readyToFill } from './pump.js';

describe('a rule in words', () => {
  const ready = readyToFill();
  const shown: Readonly<Record<string, string>> = { bore: '40 mm', stroke: '50 mm', share: '50 %' };
  const words = (rule: string, bench: Bench = ready, place = 'a') =>
    ruleWords(bench.state.values, rule, place, (key) => shown[key]);
  it.each([
    ['bore', '40 mm'],
    ['bore + stroke', '40 mm + 50 mm'],
    ['bore - stroke', '40 mm - 50 mm'],
    ['bore * 2.5', '40 mm × 2.5'],
    ['bore * share / 100.0', '40 mm × 50 % / 100'],
    ['(bore + stroke) * 2.0', '(40 mm + 50 mm) × 2'],
    ['2.0 * (bore + stroke)', '2 × (40 mm + 50 mm)'],
    ['bore * 2.0 + stroke', '40 mm × 2 + 50 mm'],
    ['bore + 2.0 * stroke', '40 mm + 2 × 50 mm'],
    ['bore + (stroke + 1.0)', '40 mm + 50 mm + 1'],
    ['bore - (stroke + 1.0)', '40 mm - (50 mm + 1)'],
    ['bore - stroke - 1.0', '40 mm - 50 mm - 1'],
    ['bore * (stroke / 2.0)', '40 mm × 50 mm / 2'],
    ['bore / (stroke * 2.0)', '40 mm / (50 mm × 2)'],
    ['bore / stroke / 2.0', '40 mm / 50 mm / 2'],
    ['min(bore, stroke) * 2.0', 'the smaller of 40 mm and 50 mm × 2'],
    ['max(bore, stroke)', 'the larger of 40 mm and 50 mm'],
    ['round(bore * 2.0, 1.0)', '40 mm × 2, rounded'],
    ['abs(bore - stroke)', 'the size of (40 mm - 50 mm)'],
    ["keep == 'keep' ? bore : stroke", '40 mm'],
    ["keep == 'replace' ? bore : stroke", '50 mm'],
    // Half of pi/4 x 30^2 x 50 mm3 = 17.671 mL; and a plain number.
    ['at(dues, 1.0)', '17.67 mL'],
    ['at([1.5, 2.5], 1.0) * 2.0', '2.5 × 2'],
  ])('%s: %s', (rule, text) => {
    expect(words(rule, ready, rule.includes('dues') ? 'job' : 'a')).toBe(text);
  });

  it.each([
    'swept',
    'swept + bore',
    'bore + swept',
    'min(bore, swept)',
    'min(swept, bore)',
    'sum([bore, stroke])',
    'double(size([bore]))',
    "number_in('oils', 'thin', 'share')",
    'at(dues, 5.0)',
    'bore > stroke',
    "keep == 'keep'",
    'has_outlet ? swept : stroke == 1.0 ? bore : swept',
  ])('none for %s', (rule) => {
    expect(words(rule)).toBeUndefined();
  });

  it('none while it is open which side of a choice is taken', () => {
    expect(words("keep == 'keep' ? bore : stroke", prepared())).toBeUndefined();
  });
});

describe('table rows read by a rule', () => {
  const rows = (rule: string, bench: Bench = readyToFill()) =>
    rowsReadBy(bench.state.values, rule, 'a').map((r) => `${r.table} ${r.row} ${r.source.tag} ${r.source.text}`);
  const thin = 'oils thin P An oil table, 1999';
  const thick = 'oils thick M from memory';
  it.each<[string, string[]]>([
    ['bore * 2.0', []],
    ["number_in('oils', oil, 'share') / 100.0", [thin]],
    ["text_in('oils', 'thick', 'grade')", [thick]],
    ["number_in('oils', 'thin', 'share') * number_in('oils', oil, 'share')", [thin]],
    ["text_in('oils', 'thin', 'grade') + text_in('oils', 'thick', 'grade')", [thin, thick]],
    ["number_in('oils', 'thick', 'share') + number_in('oils', oil, 'share')", [thick, thin]],
    ["text_in('oils', oil, 'grade') == 'x' ? number_in('oils', 'thin', 'share') : 1.0", [thin]],
    ["keep == 'keep' ? number_in('oils', 'thin', 'share') : number_in('oils', 'thick', 'share')", [thin]],
    ["keep == 'replace' ? number_in('oils', 'thin', 'share') : number_in('oils', 'thick', 'share')", [thick]],
    // A choice inside a call; a row that no table has.
    ["max(1.0, keep == 'keep' ? number_in('oils', 'thick', 'share') : 2.0)", [thick]],
    ["number_in('oils', 'none', 'share')", []],
  ])('%s', (rule, found) => {
    expect(rows(rule)).toEqual(found);
  });

  it('of two tables stand beside each other; a rule without a table is not even read', () => {
    const { values } = readyToFill().state;
    const { oils } = values.model.tables;
    const model = { ...values.model, tables: { oils: oils!, fats: { ...oils!, id: 'fats' } } };
    const two = Object.create(values, { model: { value: model } });
    const rule = "number_in('oils', 'thin', 'share') + number_in('fats', 'thin', 'share')";
    expect(rowsReadBy(two, rule, 'a').map((r) => `${r.table} ${r.row}`)).toEqual(['oils thin', 'fats thin']);
    expect(rowsReadBy({} as typeof values, 'bore * 2.0', 'a')).toEqual([]);
  });

  it('both sides while it is open which one is taken, and none of a row not chosen yet', () => {
    const choice = "keep == 'keep' ? number_in('oils', 'thin', 'share') : number_in('oils', 'thick', 'share')";
    expect(rows(choice, prepared())).toEqual([thin, thick]);
    expect(rows("number_in('oils', oil, 'share')", prepared())).toEqual([]);
  });
});

describe('readings', () => {
  const named = (list: readonly CorrectableReading[]) =>
    list.map((r) => `${r.question.key}@${r.place} ${String(r.given.value)}`);

  it('of a job: the newest first, a corrected one by its correction, of what the procedure asks', () => {
    const bench = new Bench().answer('start', 'job', { heads: 'one', name_a: 'Pump' });
    bench.add({ kind: 'answer', step: 'gone', place: 'job', key: 'heads', value: 'two', by: 'AP' });
    bench.add({ kind: 'answer', step: 'start', place: 'job', key: 'gone', value: 'x', by: 'AP' });
    expect(named(readingsOf(bench.state))).toEqual(['name_a@job Pump', 'heads@job one']);
    expect(named(readingsOf(bench.correct('start', 'job', 'heads', 'two').state))).toEqual([
      'heads@job two',
      'name_a@job Pump',
    ]);
    expect(named(readingsOf(finished().state)).slice(0, 4)).toEqual([
      'noise@job false',
      'leak@job 0.5',
      'noise@job false',
      'leak@job 1',
    ]);
  });

  const by = (bench: Bench, place: string, gate: Pick<Gate, 'must'> & Partial<Gate>) => {
    const { readings, named: firm } = correctable(
      bench.state,
      { id: 'g', at: 'leave', say: 'Stop.', overrule: 'never', ...gate },
      place,
    );
    return [named(readings).map((r) => r.split(' ')[0]), firm];
  };
  const ready = readyToFill();

  it.each<[string, string, Pick<Gate, 'must'> & Partial<Gate>, string[], number]>([
    ['what a figure was worked out from', 'a', { must: 'swept <= 100.0' }, ['bore@a', 'stroke@a'], 0],
    [
      'what the condition reads itself first, then the nearest',
      'a',
      { must: "oil_due < 10.0 && keep == 'keep'" },
      ['keep@a', 'bore@a', 'stroke@a', 'oil@job'],
      1,
    ],
    [
      'what the gate names before all, a figure by its readings',
      'a',
      { must: "keep == 'keep' && swept < 1.0", correct: ['lid_area', 'stroke'] },
      ['lid@a', 'stroke@a', 'keep@a', 'bore@a'],
      3,
    ],
    [
      'what its sentence shows as near as what the condition reads',
      'a',
      { must: 'swept < 1.0', say: '{keep} of {oil}' },
      ['keep@a', 'oil@job', 'bore@a', 'stroke@a'],
      0,
    ],
    [
      'of every place below',
      'job',
      { must: 'oil_total < 9.0' },
      ['bore@a', 'stroke@a', 'oil@job', 'bore@b', 'stroke@b'],
      0,
    ],
    [
      'not what lies below unseen, nor what there is not',
      'job',
      { must: "oil == 'thick'", correct: ['bore', 'nothing'], say: '{bore} {nothing}' },
      ['oil@job'],
      1,
    ],
  ])('that put a stop right: %s', (_, place, gate, keys, firm) => {
    expect(by(ready, place, gate)).toEqual([keys, firm]);
  });

  it('that put a log right: the newest row first', () => {
    const { readings, named: firm } = correctable(
      finished().state,
      { id: 'g', at: 'leave', say: 'Stop.', overrule: 'never', must: 'last(all_leak) < 0.1' },
      'job',
    );
    expect([named(readings), firm]).toEqual([['leak@job 0.5'], 1]);
  });

  it('that are not given yet are none', () => {
    expect(by(measured(prepared(), 'a'), 'job', { must: "oil == 'thick'" })).toEqual([[], 0]);
  });
});
