/** The cage laid flat, in characters: balls in their pockets, which side of it is closed. */
import { type CageShape, cageShape } from './cage-shape.js';
import type { DrawingSize, PictureValues } from './picture.js';

/** Columns of one pocket, and what has to stand beside them. */
const POCKET = 6;
const BESIDE = 34;

export function textCage(values: PictureValues, room: DrawingSize): string[] {
  const shape = cageShape(values);
  const drawn = Math.min(shape.balls ?? 0, Math.max(2, Math.floor((room.width - BESIDE) / POCKET)));
  const some = shape.balls !== undefined && drawn < shape.balls ? `, ${drawn} of ${shape.balls} balls` : '';
  const says = room.ascii ? shape.says.map((s) => s.replaceAll('°', ' deg')) : shape.says;
  return [`Seen from outside, laid flat${some}`, ...picture(shape, drawn, room.ascii), ...says];
}

function picture({ closed, alike }: CageShape, n: number, ascii: boolean): string[] {
  const [ball, wall, solid, floor, thin] = ascii
    ? ['O', '|', '=', '|---| ', '-']
    : ['●', '│', '▀', closed === 'back' ? '┌───┐ ' : '└───┘ ', '─'];
  const row = (cell: string): string => cell.repeat(n);
  const balls = row(`${wall} ${ball} ${wall} `);
  const web = row(solid.repeat(POCKET));
  const line = (name: string, drawn: string, says = ''): string => `  ${name.padEnd(7)}${drawn}  ${says}`.trimEnd();
  if (alike) {
    const side = row(thin.repeat(POCKET));
    return [line('rotor', side), line('', row(`  ${ball}   `)), line('front', side)];
  }
  const prongs = row(`${wall}   ${wall} `);
  const open = 'pockets open here';
  if (closed === 'back')
    return [line('rotor', web, 'closed side'), line('', row(floor)), line('', balls), line('front', prongs, open)];
  if (closed === 'front')
    return [line('rotor', prongs, open), line('', balls), line('', row(floor)), line('front', web, 'closed side')];
  return [line('rotor', '?'), line('', n ? row(`  ${ball}   `) : '?'), line('front', '?')];
}
