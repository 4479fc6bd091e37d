/** The JSON Schema for editors agrees with what the program takes, judged by an independent validator. */
import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { jsonSchema } from '../../src/review/json-schema.js';
import { content } from '../procedure/content.js';
import { root } from '../procedure/library.js';

const validator = (what: 'procedure' | 'table') =>
  new Ajv2020({ strict: false, allErrors: true }).compile(jsonSchema(what) as object);
const read = (file: string) => parse(readFileSync(file, 'utf8'));

describe('JSON Schema', () => {
  const valid = validator('procedure');

  it('is of the published draft 2020-12', () => {
    expect(jsonSchema('procedure')).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema' });
  });

  it.each(content.procedures.map((p) => [p.procedure.procedure, p.file] as const))('takes %s', (_, file) => {
    expect(valid(read(file)) ? [] : valid.errors).toEqual([]);
  });

  it.each([
    ['a misspelt name', (p: { titel?: string }) => ({ ...p, titel: 'x' })],
    ['a step without its why', (p: { steps: object[] }) => ({ ...p, steps: [{ ...p.steps[0], why: undefined }] })],
    ['a version that is none', (p: object) => ({ ...p, version: '1' })],
    ['no step', (p: object) => ({ ...p, steps: [] })],
  ])('refuses %s', (_, damage) => {
    expect(valid(JSON.parse(JSON.stringify(damage(read(content.procedures[0]?.file ?? '')))))).toBe(false);
  });

  it('takes the tables and refuses a row without its tag', () => {
    const table = validator('table');
    const good = read(`${root}procedures/tables/solvents.yaml`);
    expect(table(good) ? [] : table.errors).toEqual([]);
    const [first, ...rest] = good.rows;
    expect(table({ ...good, rows: [{ ...first, tag: undefined }, ...rest] })).toBe(false);
  });
});
