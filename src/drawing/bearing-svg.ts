/** The bearing section as SVG, and seen along the shaft with its gaps when the balls are counted. */
import { type BearingShape, bearingShape, cageAt } from './bearing-shape.js';
import type { PictureValues } from './picture.js';
import { circle, colour, el, line, num, rect, svg, svgText } from './svg-parts.js';

const HEIGHT = 230;
const edge = { stroke: colour.ink, 'stroke-width': 1 };

export function svgBearing(values: PictureValues): string {
  const s = bearingShape(values);
  const scale = Math.min(190 / s.height, 300 / s.width);
  const w = s.width * scale;
  const face = s.balls === undefined ? '' : faceView(s, s.balls, w + 250, HEIGHT / 2);
  const width = w + (face ? 360 : 130);
  const facts = [
    `bore ${num(s.bore)} mm, outside diameter ${num(s.outside)} mm, width ${num(s.width)} mm`,
    s.balls ? `${s.balls} balls` : '',
    s.share ? `grease in ${num(s.share)} % of the free space` : '',
    s.odd ? 'the sizes given do not go together' : '',
    s.assumed ? 'usual proportions where a size is not known' : '',
  ].filter(Boolean);
  return svg(
    width,
    HEIGHT,
    `Section through one side of the bearing: ${facts.join(', ')}`,
    section(s, scale, 10, 20) + face,
  );
}

function section(s: BearingShape, k: number, left: number, top: number): string {
  const [w, h, r] = [s.width * k, s.height * k, (s.ball / 2) * k];
  const [cx, cy, gap, groove] = [left + w / 2, top + h / 2, s.gap * k, s.groove * k];
  const right = left + w;
  const at = s.sealAt * k;
  const inner = 2 * (s.sealAt - s.sealHalf) * k;
  const side = s.seals.front || s.seals.back ? inner : w;
  // The rings lie over the grease, so that it shows only where there is room for it.
  const from = s.innerOnly ? h / 2 : 0;
  const grease = s.greaseTo
    ? el(
        'svg',
        { x: cx - side / 2, y: top + from, width: side, height: h - from },
        circle(side / 2, h / 2 - from, s.greaseTo * k, { fill: colour.grease }),
      )
    : '';
  const seal = (x: number) => rect(x - s.sealHalf * k, cy - gap, 2 * s.sealHalf * k, 2 * gap, { fill: colour.seal });
  const cage = (x: number) =>
    rect(x - s.cageHalf.x * k, cy - s.cageHalf.y * k, 2 * s.cageHalf.x * k, 2 * s.cageHalf.y * k, {
      fill: colour.cage,
      ...edge,
    });
  const label = right + 14;
  const name = (y: number, words: string, x: number) =>
    line(x, y, label - 4, y, { stroke: colour.soft, 'stroke-width': 0.7 }) +
    svgText(label, y + 4, words, { fill: colour.ink });
  return [
    grease,
    ring(left, right, top, cy - gap, cx, groove, gap),
    ring(left, right, top + h, cy + gap, cx, groove, gap),
    circle(cx, cy, r, { fill: colour.ball, ...edge }),
    cage(cx - cageAt(s) * k),
    cage(cx + cageAt(s) * k),
    s.seals.front ? seal(cx - at) : '',
    s.seals.back ? seal(cx + at) : '',
    svgText(left, 14, 'front', { fill: colour.soft }),
    svgText(right, 14, 'rotor side', { fill: colour.soft, 'text-anchor': 'end' }),
    name(top + h * 0.12, 'outer ring', right),
    s.seals.back ? name(cy - gap * 0.6, 'seal', cx + at) : '',
    name(cy, 'cage', cx + cageAt(s) * k),
    s.greaseTo ? name(cy + gap * 0.8, 'grease', cx + Math.min(s.greaseTo * k, inner / 2) * 0.75) : '',
    name(top + h * 0.88, 'inner ring', right),
  ].join('');
}

/** A ring from its far edge to its shoulder, with the groove cut out. */
function ring(left: number, right: number, far: number, near: number, cx: number, groove: number, gap: number): string {
  const q = Math.sqrt(Math.max(0, groove ** 2 - gap ** 2));
  const sweep = far < near ? 0 : 1;
  const d = [
    `M${num(left)} ${num(far)}`,
    `H${num(right)}`,
    `V${num(near)}`,
    `H${num(cx + q)}`,
    `A${num(groove)} ${num(groove)} 0 0 ${sweep} ${num(cx - q)} ${num(near)}`,
    `H${num(left)}`,
    'Z',
  ];
  return el('path', { d: d.join(' '), fill: colour.ring, ...edge });
}

/** All balls round the pitch circle, with a bead between each two. */
function faceView(s: BearingShape, n: number, cx: number, cy: number): string {
  const outer = 100;
  const k = outer / (s.outside / 2);
  const pitch = ((s.bore + s.outside) / 4) * k;
  const ball = Math.min((s.ball / 2) * k, pitch * Math.sin(Math.PI / n) * 0.86);
  const around = (i: number) => {
    const a = (2 * Math.PI * i) / n - Math.PI / 2;
    return [cx + pitch * Math.cos(a), cy + pitch * Math.sin(a)] as const;
  };
  const bead = Math.max(1.5, Math.min(ball * 0.45, (pitch * Math.PI) / n - ball));
  const balls = Array.from({ length: n }, (_, i) => circle(...around(i), ball, { fill: colour.ball, ...edge }));
  const beads = s.share
    ? Array.from({ length: n }, (_, i) => circle(...around(i + 0.5), bead, { fill: colour.grease }))
    : [];
  return [
    circle(cx, cy, outer, { fill: colour.ring, ...edge }),
    circle(cx, cy, pitch + s.gap * k, { fill: '#fff', ...edge }),
    ...beads,
    ...balls,
    circle(cx, cy, pitch - s.gap * k, { fill: colour.ring, ...edge }),
    circle(cx, cy, (s.bore / 2) * k, { fill: '#fff', ...edge }),
    svgText(cx, cy - 2, `${n} balls`, { fill: colour.ink, 'text-anchor': 'middle' }),
    svgText(cx, cy + 14, `${n} gaps`, { fill: colour.ink, 'text-anchor': 'middle' }),
  ].join('');
}
