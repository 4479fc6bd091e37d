/** The syringe as SVG, tip to the right; the barrel's length and the marks are in proportion. */
import type { PictureValues } from './picture.js';
import { colour, line, num, rect, shortened, svg, svgText } from './svg-parts.js';
import { syringeShape } from './syringe-shape.js';

const WIDTH = 640;
const LEFT = 70;
const RIGHT = 580;

export function svgSyringe(values: PictureValues): string {
  const s = syringeShape(values);
  const k = (RIGHT - LEFT) / (s.before + s.length);
  const at = (mm: number): number => LEFT + (s.before + mm) * k;
  const tall = s.bore === undefined ? 50 : Math.max(24, Math.min(90, s.bore * k));
  const top = 24;
  const low = top + tall;
  const edge = { stroke: colour.ink, 'stroke-width': 1.5 };
  const start = at(0);
  const parts = [
    rect(start, top, RIGHT - start, tall, { fill: colour.grease, 'fill-opacity': 0.45 }),
    rect(LEFT, top, RIGHT - LEFT, tall, edge),
    rect(RIGHT, top + tall / 2 - 6, 30, 12, edge),
    rect(start - 10, top + 1, 10, tall - 2, { fill: colour.ink }),
    rect(20, top + tall / 2 - 4, start - 30, 8, { fill: colour.soft }),
    rect(14, top - 4, 8, tall + 8, { fill: colour.soft }),
    svgText(RIGHT + 6, low + 4, 'tip', { fill: colour.ink }),
    svgText(start, 16, '0 mm, plunger starts', { fill: colour.ink, 'text-anchor': 'middle' }),
    line(start, 18, start, top, { stroke: colour.ink }),
  ];
  s.marks.forEach((m, i) => {
    const x = at(m.mm);
    const y = low + 18 + i * 17;
    parts.push(
      line(x, top, x, y - 4, { stroke: colour.limit, 'stroke-width': 2 }),
      svgText(x - 5, y, `${shortened(m.label || `stop ${i + 1}`, 40)}: ${m.mm.toFixed(1)} mm`, {
        fill: colour.ink,
        'text-anchor': 'end',
      }),
    );
  });
  const height = low + 26 + s.marks.length * 17;
  if (s.bore !== undefined) parts.push(svgText(LEFT, low + 18, `bore ${num(s.bore)} mm`, { fill: colour.soft }));
  const stops = s.marks.map((m) => `${m.label ? `${m.label} ` : ''}${m.mm.toFixed(1)} mm`).join(', ');
  const say = stops ? `plunger stops at ${stops} from where it starts` : 'marks are not known yet';
  return svg(WIDTH, height, `Syringe with its marks, in proportion: ${say}`, parts.join(''));
}
