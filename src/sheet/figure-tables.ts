/** Figures side by side: those of the whole job first, then each kind of place with its places as columns. */
import { type Cell, type Column, figureCell, type Section, type SheetBlock, section, tableBlock } from './section.js';
import type { Figure, FigureGroup, Sheet } from './sheet-data.js';
import { figureText, headings, placeName } from './words.js';

/** More places than this are told one below the other. */
const SIDE_BY_SIDE = 4;

const depthOf = (place: string): number => (place === 'job' ? 0 : place.split('.').length);
const cell = (f: Figure | undefined): Cell => (f === undefined ? '' : figureCell(f, figureText(f)));

export function figureTables(figures: readonly Figure[]): readonly SheetBlock[] {
  const depths = [...new Set(figures.map((f) => depthOf(f.place)))].sort((a, b) => a - b);
  return depths.flatMap((depth) => {
    const here = figures.filter((f) => depthOf(f.place) === depth);
    const places = [...new Set(here.map((f) => f.where))];
    if (places.length > SIDE_BY_SIDE)
      return tableBlock(
        [
          ['What', 30],
          ['Place', 25],
          ['Value', 45],
        ],
        here.map((f) => [f.label, placeName(f.where), cell(f)]),
      );
    const keys = [...new Set(here.map((f) => f.key))];
    return tableBlock(
      [['What', 30], ...places.map((p): Column => [placeName(p), 70 / places.length])],
      keys.map((key) => {
        const same = here.filter((f) => f.key === key);
        return [same[0]?.label ?? key, ...places.map((p) => cell(same.find((f) => f.where === p)))];
      }),
    );
  });
}

/** The procedure's groups of figures; each figure of a place stands once on the sheet, where it comes first. */
export function groupSections(sheet: Sheet, part: 'work' | 'record'): readonly Section[] {
  // What stands on the first page is not told again.
  const told = new Set([
    ...sheet.front.known.map((f) => `${f.key}@${f.place}`),
    ...sheet.front.rows.flatMap((r) => r.keys.flatMap((key) => [`${key}@${r.place}`, `${key}@job`])),
  ]);
  const first: FigureGroup = { title: headings.figures, figures: sheet.headline };
  const own = sheet.front.rows.length > 0;
  // Where the procedure writes no first page, they stand there.
  if (!own) for (const f of sheet.headline) told.add(`${f.key}@${f.place}`);
  return [...(own ? [first] : []), ...sheet.groups].flatMap(({ title, appendix, figures }, i) => {
    const known = new Set(figures.filter((f) => f.known).map((f) => f.key));
    // A group tells what is known; what is known at one place only is told of the others too.
    const fresh = figures.filter((f) => !told.has(`${f.key}@${f.place}`) && (i === 0 && own ? true : known.has(f.key)));
    for (const f of fresh) told.add(`${f.key}@${f.place}`);
    return (part === 'record') === (appendix === true)
      ? section(part, `group-${i + 1}`, title, figureTables(fresh))
      : [];
  });
}
