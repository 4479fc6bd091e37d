/** Small pieces of SVG. Numbers are rounded to a thousandth; words are escaped here and nowhere else. */
import { escapeHtml } from '../text/safe-text.js';

type Attributes = Readonly<Record<string, string | number | undefined>>;

export const num = (x: number): string => String(Number((Number.isFinite(x) ? x : 0).toFixed(3)));

function attributes(a: Attributes): string {
  return Object.entries(a)
    .filter(([, v]) => v !== undefined)
    .map(([k, v]) => ` ${k}="${typeof v === 'number' ? num(v) : escapeHtml(v)}"`)
    .join('');
}

/** An element; `inside` is markup already. */
export const el = (name: string, a: Attributes, inside = ''): string =>
  inside === '' ? `<${name}${attributes(a)}/>` : `<${name}${attributes(a)}>${inside}</${name}>`;

export const line = (x1: number, y1: number, x2: number, y2: number, a: Attributes = {}): string =>
  el('line', { x1, y1, x2, y2, ...a });
export const rect = (x: number, y: number, width: number, height: number, a: Attributes = {}): string =>
  el('rect', { x, y, width: Math.max(0, width), height: Math.max(0, height), ...a });
export const circle = (cx: number, cy: number, r: number, a: Attributes = {}): string =>
  el('circle', { cx, cy, r: Math.max(0, r), ...a });
export const svgText = (x: number, y: number, words: string, a: Attributes = {}): string =>
  `<text${attributes({ x, y, ...a })}>${escapeHtml(words)}</text>`;

/** Text shortened so that it can't run over its neighbours. */
export const shortened = (words: string, most: number): string => {
  const points = [...words];
  return points.length > most ? `${points.slice(0, Math.max(1, most - 1)).join('')}…` : words;
};

/** A drawing with its description for those who can't see it. */
export function svg(width: number, height: number, description: string, inside: string): string {
  const words = escapeHtml(description);
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${num(width)} ${num(height)}" role="img" aria-label="${words}"` +
    ` font-family="system-ui, sans-serif" font-size="12" fill="none" stroke="none"><title>${words}</title>${inside}</svg>`
  );
}

export const colour = {
  ink: '#1a1a1a',
  soft: '#595959',
  ring: '#b9bfc6',
  ball: '#f4f1e6',
  grease: '#e0a83c',
  seal: '#8a3b12',
  cage: '#5f6f52',
  first: '#0b4f8a',
  second: '#a33c00',
  limit: '#b00020',
  band: '#f0f2f4',
} as const;

/** Distance of scale lines, 1, 2 or 5 times a power of ten, so that at most `most` stand in `span`. */
export function spacing(span: number, most: number): number {
  const rough = span / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  return ([1, 2, 5, 10].find((m) => m * power >= rough) ?? 10) * power;
}

/** Shapes differ as well as colours. */
const dot = (x: number, y: number, shade: string, i: number): string =>
  i ? rect(x - 3, y - 3, 6, 6, { fill: shade }) : circle(x, y, 3, { fill: shade });

interface NamedPoints {
  readonly name: string;
  readonly points: readonly { readonly x: number; readonly y: number }[];
}

/** The curve of the first or second bearing: its line, a dot at each reading, and above it its name from `left` on. */
export function namedCurve(
  curve: NamedPoints,
  i: number,
  x: (v: number) => number,
  y: (v: number) => number,
  left: number,
): readonly string[] {
  const shade = i ? colour.second : colour.first;
  return [
    el('polyline', {
      points: curve.points.map((p) => `${num(x(p.x))},${num(y(p.y))}`).join(' '),
      stroke: shade,
      'stroke-width': 2,
      'stroke-linejoin': 'round',
      'stroke-dasharray': i ? '5 3' : undefined,
    }),
    ...curve.points.map((p) => dot(x(p.x), y(p.y), shade, i)),
    dot(left + 8 + i * 220, 12, shade, i),
    svgText(left + 18 + i * 220, 16, shortened(curve.name, 30), { fill: colour.ink }),
  ];
}
