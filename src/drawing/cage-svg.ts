/** The cage laid flat as SVG: balls in their pockets, which side of it is closed. */
import { cageShape } from './cage-shape.js';
import type { PictureValues } from './picture.js';
import { circle, colour, el, num, rect, svg, svgText } from './svg-parts.js';

const POCKET = 52;
/** More than these are told in words. */
const MOST = 12;

export function svgCage(values: PictureValues): string {
  const shape = cageShape(values);
  const n = Math.min(shape.balls ?? 0, MOST);
  const left = 60;
  const middle = 62;
  const known = shape.alike || shape.closed !== undefined;
  // Pockets open upwards where the closed side faces the front.
  const up = shape.closed === 'back' ? -1 : 1;
  const parts = [
    svgText(8, 26, 'rotor', { fill: colour.ink }),
    svgText(8, 106, 'front', { fill: colour.ink }),
    ...(shape.alike
      ? [24, 96].map((y) => rect(left, y - 4, n * POCKET, 8, { fill: colour.cage }))
      : shape.closed
        ? [rect(left, middle + up * 36 - 6, n * POCKET, 12, { fill: colour.cage })]
        : []),
    ...(known ? [] : [26, 106].map((y) => svgText(left, y, '?', { fill: colour.ink }))),
    ...(n ? [] : [svgText(left, middle + 5, '?', { fill: colour.ink })]),
  ];
  for (let i = 0; i < n; i++) {
    const x = left + (i + 0.5) * POCKET;
    if (shape.closed)
      parts.push(
        el('path', {
          d: `M${num(x - 22)} ${num(middle - up * 10)} Q${num(x - 20)} ${num(middle + up * 30)} ${num(x)} ${num(middle + up * 30)} Q${num(x + 20)} ${num(middle + up * 30)} ${num(x + 22)} ${num(middle - up * 10)}`,
          stroke: colour.cage,
          'stroke-width': 6,
          'stroke-linecap': 'round',
        }),
      );
    parts.push(circle(x, middle, 17, { fill: colour.ball, stroke: colour.ink, 'stroke-width': 1.5 }));
  }
  shape.says.forEach((s, i) => {
    parts.push(svgText(8, 136 + i * 16, s, { fill: colour.ink }));
  });
  const side = shape.closed ? `, closed side towards the ${shape.closed === 'back' ? 'rotor' : 'front'}` : '';
  return svg(
    Math.max(left + n * POCKET + 10, 480),
    144 + shape.says.length * 16,
    `The cage laid flat${side}. ${shape.says.join(' ')}`,
    parts.join(''),
  );
}
