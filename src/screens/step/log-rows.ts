/** A log on the page of its step: its last rows as a small table, the one that is being taken among them, and its curve. */
import type { StepView } from '../../engine/steps/board.js';
import { showValue } from '../../engine/values/texts.js';
import type { Question } from '../../procedure/schema.js';
import { type Desk, isBrisk } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import { type Block, type Line, plain, quiet, type Room } from '../look/line.js';
import { lineWidth, shorten, widthOf, wrapText } from '../look/wrap.js';
import { columns } from '../parts/frame-layout.js';
import { paragraph } from '../words/blocks.js';
import { labelOf } from '../words/entry-words.js';
import { timeOfDay } from '../words/times.js';
import type { MomentOf } from './moment.js';
import { pictureLines } from './picture.js';

const words = (line: Line): string => line.map((s) => s.text).join('');

export function rowLines(desk: Desk, view: StepView): Block[] {
  const { step, place } = view;
  // In the brisk pace they stand above the row that is taken.
  if (!step.repeat || (isBrisk(desk) && view.wants === 'question')) return [];
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
      if (given) return plain(showValue(state.model, q.key, given.value));
      return plain(first + i < complete ? '-' : glyphs(desk.stack.room.ascii).more);
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

/** Where a log rests from row to row: until when, and what its last row held. */
export function pauseBlocks(desk: Desk, { step, place, wants }: StepView): Block[] {
  const { values, now, model } = desk.state;
  const last = values.completeRows(step.id, place).at(-1);
  const minutes = step.repeat?.pause ? values.evaluate(step.repeat.pause, place) : undefined;
  if (wants !== 'question' || !last || !minutes?.known || typeof minutes.value !== 'number') return [];
  const until = Math.max(...[...last.values()].map((given) => Date.parse(given.entry.at))) + minutes.value * 60_000;
  const rests = until > now ? `Pause until ${timeOfDay(until, now, desk.app.terminal.zone, 'second')}. ` : '';
  const held = [...last].map(([key, given]) => showValue(model, key, given.value)).join(', ');
  return [paragraph(`${rests}Last row: ${held}`, { rank: 1, tone: 'strong' })];
}

function table(labels: readonly string[], cells: readonly (readonly Line[])[], width: number): Line[] {
  const room = Math.max(6, Math.floor((width - 2 * (labels.length - 1)) / Math.max(1, labels.length)));
  const heads = labels.map((l) => wrapText(l, Math.min(room, 16)).map(words));
  const wide = heads.map((h, i) =>
    Math.min(room, Math.max(...[...h, ...cells.map((c) => words(c[i] ?? []))].map(widthOf))),
  );
  const deep = Math.max(...heads.map((h) => h.length));
  const headRows = Array.from({ length: deep }, (_, r) => heads.map((h) => quiet(h[r - deep + h.length] ?? '')));
  const put = (list: readonly Line[]): Line =>
    list.flatMap((c, i): Line => {
      const most = wide[i] ?? 6;
      const cell = lineWidth(c) > most ? plain(shorten(words(c), most)) : c;
      return [...cell, ...(i < list.length - 1 ? [{ text: ' '.repeat(most - lineWidth(cell) + 2) }] : [])];
    });
  return [...headRows, ...cells].map(put);
}

/** Rows before the one that is taken. */
const BEFORE = 3;

/** The log with the row that is being taken as its last line. */
export function rowTable({ desk, view }: MomentOf, asks: readonly Question[], now: (q: Question) => Line): Block[] {
  const { state } = desk;
  const labels = asks.map((q) => labelOf(state, q.key, view.place));
  const done = state.values.completeRows(view.step.id, view.place).slice(-BEFORE);
  const cells = done.map((r) =>
    asks.map((q) => {
      const given = r.get(q.key);
      return quiet(given ? showValue(state.model, q.key, given.value) : '-');
    }),
  );
  const row = asks.map(now);
  return [
    {
      rank: 0,
      gap: true,
      label: 'This row',
      lines: (width) => table(labels, [...cells, row], width),
      small: (width) => table(labels, [...cells.slice(-1), row], width),
    },
  ];
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
