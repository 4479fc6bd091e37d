/** The drawing of a step, its values taken from the job. */
import type { StepView } from '../../engine/steps/board.js';
import type { Desk } from '../desk.js';
import { type Line, plain } from '../look/line.js';

export function pictureLines(desk: Desk, view: StepView, width: number, height: number): Line[] | undefined {
  const { draw } = view.step;
  const { drawing } = desk.app;
  if (!draw || !drawing) return undefined;
  const { values } = desk.state;
  const known: Record<string, Parameters<typeof drawing>[1][string]> = {};
  for (const [name, text] of Object.entries(draw.with ?? {})) {
    const v = values.evaluate(text, view.place);
    if (v.known) known[name] = v.value as (typeof known)[string];
  }
  const lines = drawing(draw.picture, known, { width, height, ascii: desk.stack.room.ascii });
  return lines.length ? lines.map(plain) : undefined;
}
