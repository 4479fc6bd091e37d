/** What stands in the first line of a frame where it is narrow. */
import { expect, test } from 'vitest';
import { fitParts } from '../../src/screens/look/fit.js';
import { layFrame } from '../../src/screens/parts/frame-layout.js';

const room = { rows: 24, ascii: false, color: false, reader: false };
const head = (cols: number, ascii = false): string => {
  const headMark = 'Drive end, front side';
  const view = { head: `${headMark} · Solvent against every material`, headMark, body: [], foot: [] };
  const { headLine, headRight } = layFrame(
    { ...view, headRight: '58 of 119 · 1 min + 1 h 10 min wait' },
    { ...room, cols, ascii },
    undefined,
  );
  return `${headLine.map((s) => s.text).join('')} | ${headRight}`;
};

test('how far it is stands whole or goes by parts; the phase is cut before the place', () => {
  expect(head(100)).toBe(
    'Drive end, front side · Solvent against every material | 58 of 119 · 1 min + 1 h 10 min wait',
  );
  expect(head(80)).toBe('Drive end, front side · Solvent against every material | 58 of 119 · 1 min');
  expect(head(60)).toMatch(/^Drive end, front side · Solvent aga.*… \| 58 of 119$/);
  expect(head(40)).toMatch(/^Drive end, front side · Solvent .*… \| $/);
  // In plain letters too.
  expect(head(80, true)).toBe('Drive end, front side - Solvent against every material | 58 of 119 - 1 min');
});

test('no finding is below the edge of its list while lines that stand elsewhere take its room', () => {
  const line = (text: string) => ({ rank: 6, lines: () => [[{ text }]] });
  const items = Array.from({ length: 10 }, (_, i) => ({ value: `f${i}`, label: `Finding ${i}` }));
  const list = { rank: 1, choices: { id: 'list', items, index: -1 } };
  const of = (rows: number) => fitParts([line('told'), line('told too'), list], 70, rows).fitted;
  const listed = of(10).flatMap((f) => ('rows' in f ? f.rows.map((r) => r.item.label) : []));
  expect(listed).toEqual(items.map((i) => i.label));
  expect(of(12), 'with room all of it stands there').toHaveLength(3);
});
