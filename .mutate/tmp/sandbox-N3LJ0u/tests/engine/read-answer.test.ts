/** What is typed for a plain number: fractions where the question allows them, in either way of writing decimals. */
// @ts-nocheck

import { expect, test } from 'vitest';
import { readAnswer } from '../../src/procedure/questions/index.js';
import type { Question } from '../../src/procedure/schema.js';

const hours: Question = {
  kind: 'number',
  key: 'hours',
  label: 'Hours run',
  limits: [0, 100_000],
  plausible: [1, 4000],
};
const balls: Question = { kind: 'number', key: 'balls', label: 'Balls', limits: [3, 60], whole: true };
const read = (q: Question, text: string) => {
  const r = readAnswer(q, text, {});
  return r.ok ? r.value : r.message;
};

test.each([
  ['7.5', 7.5],
  ['7,5', 7.5],
  ['0,25', 0.25],
  ['1/2', 0.5],
  ['1 1/2', 1.5],
  ['½', 0.5],
  ['412', 412],
  ['1 250', 1250],
])('%s is taken as %d where fractions are allowed', (text, value) => {
  expect(read(hours, text)).toBe(value);
});

test('what it may be off by is kept', () => {
  expect(readAnswer(hours, '7,5 +- 0,5', {})).toMatchObject({
    ok: true,
    value: 7.5,
    plusMinus: 0.5,
    typed: '7,5 +- 0,5',
  });
});

test.each(['1.200', '1,200'])('%s can be twelve hundred or one and a fifth: neither is guessed', (text) => {
  expect(read(hours, text)).toMatch(/can mean 1200 or 1\.2/);
});

test('three decimals are taken where the thousandfold can not be meant', () => {
  expect(read({ ...hours, limits: [0, 10] }, '1.234')).toBe(1.234);
});

test.each(['7.5', '7,5', '1/2'])('%s is refused where a whole number is asked', (text) => {
  expect(read(balls, text)).toBe('Balls: A count has no fractions: type a whole number such as 8.');
});

test.each(['seven', '-3', '5 mm', ''])('“%s” is refused with what to type', (text) => {
  expect(read(hours, text)).toMatch(/^Hours run: .*(type|give)/);
});
