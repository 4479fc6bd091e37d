/** The syringe lying on its side, tip to the right, with the marks where the plunger stops. */
import { type DrawingSize, numberOf, type PictureValues } from './picture.js';
import { syringeShape } from './syringe-shape.js';

export function textSyringe(values: PictureValues, room: DrawingSize): string[] {
  const s = syringeShape(values);
  const sign = room.ascii
    ? { wall: '=', plunger: '#', tip: '>', mark: '|', rod: '-', foot: '|', dia: 'dia.' }
    : { wall: '═', plunger: '█', tip: '▷', mark: '┃', rod: '─', foot: '│', dia: '⌀' };
  const columns = Math.max(10, Math.min(room.width - 6, 100));
  const at = (mm: number): number => Math.round(((mm + s.before) / (s.before + s.length)) * (columns - 1));
  const blank = (): string[] => Array.from({ length: columns }, () => ' ');
  const wall = sign.wall.repeat(columns);
  const inside = blank();
  const start = at(0);
  for (let i = 0; i < start; i++) inside[i] = sign.rod;
  inside[start] = sign.plunger;
  const stops = s.marks.map((m) => ({ ...m, column: Math.min(columns - 1, Math.max(start + 1, at(m.mm))) }));
  for (const m of stops) inside[m.column] = sign.mark;
  const inner = inside.join('');
  const lines = [`  ${wall}`, ` |${inner}${sign.tip}`, `  ${wall}`];
  const feet = blank();
  feet[start] = sign.foot;
  // Numbered where there is more than one, so that each line below finds its mark.
  for (const [i, m] of stops.entries()) feet[m.column] = stops.length > 1 && i < 9 ? String(i + 1) : sign.foot;
  lines.push(`  ${feet.join('').trimEnd()}`);
  const here = '0 mm: plunger starts here';
  lines.push(`  ${' '.repeat(Math.max(0, Math.min(start, columns - here.length)))}${here}`);
  for (const [i, m] of stops.entries())
    lines.push(`  ${m.label || `stop ${i + 1}`}: ${m.mm.toFixed(1)} mm from the start`);
  const bore = numberOf(values, 'bore');
  if (bore !== undefined) lines.push(`  bore ${sign.dia} ${Number(bore.toPrecision(4))} mm`);
  if (!s.marks.length) lines.push('  marks not known yet');
  return lines;
}
