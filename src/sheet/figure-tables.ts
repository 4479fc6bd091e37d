/** Figures side by side: those of the whole job first, then each kind of place with its places as columns. */
import { type Block, type Cell, type Column, figureCell, table } from './section.js';
import type { Figure } from './sheet-data.js';
import { figureText, placeName } from './words.js';

/** More places than this are told one below the other. */
const SIDE_BY_SIDE = 4;

const depthOf = (place: string): number => (place === 'job' ? 0 : place.split('.').length);
const cell = (f: Figure | undefined): Cell => (f === undefined ? '' : figureCell(f, figureText(f)));

export function figureTables(figures: readonly Figure[]): readonly Block[] {
  const depths = [...new Set(figures.map((f) => depthOf(f.place)))].sort((a, b) => a - b);
  return depths.flatMap((depth) => {
    const here = figures.filter((f) => depthOf(f.place) === depth);
    const places = [...new Set(here.map((f) => f.where))];
    if (places.length > SIDE_BY_SIDE)
      return table(
        [
          ['What', 30],
          ['Place', 25],
          ['Value', 45],
        ],
        here.map((f) => [f.label, placeName(f.where), cell(f)]),
      );
    const keys = [...new Set(here.map((f) => f.key))];
    return table(
      [['What', 30], ...places.map((p): Column => [placeName(p), 70 / places.length])],
      keys.map((key) => {
        const same = here.filter((f) => f.key === key);
        return [same[0]?.label ?? key, ...places.map((p) => cell(same.find((f) => f.where === p)))];
      }),
    );
  });
}
