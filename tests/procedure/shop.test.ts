/** A shop's own procedures and table rows: laid over the shipped ones, marked as the shop's, and never trusted untested. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { tablesOf } from '../../src/library/library.js';
import { type FolderContent, readFolder } from '../../src/library/read-folder.js';
import { modelOf } from '../../src/procedure/model.js';
import { showProblem } from '../../src/procedure/problem.js';
import { content } from './content.js';
import { sound } from './sound.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'shop-'));
  mkdirSync(join(folder, 'tables'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const write = (name: string, text: string): void => writeFileSync(join(folder, name), text);
const read = (): FolderContent => readFolder(folder, content);
const problems = (): string[] => read().problems.map((p) => showProblem(p).slice(folder.length + 1));

const ratings = (row: string): string => `table: solvent-ratings
title: Our own
columns:
  material: { type: text, label: Material }
  solvent: { type: text, label: Solvent }
  rating: { type: number, label: Rating }
rows:
  - ${row}
`;
const verdict = (solvent: string, material: string, use = 'soak'): unknown =>
  calculators.solvent?.run({ solvent, material, use }, tablesOf(read().tables)).results.verdict?.value;

describe('a shop’s own folder', () => {
  it('lays its rows over the shipped ones and marks them', () => {
    const before = content.tables.find((t) => t.id === 'materials')?.rows.length ?? 0;
    write(
      'tables/materials.yaml',
      `table: materials\ntitle: Ours\ncolumns:\n  label: { type: text, label: Material }\n  family: { type: text, label: Family }\nrows:\n  - { id: silicone, label: Silicone rubber, family: rubber, tag: shop, source: "shop's own, untested" }\n`,
    );
    const table = read().tables.find((t) => t.id === 'materials');
    expect(problems()).toEqual([]);
    expect(table?.rows.length).toBe(before + 1);
    expect(table?.rows.at(-1)).toMatchObject({ id: 'silicone', tag: 'shop' });
    // A material that no rating knows is not allowed before a test.
    expect(verdict('acetone', 'silicone')).toBe('test first');
  });

  it('permits nothing by an untested row, whatever it says', () => {
    write(
      'tables/solvent-ratings.yaml',
      ratings(
        `{ id: unknown+acetone, material: unknown, solvent: acetone, rating: 1, tag: shop, source: "shop's own, untested" }`,
      ),
    );
    expect(problems()).toEqual([]);
    expect(verdict('acetone', 'unknown')).toBe('test first');
    expect(verdict('acetone', 'unknown', 'wipe')).toBe('test first');
  });

  it('forbids by an untested row', () => {
    write(
      'tables/solvent-ratings.yaml',
      ratings(
        `{ id: unknown+acetone, material: unknown, solvent: acetone, rating: 4, tag: shop, source: "shop's own, untested" }`,
      ),
    );
    expect(verdict('acetone', 'unknown')).toBe('never');
  });

  it('goes by a row whose source says that it was tested', () => {
    write(
      'tables/solvent-ratings.yaml',
      ratings(
        `{ id: unknown+acetone, material: unknown, solvent: acetone, rating: 1, tag: shop, source: "tested 2 March 2026, drop for ten minutes" }`,
      ),
    );
    expect(verdict('acetone', 'unknown')).toBe('allowed');
  });

  it('refuses to replace a shipped row without a test', () => {
    write(
      'tables/solvent-ratings.yaml',
      ratings(
        `{ id: nbr+acetone, material: nbr, solvent: acetone, rating: 1, tag: shop, source: "shop's own, untested" }`,
      ),
    );
    expect(problems()).toEqual([
      'tables/solvent-ratings.yaml:8:87: The row “nbr+acetone” replaces a shipped one without a test. Test it, then begin its source with “tested”, “measured” or “weighed”, the date and how - or take the row out.',
    ]);
  });

  it('refuses a row that claims other evidence than the shop’s', () => {
    write(
      'tables/solvent-ratings.yaml',
      ratings(`{ id: unknown+acetone, material: unknown, solvent: acetone, rating: 1, tag: P, source: a book }`),
    );
    expect(problems()[0]).toContain("of the shop's own folder is tagged “P”. Write “tag: shop”.");
  });

  it('takes an untested pair of thickeners for unknown, and for incompatible when it says so', () => {
    const pair = (says: string): unknown => {
      write(
        'tables/thickener-pairs.yaml',
        `table: thickener-pairs\ntitle: Ours\ncolumns:\n  old: { type: text, label: One }\n  new: { type: text, label: Other }\n  verdict: { type: text, label: Verdict }\nrows:\n  - { id: ours, old: calcium-sulfonate, new: polyurea, verdict: ${says}, tag: shop, source: "shop's own, untested" }\n`,
      );
      const run = calculators.thickener?.run({ old: 'polyurea', new: 'calcium-sulfonate' }, tablesOf(read().tables));
      return run?.results.verdict?.value;
    };
    expect(pair('C')).toBe('unknown');
    expect(pair('B')).toBe('unknown');
    expect(pair('I')).toBe('I');
  });

  it('lays its procedures over the shipped ones by id and marks them', () => {
    write(
      'own.yaml',
      sound
        .replace('table: sizes', 'table: iso15-sizes')
        .replace(/calcs:\n.*\n/, '')
        .replace(/\{dose[.a-z]*\}/g, 'it')
        .replace('rests_on: [dose]', 'rests_on: [bore]')
        .replace('key: dose', 'key: bore'),
    );
    const own = read();
    expect(problems()).toEqual([]);
    expect(own.procedures).toMatchObject([{ shop: true, procedure: { procedure: 'fan-bearing' } }]);
    const p = own.procedures[0];
    expect(p && modelOf(p.procedure, p.hash, tablesOf(own.tables), calculators, p.shop).shop).toBe(true);
    const s = content.procedures[0];
    expect(s && modelOf(s.procedure, s.hash, tablesOf(own.tables), calculators, s.shop).shop).toBe(false);
  });

  it('says when the folder is not there, and when two files hold one procedure', () => {
    rmSync(folder, { recursive: true });
    expect(readFolder(folder, { tables: [], procedures: [], parts: [] }).problems.map(showProblem)[0]).toContain(
      'There is no such folder; give one',
    );
    mkdirSync(folder);
    const text = sound
      .replace('table: sizes', 'table: iso15-sizes')
      .replace(/calcs:\n.*\n/, '')
      .replace(/\{dose[.a-z]*\}/g, 'it')
      .replace('rests_on: [dose]', 'rests_on: [bore]')
      .replace('key: dose', 'key: bore');
    write('one.yaml', text);
    write('two.yaml', text);
    expect(problems()[0]).toMatch(
      /^two\.yaml:1:1: The procedure “fan-bearing” stands in .*one\.yaml too\. Take the older version out of this folder - a job keeps the one that it began with - or give one another name\.$/,
    );
  });
});
