/** Runs calculators the way a script does: words in, JSON out, with the tables of this repository. */
// @ts-nocheck

import { readdirSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { runCalc } from '../../src/calc/command.js';
import type { Table, Tables } from '../../src/calc/types.js';

const folder = new URL('../../procedures/tables/', import.meta.url);

export const tableFiles: readonly {
  file: string;
  table: string;
  columns: Record<string, { type: string }>;
  rows: Table['rows'];
}[] = readdirSync(folder)
  .filter((file) => file.endsWith('.yaml'))
  .map((file) => ({ file, ...parse(readFileSync(new URL(file, folder), 'utf8')) }));

export const tables: Tables = Object.fromEntries(tableFiles.map((t) => [t.table, { id: t.table, rows: t.rows }]));

export interface Report {
  readonly results: Record<string, { value: never; unit: string; plusMinus?: never; dominant?: string }>;
  readonly warnings: readonly string[];
  readonly source: string;
  readonly sources: readonly string[];
}

/** `calc('syringe bore=14.5 doses=1ml,1ml')`; throws the complaint when it refuses. */
export function calc(line: string): Report {
  const { stdout, stderr, code } = runCalc([...line.split(' '), '--json'], tables);
  if (code !== 0) throw new Error(stderr.trim());
  return JSON.parse(stdout);
}

/** One number of a run. */
export const value = (line: string, key: string): number => Number(calc(line).results[key]?.value);
export const list = (line: string, key: string): number[] => calc(line).results[key]?.value as unknown as number[];
export const word = (line: string, key: string): string => String(calc(line).results[key]?.value);

/** The complaint of a run that must be refused. */
export function refusal(line: string): string {
  const { stderr, code, stdout } = runCalc(line.split(' '), tables);
  if (code === 0) throw new Error(`not refused: ${stdout}`);
  return stderr.trim();
}

/** Relative deviation, to be held against a tolerance. */
export const off = (found: number, expected: number): number => Math.abs(found / expected - 1);
