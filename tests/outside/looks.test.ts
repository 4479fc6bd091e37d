/** Hours to the next look and rises at each stage: this guide's own rules by hand arithmetic; there is no published figure. */
import { describe, expect, it } from 'vitest';
import { calc, list, refusal, value, word } from '../calc/support.js';

describe('hours to the next look (CP: this guide’s own rule, no source; arithmetic)', () => {
  it.each([
    // [finding, due, ran, hours]: clean 1.5 x min(ran, due), never less than due; two figures, rounded down.
    ['clean', 500, 500, 750],
    ['clean', 500, 499, 740],
    ['clean', 500, 333, 500],
    ['clean', 500, 50, 500],
    ['clean', 500, 0, 500],
    // What was run beyond the due hours proves nothing more.
    ['clean', 500, 900, 750],
    ['clean', 4, 4, 6],
    ['watched', 500, 500, 120],
    ['watched', 500, 10, 120],
    ['watched', 3, 3, 1],
  ])('%s, due %d, ran %d: %d h', (finding, due, ran, hours) => {
    expect(value(`next-look finding=${finding} due=${due} ran=${ran}`, 'hours')).toBe(hours);
  });
  it('never past the estimate, between two looks or in all', () => {
    const clean = 'next-look finding=clean due=500 ran=500';
    expect(value(`${clean} most=750`, 'hours')).toBe(750);
    expect(value(`${clean} most=749`, 'hours')).toBe(740);
    expect(value(`${clean} most=600`, 'hours')).toBe(600);
    expect(word(`${clean} most=600`, 'bound')).toBe('the estimate of the regreasing, 600 h');
    // 2000 h of life, 1700 h run: 300 h are left.
    expect(value(`${clean} most=2300 life=2000 total=1700`, 'hours')).toBe(300);
    expect(value(`${clean} life=2000 total=2000`, 'hours')).toBe(1);
    expect(calc(`${clean} life=2000 total=2000`).warnings.join(' ')).toContain('regrease or replace');
  });
});

describe('rise at each stage (A: a difference)', () => {
  it.each([
    ['1,1,2,2,3', '22,24,27,29,31', [4, 9, 11]],
    // Where it was gone back to a stage, its last reading counts.
    ['1,2,1,2', '24,30,26,28', [6, 8]],
    // A stage that has no reading ends the list.
    ['0,1,3', '20,25,40', [5]],
  ])('stages %s at %s °C in a room of 20 °C', (stages, temps, rises) => {
    expect(list(`stage-rise atStage=${stages} temps=${temps} room=20`, 'rises')).toEqual(rises);
  });
  it('as many temperatures as stages', () => {
    expect(refusal('stage-rise atStage=1,2 temps=22 room=20')).toMatch(/as many temperatures/);
  });
});
