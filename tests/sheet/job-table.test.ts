/** The table of all jobs, opened by a real engine (DuckDB), which reads CSV and NDJSON with its own readers. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { afterAll, describe, expect, test } from 'vitest';
import { columnMeanings, columnsCsv, fixed, tableRows, toCsv, toNdjson } from '../../src/sheet/job-table.js';
import { Job } from '../shipped/good-job.js';
import { finished, jobFile, jobText } from './fixture.js';

const folder = mkdtempSync(join(tmpdir(), 'table-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const evil = `=1+1, "quoted"\nsecond line; Häuser`;
const odd = finished(jobFile(jobText.replace('"Pump 7"', JSON.stringify(evil))));
const rows = [
  ...tableRows(new Job().run().state, 'fan-aaaa1111'),
  ...tableRows(finished(), 'pump-bbbb2222'),
  ...tableRows(odd, 'pump-cccc3333'),
];

async function asked(text: string, ending: 'csv' | 'ndjson', sql: string): Promise<Record<string, unknown>[]> {
  const file = join(folder, `t.${ending}`);
  writeFileSync(file, text);
  const db = await (await DuckDBInstance.create(':memory:')).connect();
  const reader = ending === 'csv' ? `read_csv('${file}', header = true)` : `read_json('${file}')`;
  const read = await db.runAndReadAll(sql.replace('JOBS', reader));
  db.closeSync();
  return read.getRowObjects() as Record<string, unknown>[];
}

describe.each(['csv', 'ndjson'] as const)('%s', (ending) => {
  const text = ending === 'csv' ? toCsv(rows) : toNdjson(rows);

  test('has one row for each bearing, with numbers as numbers', async () => {
    const found = await asked(text, ending, 'select job_number, place, place_name from JOBS order by 1, 2');
    expect(found.map((r) => Object.values(r).join(' '))).toEqual([
      'fan-aaaa1111 a Drive end',
      'fan-aaaa1111 b Non-drive end',
      'pump-bbbb2222 l Motor side',
      'pump-bbbb2222 r Right half',
      'pump-cccc3333 l Motor side',
      'pump-cccc3333 r Right half',
    ]);
    const sums = await asked(text, ending, 'select sum(dose_mL) as s, max(stops_overruled) as o from JOBS');
    // 1.5 and 0.8 mL in each of two jobs.
    expect(Number(sums[0]?.s)).toBeCloseTo(4.6, 9);
    expect(Number(sums[0]?.o)).toBe(2);
  });
  test('knows which are finished, and when', async () => {
    const found = await asked(
      text,
      ending,
      `select count(*) as n from JOBS where finished and practice and started < timestamp '2026-03-03'`,
    );
    expect(Number(found[0]?.n)).toBe(6);
  });
  test('brings any text back whole', async () => {
    const found = await asked(text, ending, `select distinct pump from JOBS where job_number = 'pump-cccc3333'`);
    // In a spreadsheet a text that begins with = would be run: there an apostrophe stands before it.
    expect(found[0]?.pump).toBe(ending === 'csv' ? `'${evil}` : evil);
  });
});

test('the columns that every table has stand first, and each is told', () => {
  expect(toCsv(rows).split('\r\n')[0]?.split(',').slice(0, Object.keys(fixed).length)).toEqual(Object.keys(fixed));
  for (const says of Object.values(fixed)) expect(says.length).toBeGreaterThan(8);
});
test('a folder without jobs gives the names of the columns alone', () => {
  expect(toCsv([])).toBe(`${Object.keys(fixed).join(',')}\r\n`);
  expect(toNdjson([])).toBe('');
});

test('every column says what it holds, and in which unit', () => {
  const state = new Job().run().state;
  const columns = tableRows(state, 'fan-aaaa1111').flatMap((row) => Object.keys(row));
  const meanings = columnMeanings(state);
  expect([...new Set(columns)].filter((c) => !meanings.get(c))).toEqual([]);
  const told = columnsCsv(meanings).split('\r\n');
  expect(told[0]).toBe('column,holds');
  expect(told).toContain('job_number,number of the job');
  expect(told).toContain('dose_given_mL_plus_minus,"half width of dose_given_mL, in mL"');
});
