/** The drawing of a step, its values taken from the job. */
import type { StepView } from '../../engine/steps/board.js';
import { drawnValues } from '../../engine/values/drawn.js';
import type { Desk } from '../desk.js';
import { type Line, plain } from '../look/line.js';

export function pictureLines(desk: Desk, view: StepView, width: number, height: number): Line[] | undefined {
  const { draw } = view.step;
  const { drawing } = desk.app;
  if (!draw || !drawing) return undefined;
  const known = drawnValues(desk.state.values, view.step, view.place) as Parameters<typeof drawing>[1];
  const lines = drawing(draw.picture, known, { width, height, ascii: desk.stack.room.ascii });
  return lines.length ? lines.map(plain) : undefined;
}
