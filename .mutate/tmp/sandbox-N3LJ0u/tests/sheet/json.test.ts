/** The JSON sheet against its published schema (JSON Schema 2020-12), by an independent validator. */
// @ts-nocheck

import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { sheetJsonSchema } from '../../src/sheet/json-shape.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import type { Figure } from '../../src/sheet/sheet-data.js';
import { toJson } from '../../src/sheet/to-json.js';
import { Job } from '../shipped/good-job.js';
import { finished, jobFile, jobText } from './fixture.js';

const ajv = new Ajv2020({ strict: false, allErrors: true, formats: { 'date-time': true } });
const valid = ajv.compile(sheetJsonSchema() as object);

const dosed = new Job().answer('dose', 'a', { dose_set: '2.5 mL' });
dosed.step('dose', 'a').overrule = { gate: 'dose-near', reason: 'looked empty', initials: 'MN' };
const jobs = {
  'an invented job': finished(),
  'half of it': finished(jobFile(jobText.split('  - { raise')[0] ?? '')),
  'the shipped job': new Job().run().state,
  'one with a stop': dosed.run().state,
};

describe.each(Object.entries(jobs))('%s', (_, state) => {
  const made = JSON.parse(
    toJson(sheetOf(state, { number: 'rotor-abcd2345', issued: '2026-03-03T13:00:00.000Z' }), { zone: 'Europe/Berlin' }),
  );

  test('is as the schema says', () => {
    valid(made);
    expect(valid.errors ?? []).toEqual([]);
  });
  test('names its version, job number and time zone', () => {
    expect(made).toMatchObject({ format: 'rotorside-sheet', sheet: 2, timeZone: 'Europe/Berlin' });
    expect(made.head).toMatchObject({ number: 'rotor-abcd2345', issued: '2026-03-03T13:00:00.000Z' });
  });
  test('says of each known figure where it comes from', () => {
    const figures: Figure[] = [
      ...made.headline,
      ...made.next,
      ...made.groups.flatMap((g: { figures: Figure[] }) => g.figures),
    ];
    for (const f of figures) expect(f.provenance === undefined).toBe(!f.known);
    const read = figures.filter((f) => f.provenance?.by === 'reading');
    expect(read.length).toBeGreaterThan(0);
    for (const f of read) expect(state.entries[(f.provenance?.entry ?? 0) - 1]).toMatchObject({ kind: 'answer' });
  });
});

test('the schema refuses what is no sheet', () => {
  const good = JSON.parse(toJson(sheetOf(jobs['an invented job'])));
  expect(valid({ ...good, sheet: 1 })).toBe(false);
  expect(valid({ ...good, extra: true })).toBe(false);
  expect(valid({ ...good, headline: [{ ...good.headline[0], unit: 3 }] })).toBe(false);
});

test('hours to the next look have their unit', () => {
  const { next } = sheetOf(jobs['the shipped job']);
  expect(next.find((f) => typeof f.value === 'number')?.unit).toBe('hours');
});
