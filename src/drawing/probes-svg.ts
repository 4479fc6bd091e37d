/** Where the probes of the meter go, as SVG, with what was heard. */
import { type PictureValues, pictureWords, wordOf } from './picture.js';
import { circle, colour, el, line, num, shortened, svg, svgText } from './svg-parts.js';

const heard = (a: string): string => (a === 'beep' ? 'beeps' : a === 'open' ? 'silent' : a);
const PANEL = 170;
/** More balls than this are told in words only. */
const BALLS_MOST = 20;

export function svgProbes(values: PictureValues): string {
  const show = wordOf(values, 'show');
  const all = [
    { id: 'leads', title: '1 probe to probe', draw: leads, heard: wordOf(values, 'leads') },
    { id: 'ring', title: '2 on one bare ring', draw: ring, heard: wordOf(values, 'ring') },
    { id: 'balls', title: '3 on one bare ball', draw: ball, heard: undefined },
    { id: 'wrong', title: 'ring to ring proves nothing', draw: wrong, heard: undefined },
  ];
  // What was proven before stays in the picture, as the later test rests on it.
  const upTo = show === 'leads' ? 1 : show === 'ring' ? 2 : 4;
  const panels = all.slice(0, upTo);
  const balls = pictureWords(values, 'balls').slice(0, BALLS_MOST);
  const parts = panels.map((p, i) => {
    const x = i * PANEL + 10;
    const said = p.heard ? svgText(x, 138, heard(p.heard), { fill: colour.ink, 'font-weight': 'bold' }) : '';
    return svgText(x, 14, p.title, { fill: colour.ink }) + p.draw(x, 24) + said;
  });
  const row = upTo === 4 ? balls : [];
  row.forEach((b, i) => {
    const x = 24 + i * 32;
    const beep = b === 'beep';
    parts.push(
      circle(x, 166, 11, { fill: beep ? colour.ink : '#fff', stroke: colour.ink, 'stroke-width': 1.5 }),
      svgText(x, 170, String(i + 1), { fill: beep ? '#fff' : colour.ink, 'text-anchor': 'middle' }),
      svgText(x, 194, shortened(heard(b), 6), { fill: colour.ink, 'text-anchor': 'middle', 'font-size': 10 }),
    );
  });
  const result = row.length ? `. Balls: ${row.map((b, i) => `${i + 1} ${heard(b)}`).join(', ')}` : '';
  const width = Math.max(panels.length * PANEL + 10, row.length * 32 + 24);
  return svg(
    width,
    row.length ? 204 : 146,
    `Where the probes go: ${panels.map((p) => (p.heard ? `${p.title} (${heard(p.heard)})` : p.title)).join('; ')}${result}`,
    parts.join(''),
  );
}

const probe = (x: number, y: number, toX: number, toY: number, shade: string): string =>
  line(x, y, toX, toY, { stroke: shade, 'stroke-width': 5, 'stroke-linecap': 'round' }) +
  line(toX, toY, toX + (toX - x) * 0.18, toY + (toY - y) * 0.18, { stroke: colour.ink, 'stroke-width': 2 });

function leads(x: number, y: number): string {
  return probe(x + 10, y + 80, x + 58, y + 44, colour.limit) + probe(x + 130, y + 80, x + 82, y + 44, colour.ink);
}
const half = (x: number, y: number, r: number): string =>
  el('path', {
    d: `M${num(x - r)} ${num(y)} A${num(r)} ${num(r)} 0 0 1 ${num(x + r)} ${num(y)}`,
    stroke: colour.ring,
    'stroke-width': 12,
  });
function ring(x: number, y: number): string {
  return (
    half(x + 70, y + 100, 56) +
    probe(x + 8, y + 4, x + 32, y + 42, colour.limit) +
    probe(x + 132, y + 4, x + 108, y + 42, colour.ink)
  );
}
function ball(x: number, y: number): string {
  return (
    half(x + 70, y + 100, 62) +
    half(x + 70, y + 100, 20) +
    circle(x + 70, y + 60, 16, { fill: colour.ball, stroke: colour.ink, 'stroke-width': 1.5 }) +
    probe(x + 4, y + 58, x + 44, y + 59, colour.limit) +
    probe(x + 136, y + 58, x + 96, y + 59, colour.ink)
  );
}
function wrong(x: number, y: number): string {
  const cross = { stroke: colour.limit, 'stroke-width': 4, 'stroke-linecap': 'round' };
  return (
    half(x + 70, y + 100, 62) +
    half(x + 70, y + 100, 20) +
    circle(x + 70, y + 60, 16, { fill: colour.ball, stroke: colour.ink, 'stroke-width': 1.5 }) +
    probe(x + 8, y + 4, x + 32, y + 44, colour.limit) +
    probe(x + 132, y + 100, x + 96, y + 92, colour.ink) +
    line(x + 20, y + 20, x + 120, y + 100, cross) +
    line(x + 120, y + 20, x + 20, y + 100, cross)
  );
}
