/** Table files: each row says where it comes from, and has only the columns that the table names. */
// @ts-nocheck

import { describe, expect, it } from 'vitest';
import { loadTable } from '../../src/procedure/load.js';
import { showProblem } from '../../src/procedure/problem.js';

const sound = `table: sizes
title: Sizes
columns:
  width: { type: number, unit: mm, label: Width }
rows:
  - { id: small, width: 5, tag: A, source: made up }
  - { id: large, width: 9, tag: shop, source: "shop's own, untested" }
`;
const says = (find: string, replace: string): string[] => {
  expect(sound.split(find).length).toBe(2);
  return loadTable(
    sound.replace(find, () => replace),
    't',
  ).problems.map((p) => showProblem(p).slice(2));
};

describe('check of tables', () => {
  it('takes a sound one', () => {
    expect(loadTable(sound, 't')).toMatchObject({ problems: [], table: { id: 'sizes' } });
  });

  it.each([
    [
      'a row with no source tag',
      ', tag: A',
      '',
      '6:5: “tag” is missing in the row “small”. Add “tag:” with one of: P, M, CP, A, shop.',
    ],
    [
      'a row with no source',
      ', source: made up',
      '',
      '6:5: “source” is missing in the row “small”. Add “source:” with text.',
    ],
    [
      'an unknown tag',
      'tag: A',
      'tag: Q',
      '6:33: “tag” can’t be “Q” in the row “small”. Use one of: P, M, CP, A, shop.',
    ],
    [
      'a row twice',
      'id: large',
      'id: small',
      '7:11: The row “small” stands here a second time. Give it an id of its own.',
    ],
    [
      'a misspelt column',
      'width: 5',
      'widht: 5',
      '6:18: The row has a value for “widht”, which is no column of the table. Did you mean “width”?',
    ],
    [
      'a number with a unit',
      'width: 5',
      'width: 5 mm',
      '6:25: “width” should be a number. Write it with a point and no unit.',
    ],
    [
      'a column of no type',
      'type: number',
      'type: numbr',
      '4:18: “type” can’t be “numbr” in the column “width”. Did you mean “number”?',
    ],
    [
      'a published row whose source nobody can open',
      'tag: A, source: made up',
      'tag: P, source: Bearing catalogue',
      '6:44: The source of the row “small” is tagged P but does not name its edition, year or number, nor the page, table, section or entry. Name document, edition and place, or tag it M (from memory) or CP (common practice).',
    ],
    [
      'a number as id',
      'id: small',
      'id: 6205',
      '6:11: “id” should be text in the row “6205”. Put it in quotes: "6205".',
    ],
  ])('%s', (_, find, replace, sentence) => {
    expect(says(find, replace)).toEqual([sentence]);
  });
});
