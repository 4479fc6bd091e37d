/** The run-in curve in characters. */
import { chart, overlay, symbols } from './chart.js';
import type { DrawingSize, PictureValues } from './picture.js';
import { type RunInShape, runInShape } from './run-in-shape.js';

/** Columns of the scale at the left, the axis included. */
const LEFT = 6;
/** A drawing of fewer lines is a low one. */
const LOW = 10;

export function textRunIn(values: PictureValues, room: DrawingSize): string[] {
  const low = room.height < LOW;
  const s = runInShape(values, low);
  if (!s) return ['no reading yet'];
  const columns = Math.max(8, room.width - LEFT - 1);
  // Names above and the stages below; where there is room, a line of its own for the time.
  const rows = Math.max(2, Math.min(room.height - (low ? 2 : 3), 24));
  const scale = {
    ...{ low: s.low, high: s.high, end: s.end, left: LEFT },
    format: (x: number) => x.toFixed(0).padStart(LEFT - 1),
  };
  const grid = overlay(
    s.curves.map((c, i) => chart(c, scale, columns, rows, symbols(room.ascii, i))),
    LEFT,
  );
  const { limit } = s;
  if (limit !== undefined && limit <= s.high)
    dash(grid, Math.round(((s.high - limit) / (s.high - s.low)) * (rows - 1)), columns, room.ascii);
  const degree = room.ascii ? 'C' : '°C';
  const names = s.curves.map((c, i) => `${(symbols(room.ascii, i)[4] ?? '-').repeat(2)} ${c.name}`);
  if (limit !== undefined) names.push(`${room.ascii ? '. .' : '╌╌'} stop at ${limit} ${degree}`);
  const drawn = [`${degree}  ${names.join('  ')}`, ...grid.map((row) => row.join('').trimEnd())];
  if (low) return [...drawn, s.stages.length ? stageLine(s, columns, minutesOf(s)) : axis(s, columns)];
  const lines = [...drawn, axis(s, columns)];
  if (s.stages.length && lines.length < room.height) lines.push(stageLine(s, columns));
  return lines;
}

function dash(grid: string[][], y: number, columns: number, ascii: boolean): void {
  const row = grid[y];
  if (!row) return;
  for (let x = LEFT; x < LEFT + columns; x++)
    if ((row[x] ?? ' ') === ' ' && (!ascii || x % 2 === 0)) row[x] = ascii ? '.' : '╌';
  for (let x = 0; x < row.length; x++) row[x] ??= ' ';
}

const minutesOf = (s: RunInShape): string => `${Number(s.end.toPrecision(3))} min`;

function axis(s: RunInShape, columns: number): string {
  const end = minutesOf(s);
  return `${' '.repeat(LEFT)}0${end.padStart(Math.max(1, columns - 2))}`;
}

/** `end` stands at the right where it is given. */
function stageLine(s: RunInShape, columns: number, end = ''): string {
  const line = Array.from({ length: columns + LEFT }, () => ' ');
  const word = 'stage';
  let free = 0;
  for (const { at: x, stage } of s.stages) {
    const text = String(stage);
    const column = LEFT + Math.round((x / s.end) * (columns - 2));
    if (column < free || (end && column + text.length + 2 > line.length - end.length)) continue;
    [...text].forEach((c, i) => {
      line[column + i] = c;
    });
    free = column + text.length + 1;
  }
  [...end].forEach((c, i) => {
    line[line.length - end.length + i] = c;
  });
  return `${word}${line.slice(word.length).join('').trimEnd()}`;
}
