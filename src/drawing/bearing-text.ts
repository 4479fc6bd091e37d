/** The bearing section in characters, each cell filled by what lies at its middle. */
import { type BearingPart, bearingShape, partAt } from './bearing-shape.js';
import type { DrawingSize, PictureValues } from './picture.js';

const signs: Readonly<Record<BearingPart, readonly [string, string]>> = {
  outer: ['▓', '#'],
  inner: ['▓', '#'],
  ball: ['█', 'O'],
  cage: ['║', '|'],
  seal: ['│', ':'],
  grease: ['░', '.'],
  free: [' ', ' '],
  outside: [' ', ' '],
};
const words: readonly [BearingPart, string][] = [
  ['outer', 'rings'],
  ['ball', 'ball'],
  ['cage', 'cage'],
  ['seal', 'seal'],
  ['grease', 'grease'],
];
/** A character cell is about twice as high as it is wide. */
const CELL = 2;

export function textBearing(values: PictureValues, room: DrawingSize): string[] {
  const s = bearingShape(values);
  const sign = (p: BearingPart): string => signs[p][room.ascii ? 1 : 0];
  const notes = [
    words
      .filter(([p]) => (p !== 'grease' || s.share) && (p !== 'seal' || s.seals.front || s.seals.back))
      .map(([p, w]) => `${sign(p)} ${w}`)
      .join('  '),
    [
      s.balls ? `${s.balls} balls, ${s.balls} gaps` : '',
      s.share ? `${Number(s.share.toPrecision(3))} % filled` : '',
      s.odd ? 'sizes do not go together' : s.assumed ? 'usual proportions' : 'true proportions',
    ]
      .filter(Boolean)
      .join(', '),
  ];
  const rows = Math.max(4, Math.min(room.height - notes.length - 1, 16));
  const columns = Math.min(room.width - 16, Math.max(8, Math.round((rows * CELL * s.width) / s.height)));
  const lines: string[] = [];
  for (let j = 0; j < rows; j++) {
    let line = '';
    for (let i = 0; i < columns; i++) {
      const x = ((i + 0.5) / columns - 0.5) * s.width;
      const y = (1 - (j + 0.5) / rows) * s.height;
      line += sign(partAt(s, x, y));
    }
    const side = j === 0 ? '  outer ring' : j === rows - 1 ? '  inner ring' : '';
    lines.push(`${line}${side}`);
  }
  return [`${'front'.padEnd(Math.max(6, columns - 9))}rotor side`, ...lines, ...notes].slice(0, room.height);
}
