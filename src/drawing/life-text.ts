/** A figure of a rotor over the years in characters. */
import { chart, overlay, symbols } from './chart.js';
import { type LifeShape, lifeShape } from './life-shape.js';
import type { DrawingSize, PictureValues } from './picture.js';

/** Columns of the scale at the left, the axis included. */
const LEFT = 8;

export function textLife(values: PictureValues, room: DrawingSize): string[] {
  const s = lifeShape(values);
  if (!s) return ['nothing was measured yet'];
  const columns = Math.max(8, room.width - LEFT - 1);
  const rows = Math.max(3, Math.min(room.height - 3, 9));
  const scale = { low: s.low, high: s.high, end: s.end, left: LEFT, format: (x: number) => scaled(x, s) };
  const grid = overlay(
    s.curves.map((c, i) => chart(c, scale, columns, rows, symbols(room.ascii, i))),
    LEFT,
  );
  s.curves.forEach((c, i) => {
    for (const p of c.points) {
      const y = Math.round(((s.high - p.y) / (s.high - s.low)) * (rows - 1));
      const row = grid[y];
      const x = column(p.x, s, columns);
      if (row) for (let k = row.length; k <= x; k++) row[k] ??= ' ';
      if (row) row[x] = dot(room.ascii, i);
    }
  });
  const names = s.curves.map((c, i) => `${dot(room.ascii, i)} ${c.name}`);
  return [
    `${s.unit ? `${s.unit}  ` : ''}${names.join('  ')}`,
    ...grid.map((row) => row.join('').trimEnd()),
    eventLine(s, columns),
    `${' '.repeat(LEFT)}${s.from}${s.to.padStart(Math.max(1, columns - s.from.length))}`,
  ];
}

const dot = (ascii: boolean, i: number): string => (ascii ? '*o' : '●○')[i] ?? '*';
const column = (day: number, s: LifeShape, columns: number): number => LEFT + Math.round((day / s.end) * (columns - 1));

/** As few decimals as tell the lines of the scale apart. */
const scaled = (x: number, s: LifeShape): string => {
  const span = s.high - s.low;
  return x.toFixed(span >= 10 ? 0 : span >= 1 ? 1 : 2).padStart(LEFT - 1);
};

/** What was done, under its day; of those that fall on one column the last stands. */
function eventLine(s: LifeShape, columns: number): string {
  const line = Array.from({ length: LEFT + columns }, () => ' ');
  for (const e of s.events)
    [...e.mark].forEach((c, i) => {
      const at = Math.min(LEFT + columns - 1, column(e.at, s, columns) + i);
      line[at] = c;
    });
  return line.join('').trimEnd();
}
