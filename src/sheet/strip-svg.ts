/**
 * The strip of marks at 1:1: one SVG unit is one millimetre, and width and height are given in mm.
 * A check bar of 50 mm stands beside it, because a printer that fits the page to the paper changes both alike.
 */
import { el, line, num, rect, shortened, svgText } from '../drawing/svg-parts.js';
import { escapeHtml } from '../text/safe-text.js';
import type { Strip } from './sheet-data.js';

/** Printable on A4 and on Letter inside the margins of the page. */
const LONGEST = { across: 176, down: 225 };
const TALL = 26;
/** From the strip's end to its start line, and beyond its last mark. */
const TAB = 14;
const END = 8;
/** Length of the bar to be measured before the strip is trusted. */
const CHECK_BAR = 50;
/** A name is written along its mark when the next mark leaves room for it. */
const NAME_ROOM = 4.2;
/** Where names stand, between the number above and the rule below. */
const NAME = { top: 1.5, bottom: TALL - 4 };

const ink = { stroke: '#000' };
const font = { fill: '#000', 'font-family': 'system-ui, sans-serif' };

export type StripDrawing =
  | { readonly fits: true; readonly svg: string; readonly down: boolean }
  | { readonly fits: false; readonly say: string };

const page = (width: number, height: number, description: string, inside: string): string => {
  const words = escapeHtml(description);
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${num(width)}mm" height="${num(height)}mm"` +
    ` viewBox="0 0 ${num(width)} ${num(height)}" role="img" aria-label="${words}"><title>${words}</title>${inside}</svg>`
  );
};

/** The strip, lying or, when it is long, standing; a sentence when no page holds it. */
export function stripSvg(strip: Strip): StripDrawing {
  const marks = strip.marks.filter((m) => Number.isFinite(m.mm) && m.mm >= 0);
  const last = Math.max(0, ...marks.map((m) => m.mm));
  const length = TAB + last + END;
  if (length > LONGEST.down)
    return {
      fits: false,
      say: `The last mark lies ${num(last)} mm from the start: too long for one page. Draw the marks with a rule.`,
    };
  const down = length > LONGEST.across;
  const parts = lying(marks, last, length);
  const stops = marks.map((m) => m.label).join(', ');
  const description = `Strip at true size, marks from the start line: ${stops}`;
  // Margin of half a millimetre keeps the cutting line inside the drawing.
  const inside = down
    ? el('g', { transform: `translate(${num(TALL + 0.5)} 0.5) rotate(90)` }, parts)
    : el('g', { transform: 'translate(0.5 0.5)' }, parts);
  const [w, h] = down ? [TALL + 1, length + 1] : [length + 1, TALL + 1];
  return { fits: true, down, svg: page(w, h, description, inside) };
}

function lying(marks: Strip['marks'], last: number, length: number): string {
  const parts = [
    rect(0, 0, length, TALL, { ...ink, fill: '#fff', 'stroke-width': 0.2, 'stroke-dasharray': '2 1' }),
    line(TAB, 0, TAB, TALL, { ...ink, 'stroke-width': 0.5 }),
    svgText(0, 0, 'START', {
      ...font,
      'font-size': 2.8,
      'font-weight': 'bold',
      transform: `translate(${num(TAB - 1.2)} ${TALL - 2}) rotate(-90)`,
    }),
    svgText(0, 0, 'plunger edge', {
      ...font,
      'font-size': 2.2,
      transform: `translate(${num(TAB - 4.6)} ${TALL - 2}) rotate(-90)`,
    }),
    svgText(1, 4.4, '→ tip', { ...font, 'font-size': 2.8 }),
  ];
  // A rule along the lower edge: each millimetre, longer at five and ten.
  for (let mm = 1; mm <= last + END - 1; mm++) {
    const size = mm % 10 === 0 ? 3.2 : mm % 5 === 0 ? 2.2 : 1.2;
    parts.push(line(TAB + mm, TALL - size, TAB + mm, TALL, { ...ink, 'stroke-width': 0.1 }));
  }
  marks.forEach((m, i) => {
    const x = TAB + m.mm;
    parts.push(line(x, 0, x, TALL, { ...ink, 'stroke-width': 0.25 }));
    const room = m.mm - Math.max(0, ...marks.filter((o) => o.mm < m.mm).map((o) => o.mm));
    parts.push(svgText(x + 0.6, 3, String(i + 1), { ...font, 'font-size': 2.6, 'font-weight': 'bold' }));
    // A box of its own cuts off a name that would run over the edge.
    if (room >= NAME_ROOM)
      parts.push(
        el(
          'svg',
          { x: x - 3.4, y: NAME.top, width: 3, height: NAME.bottom - NAME.top },
          svgText(0, 0, shortened(m.name, 15), {
            ...font,
            'font-size': 2.3,
            transform: `translate(2.4 ${num(NAME.bottom - NAME.top - 0.2)}) rotate(-90)`,
          }),
        ),
      );
  });
  return parts.join('');
}

/** A bar exactly 50 mm long between the outer edges of its end lines' middles. */
export function checkBarSvg(): string {
  const y = 4;
  return page(
    CHECK_BAR + 4,
    11,
    'Check bar, 50 mm between its end lines',
    [
      line(2, y, 2 + CHECK_BAR, y, { ...ink, 'stroke-width': 0.6 }),
      line(2, 1, 2, 7, { ...ink, 'stroke-width': 0.25 }),
      line(2 + CHECK_BAR, 1, 2 + CHECK_BAR, 7, { ...ink, 'stroke-width': 0.25 }),
      svgText(2 + CHECK_BAR / 2, 10, '50 mm', { ...font, 'font-size': 3.2, 'text-anchor': 'middle' }),
    ].join(''),
  );
}

/** What has to be done before the strip may be trusted. */
export const stripCheckWords =
  'Before you trust the strip, lay a steel rule on this bar. It must measure 50 mm between its end lines. ' +
  'If it does not, print again at 100 %, not “fit to page”, and throw this strip away.';
