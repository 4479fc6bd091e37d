/** The run-in curve as SVG: temperature over minutes, stages as bands, the limit as a line. */
import type { PictureValues } from './picture.js';
import { type RunInShape, runInShape } from './run-in-shape.js';
import { colour, line, namedCurve, num, rect, spacing, svg, svgText } from './svg-parts.js';

const box = { left: 46, right: 620, top: 34, bottom: 236 };
const SIZE = { width: 640, height: 280 };

export function svgRunIn(values: PictureValues): string {
  const s = runInShape(values);
  if (!s)
    return svg(SIZE.width, 60, 'Run-in curve: no reading yet', svgText(10, 34, 'no reading yet', { fill: colour.ink }));
  const x = (minutes: number): number => box.left + ((box.right - box.left) * minutes) / s.end;
  const y = (temp: number): number => box.bottom - ((box.bottom - box.top) * (temp - s.low)) / (s.high - s.low);
  const parts = [...bands(s, x), ...scale(s, x, y)];
  if (s.limit !== undefined)
    parts.push(
      line(box.left, y(s.limit), box.right, y(s.limit), {
        stroke: colour.limit,
        'stroke-width': 1.5,
        'stroke-dasharray': '7 4',
      }),
      svgText(box.right, y(s.limit) - 4, `stop at ${num(s.limit)} °C`, { fill: colour.limit, 'text-anchor': 'end' }),
    );
  s.curves.forEach((curve, i) => {
    parts.push(...namedCurve(curve, i, x, y, box.left));
  });
  const tops = s.curves.map((c) => `${c.name} up to ${num(Math.max(...c.points.map((p) => p.y)))} °C`).join(', ');
  const limit = s.limit === undefined ? '' : `, limit ${num(s.limit)} °C`;
  return svg(SIZE.width, SIZE.height, `Run-in curve over ${num(s.end)} minutes: ${tops}${limit}`, parts.join(''));
}

function bands(s: RunInShape, x: (m: number) => number): string[] {
  let free = 0;
  return s.stages.flatMap((stage, i) => {
    const from = x(stage.at);
    const to = x(s.stages[i + 1]?.at ?? s.end);
    const band = i % 2 === 0 ? rect(from, box.top, to - from, box.bottom - box.top, { fill: colour.band }) : '';
    const words =
      stage.speed === undefined
        ? i === 0
          ? `stage ${num(stage.stage)}`
          : num(stage.stage)
        : `${num(stage.speed)}${i === 0 ? ' rpm' : ''}`;
    if (from < free) return [band];
    free = from + words.length * 7 + 6;
    return [band, svgText(from + 3, box.top + 13, words, { fill: colour.soft })];
  });
}

function scale(s: RunInShape, x: (m: number) => number, y: (t: number) => number): string[] {
  const parts = [rect(box.left, box.top, box.right - box.left, box.bottom - box.top, { stroke: colour.soft })];
  const step = spacing(s.high - s.low, 7);
  for (let t = Math.ceil(s.low / step) * step; t <= s.high + 1e-9; t += step)
    parts.push(
      line(box.left, y(t), box.right, y(t), { stroke: '#d4d4d4', 'stroke-width': 0.7 }),
      svgText(box.left - 6, y(t) + 4, num(t), { fill: colour.ink, 'text-anchor': 'end' }),
    );
  const wide = spacing(s.end, 10);
  for (let m = 0; m <= s.end + 1e-9; m += wide)
    parts.push(
      line(x(m), box.bottom, x(m), box.bottom + 5, { stroke: colour.soft }),
      svgText(x(m), box.bottom + 18, num(m), { fill: colour.ink, 'text-anchor': 'middle' }),
    );
  parts.push(
    svgText((box.left + box.right) / 2, box.bottom + 36, 'minutes since the first reading', {
      fill: colour.ink,
      'text-anchor': 'middle',
    }),
    svgText(box.left - 6, box.top - 8, '°C', { fill: colour.ink, 'text-anchor': 'end' }),
  );
  return parts;
}
