/** The whole job at one look: every phase with both bearings side by side, what is to come, and each phase to read ahead. */
import { ahead, type PhaseCell, type PhaseRow, phaseRows } from '../../engine/state/ahead.js';
import type { StepView } from '../../engine/steps/board.js';
import { fillIn } from '../../engine/values/texts.js';
import { textWidth } from '../../text/text-width.js';
import type { Desk } from '../desk.js';
import { type Glyphs, glyphs } from '../look/glyphs.js';
import { type Block, type Line, plain, quiet, type Room, strong } from '../look/line.js';
import { wrapText } from '../look/wrap.js';
import type { Page } from '../page.js';
import { paragraph, spans } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { left, timeOfDay } from '../words/times.js';
import { PickPage } from './pick-page.js';
import { ReadingPage } from './reading-page.js';

/** Cut to a width, and filled up to it. */
function fitted(text: string, width: number): string {
  let out = text;
  while (textWidth(out) > width && out.length > 1) out = `${out.replace(/…$/, '').slice(0, -1)}…`;
  return out + ' '.repeat(Math.max(0, width - textWidth(out)));
}

/** @param now the step that stands beside the table: it need not be named once more */
function cellWords(desk: Desk, c: PhaseCell, g: Glyphs, now: StepView | undefined): string {
  const { state } = desk;
  if (now && c.next?.step === now.step && c.next.place === now.place)
    return `${c.status === 'stopped' ? g.warn : g.open} here`;
  switch (c.status) {
    case 'none':
      return '';
    case 'done':
      return g.done;
    case 'waiting':
      return `${g.wait} until ${timeOfDay(c.next?.wait?.until ?? 0, state.now, desk.app.terminal.zone)}`;
    case 'stopped':
      return `${g.warn} stopped: ${c.next?.step.title ?? ''}`;
    case 'open':
      return `${g.open} ${c.next?.step.title ?? ''}`;
    default:
      return c.done > 0 ? `${c.done} of ${c.total}` : '-';
  }
}

/** Columns of the table, one a bearing; what is done once for the whole job goes across them. */
function columnsOf(desk: Desk, rows: readonly PhaseRow[], room: Pick<Room, 'cols' | 'ascii'>, now?: StepView) {
  const places = rows[0]?.cells.map((c) => c.place).slice(1) ?? [];
  const longest = Math.max(...rows.map((r) => textWidth(r.title)));
  const title = Math.min(longest, Math.max(12, Math.floor(room.cols * 0.4)));
  const wide = room.cols - title - 9;
  const width = Math.max(8, Math.floor(wide / Math.max(1, places.length)));
  const g = glyphs(room.ascii);
  const across = new Set(['open', 'stopped', 'waiting']);
  const cells = ([job, ...own]: readonly PhaseCell[]): string => {
    const alone = own.every((c) => c.status === 'none');
    if (job && (alone || across.has(job.status))) return fitted(cellWords(desk, job, g, now), wide);
    return own.map((c) => fitted(cellWords(desk, c, g, now), width - 1)).join(' ');
  };
  return {
    head: `${' '.repeat(title + 6)}${places.map((p) => fitted(placeWords(desk.state, p), width - 1)).join(' ')}`,
    line: (r: PhaseRow): string => `${fitted(r.title, title)} ${cells(r.cells)}`.trimEnd(),
  };
}

/** What is still to come, in words. */
function toCome(desk: Desk): string {
  const a = ahead(desk.state);
  if (a.done === a.total) return 'Nothing is left to do.';
  const minutes = (n: number): string => left(n * 60_000);
  const parts = [
    ...(a.work === undefined ? [] : [`about ${minutes(Math.max(1, a.work))} of work`]),
    ...(a.waits > 0 ? [`${minutes(a.waits)} of waiting`] : []),
    ...(a.openWaits > 0 ? [`${a.openWaits} ${a.openWaits === 1 ? 'wait' : 'waits'} not known yet`] : []),
    ...a.logs.map((v) => `“${v.step.title}”`),
    ...(a.holds > 0 ? [`${a.holds} ${a.holds === 1 ? 'signature' : 'signatures'}`] : []),
  ];
  const steps = `${a.total - a.done} of ${a.total} steps`;
  return `To come: ${[steps, ...parts].join(', ')}.`;
}

/** `31 of 79`: the step that one is at. */
function stepOfHowMany(desk: Desk): string {
  const { done, total } = desk.state.progress;
  return total ? `${Math.min(done + 1, total)} of ${total}` : '';
}

const marks = (g: Glyphs, v: StepView): string =>
  v.status === 'done' ? g.done : v.status === 'waiting' ? g.wait : v.status === 'stopped' ? g.warn : g.open;

/** All steps of a phase, to be read ahead. */
function phasePage(desk: Desk, row: PhaseRow): Page {
  const { state } = desk;
  const views = state.views.filter((v) => v.step.phase === row.id && v.status !== 'not-needed');
  const blocks = (room: Room): Block[] => {
    const g = glyphs(room.ascii);
    return views.flatMap((v, i): Block[] => [
      spans(
        [
          { text: `${marks(g, v)} ${v.step.title}`, tone: 'strong' },
          ...(v.place === 'job' ? [] : [{ text: `  ${placeWords(state, v.place)}`, tone: 'quiet' as const }]),
        ],
        { gap: i > 0, indent: 2 },
      ),
      paragraph(fillIn(state.values, v.step.do, v.place), { rank: 2, indent: 2 }),
    ]);
  };
  return new ReadingPage({ name: 'phase', head: `${row.title} · read ahead`, blocks }, desk.stack);
}

/** The same table beside a step, where there is room for it. */
export function phasesBeside(desk: Desk, view: StepView, width: number): readonly Line[] {
  const rows = phaseRows(desk.state);
  const { room } = desk.stack;
  const g = glyphs(room.ascii);
  // No key stands before a line here.
  const table = columnsOf(desk, rows, { ...room, cols: width + 4 }, view);
  return [
    quiet(table.head.slice(4)),
    ...rows.map((r) =>
      r.id === view.step.phase ? strong(`${g.pointer} ${table.line(r)}`) : plain(`  ${table.line(r)}`),
    ),
    [],
    ...wrapText(toCome(desk), width, 'quiet'),
  ];
}

export function wholeJobPage(desk: Desk): Page {
  const rows = phaseRows(desk.state);
  const { room } = desk.stack;
  return new PickPage(
    {
      name: 'whole-job',
      head: desk.state.ledger.job?.name ?? '',
      headRight: `step ${stepOfHowMany(desk)}`,
      above: (r) => [
        paragraph(toCome(desk)),
        { rank: 1, lines: () => [[{ text: columnsOf(desk, rows, r).head, tone: 'quiet' }]] },
      ],
      start: rows.findIndex((r) => r.cells.some((c) => c.status === 'open' || c.status === 'stopped')),
      items: () => rows.map((r) => ({ value: r.id, label: columnsOf(desk, rows, room).line(r) })),
      picked: (id) => {
        const row = rows.find((r) => r.id === id);
        if (row) desk.stack.push(phasePage(desk, row));
        return true;
      },
    },
    desk.stack,
  );
}
