/** A figure of a rotor over the years as SVG: a line for each bearing, below it what was done when. */
import { type LifeShape, lifeShape } from './life-shape.js';
import type { PictureValues } from './picture.js';
import { colour, line, namedCurve, num, rect, spacing, svg, svgText } from './svg-parts.js';

const box = { left: 52, right: 620, top: 34, bottom: 190 };
const SIZE = { width: 640, height: 240 };

export function svgLife(values: PictureValues): string {
  const s = lifeShape(values);
  if (!s)
    return svg(
      SIZE.width,
      60,
      'Nothing was measured yet',
      svgText(10, 34, 'nothing was measured yet', { fill: colour.ink }),
    );
  const x = (day: number): number => box.left + ((box.right - box.left) * day) / s.end;
  const y = (v: number): number => box.bottom - ((box.bottom - box.top) * (v - s.low)) / (s.high - s.low);
  const parts = [...scale(s, y), ...events(s, x)];
  s.curves.forEach((curve, i) => {
    parts.push(...namedCurve(curve, i, x, y, box.left));
  });
  const said = s.curves.map((c) => `${c.name} ${c.points.map((p) => num(p.y)).join(', ')} ${s.unit}`.trim()).join('; ');
  return svg(SIZE.width, SIZE.height, `From ${s.from} to ${s.to}: ${said}`, parts.join(''));
}

function scale(s: LifeShape, y: (v: number) => number): string[] {
  const step = spacing(s.high - s.low, 5);
  const parts = [rect(box.left, box.top, box.right - box.left, box.bottom - box.top, { stroke: colour.soft })];
  for (let v = Math.ceil(s.low / step) * step; v <= s.high + 1e-9; v += step)
    parts.push(
      line(box.left, y(v), box.right, y(v), { stroke: '#d4d4d4', 'stroke-width': 0.7 }),
      svgText(box.left - 6, y(v) + 4, num(v), { fill: colour.ink, 'text-anchor': 'end' }),
    );
  parts.push(
    svgText(box.left - 6, box.top - 8, s.unit, { fill: colour.ink, 'text-anchor': 'end' }),
    svgText(box.left, box.bottom + 44, s.from, { fill: colour.ink }),
    svgText(box.right, box.bottom + 44, s.to, { fill: colour.ink, 'text-anchor': 'end' }),
  );
  return parts;
}

function events(s: LifeShape, x: (day: number) => number): string[] {
  let free = Number.NEGATIVE_INFINITY;
  return s.events.flatMap((e) => {
    const at = x(e.at);
    const tick = line(at, box.top, at, box.bottom + 5, {
      stroke: colour.soft,
      'stroke-width': 0.7,
      'stroke-dasharray': '2 3',
    });
    if (at < free) return [tick];
    free = at + 8 * e.mark.length + 4;
    return [tick, svgText(at, box.bottom + 20, e.mark, { fill: colour.ink, 'text-anchor': 'middle' })];
  });
}
