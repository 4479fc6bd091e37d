/** A log on the page of its step: its last rows as a small table, the one that is being taken among them, and its curve. */
import type { StepView } from '../../engine/steps/board.js';
import { showValue } from '../../engine/values/texts.js';
import type { Desk } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import { type Block, type Line, plain, quiet, type Room } from '../look/line.js';
import { shorten, widthOf, wrapText } from '../look/wrap.js';
import { columns } from '../parts/frame-layout.js';
import { labelOf } from '../words/entry-words.js';
import type { MomentOf } from './moment.js';
import { pictureLines } from './picture.js';

const words = (line: Line): string => line.map((s) => s.text).join('');

export function rowLines(desk: Desk, view: StepView): Block[] {
  const { step, place } = view;
  if (!step.repeat) return [];
  const { state } = desk;
  const complete = state.values.completeRows(step.id, place).length;
  const rows = view.ledger?.rows ?? [];
  if (rows.length === 0) return [];
  const asked = (step.ask ?? []).filter((q) => rows.some((r) => r.has(q.key)));
  const labels = asked.map((q) => labelOf(state, q.key, place));
  const first = Math.max(0, rows.length - 6);
  const cells = rows.slice(first).map((r, i) =>
    asked.map((q) => {
      const given = r.get(q.key);
      if (given) return showValue(state.model, q.key, given.value);
      return first + i < complete ? '-' : glyphs(desk.stack.room.ascii).more;
    }),
  );
  return [
    {
      rank: 5,
      gap: true,
      label: 'Last rows',
      lines: (width) => table(labels, cells, width),
      small: (width) => table(labels, cells.slice(-3), width),
    },
  ];
}

function table(labels: readonly string[], cells: readonly (readonly string[])[], width: number): Line[] {
  const room = Math.max(6, Math.floor((width - 2 * (labels.length - 1)) / Math.max(1, labels.length)));
  const heads = labels.map((l) => wrapText(l, Math.min(room, 16)).map(words));
  const wide = heads.map((h, i) => Math.min(room, Math.max(...[...h, ...cells.map((c) => c[i] ?? '')].map(widthOf))));
  const deep = Math.max(...heads.map((h) => h.length));
  const headRows = Array.from({ length: deep }, (_, r) => heads.map((h) => h[r - deep + h.length] ?? ''));
  const put = (list: readonly string[]): string =>
    list
      .map((c, i) => {
        const s = shorten(c, wide[i] ?? 6);
        return s + ' '.repeat(Math.max(0, (wide[i] ?? 0) - widthOf(s)));
      })
      .join('  ')
      .trimEnd();
  return [...headRows.map((h) => quiet(put(h))), ...cells.map((c) => plain(put(c)))];
}

/** Lines of the curve: with room, and with little. */
const high = 9;
const low = 6;

/** The curve of a log under its question, where nothing stands beside the page; the first to go where there is no room. */
export function curveBlock({ desk, view }: MomentOf, room: Room): Block[] {
  if (!view.step.repeat || !view.ledger?.rows.length || columns(room, true).side > 0) return [];
  const drawn = (height: number) => (width: number) => pictureLines(desk, view, width, height) ?? [];
  return [{ rank: 2, gap: true, eyeOnly: true, lines: drawn(high), small: drawn(low) }];
}
