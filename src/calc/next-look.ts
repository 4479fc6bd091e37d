/**
 * Hours of running to the next look at bearings that were regreased by hand, learnt from what this look found.
 * - Clean and cool: one and a half times the hours that it has proved since the last look, and never less than was due;
 *   what was run beyond the due hours proves nothing more.
 * - Something is watched (a mark, heat, grease outside, a doubt): a quarter of what was due.
 * - Never more than the estimate made at the regreasing allows between two looks, nor beyond the grease life from there on.
 * Rounded down to two figures, 1 h at least. The factors are this guide's own caution (table look-intervals).
 */
import { defineCalculator } from './define.js';
import { roundDown } from './inspection.js';
import { choiceInput, commonPractice, figure, quantityInput, result, word } from './spec.js';
import { findRow, numberIn, sourceOf } from './table.js';
import { CalcRefusal } from './types.js';

export const nextLook = defineCalculator({
  name: 'next-look',
  title: 'Hours to the next look',
  inputs: {
    finding: choiceInput('This look', ['clean', 'watched']),
    due: quantityInput('Hours that were due', 'ratio', 'h', [0.1, 1e6]),
    ran: quantityInput('Hours run since the last look', 'ratio', 'h', [0, 1e6]),
    most: quantityInput('Hours at most between two looks, by the estimate', 'count', '', [0, 1e6], true),
    life: quantityInput('Hours of grease life by the estimate', 'count', '', [0, 1e7], true),
    total: quantityInput('Hours run since the regreasing', 'ratio', 'h', [0, 1e6], true),
  },
  results: {
    hours: result('Next look after, at most', 'ratio', 'h'),
    why: word('How it came about'),
    bound: word('What bounds it'),
  },
  formula: 'clean: max(due, 1.5 x min(ran, due)); watched: due / 4; never beyond the estimate',
  source: commonPractice("this guide's own caution; no source"),
  run: (given, tables) => {
    const [due, ran] = [given.number('due').value, given.number('ran').value];
    const clean = given.word('finding') === 'clean';
    const row = findRow(tables, 'look-intervals', clean ? 'clean' : 'watched');
    if (!row) throw new CalcRefusal('tables', 'The table look-intervals is not whole: reinstall.');
    const factor = numberIn(row, 'value');
    const learnt = clean ? Math.max(due, factor * Math.min(ran, due)) : factor * due;
    const why = clean
      ? `nothing was found: ${figure(factor)} times the ${figure(Math.min(ran, due))} h that it proved, at least the ${figure(due)} h that were due`
      : `something is watched: ${figure(factor)} of the ${figure(due)} h that were due`;
    const most = given.maybe('most')?.value;
    const [life, total] = [given.maybe('life')?.value, given.maybe('total')?.value];
    const left = life !== undefined && total !== undefined ? Math.max(0, life - total) : undefined;
    const bounds = [
      { hours: learnt, words: 'what was found' },
      ...(most === undefined ? [] : [{ hours: most, words: `the estimate of the regreasing, ${figure(most)} h` }]),
      ...(left === undefined ? [] : [{ hours: left, words: `what is left of the grease life, ${figure(left)} h` }]),
    ];
    const bound = bounds.reduce((a, b) => (b.hours < a.hours ? b : a));
    const value = Math.max(1, roundDown(bound.hours));
    return {
      results: { hours: { value }, why: { value: why }, bound: { value: bound.words } },
      warnings: [
        ...(left !== undefined && left < 1
          ? ['By the estimate the grease has lived its life: regrease or replace, do not only look again.']
          : []),
        ...(most === undefined && left === undefined
          ? ['There was no estimate at the regreasing, so nothing but this rule bounds the hours.']
          : []),
      ],
      worked: [why, ...bounds.slice(1).map((b) => `not beyond ${b.words}`), `rounded down: ${figure(value)} h`],
      sources: [sourceOf(row)],
    };
  },
});
