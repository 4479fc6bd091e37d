/** Every stop that was met on the way, with its sentence as it stood then and how it ended. Pure. */

import type { Entry } from '../journal/entry.js';
import type { StepView } from '../steps/board.js';
import { stopWords } from './refusals.js';
import { entriesOf, State } from './state.js';
import { lasting, type OfStep, ofStep, partLabel, textOf, type Who } from './told.js';

/** What became of a stop; of the last four nothing shows that anything was put right. Confirmed: at once the answer that it asks for. */
export type StopResult =
  | 'put right'
  | 'answered after a correction'
  | 'confirmed'
  | 'overruled'
  | 'unforeseen'
  | 'taken back'
  | 'asked no more'
  | 'answer changed';
/** A check that stopped the work for a time. */
export interface StopLine extends OfStep, Who {
  readonly gate: string;
  /** What it said, with the figures of then. */
  readonly says: string;
  /** Number of the entry that met it. */
  readonly seq: number;
  /** Absent while it still stops the work. */
  readonly ended?: Who & { readonly how: string; readonly result: StopResult };
}

/** Journals longer than this are no job of a pair of bearings, and not gone through entry by entry. */
const MOST = 5000;
/** Another answer within this, in seconds: nobody dries, cleans or presses anything right in so short a time. */
const SOON = 120;

/** How a stop ended that a correction of another reading met, and the figure that was asked for anew. */
const AFTER: StopResult = 'answered after a correction';

type Open = Omit<StopLine, 'ended'> & { readonly view: StepView; readonly lately: string };

type Given = Extract<Entry, { kind: 'answer' | 'correct' }>;
const isGiven = (e: Entry | undefined): e is Given => e?.kind === 'answer' || e?.kind === 'correct';
const shownOf = (then: State, e: Given): string => textOf(then, e.key, e.value, e.plusMinus);
const slotOf = (e: Given): string => `${e.key}@${e.place}`;

/** What an undo took back, with its value. */
function takenBack(then: State, of: number): string {
  const e = then.entries[of - 1];
  return `taken back${isGiven(e) ? `: ${partLabel(then, e.key, e.place)}: ${shownOf(then, e)}` : ''}`;
}

/** The answer to the same question that stood before. */
const beforeOf = (then: State, e: Given): Given | undefined =>
  then.entries.findLast((o): o is Given => isGiven(o) && o.seq < e.seq && slotOf(o) === slotOf(e));
const secondsOf = (from: string, to: string): number =>
  Math.max(0, Math.round((Date.parse(to) - Date.parse(from)) / 1000));
const workSince = (then: State, seq: number, until: number): boolean =>
  entriesOf(then, 'done', 'raise').some((e) => e.seq > seq && e.seq < until);

/** What was answered first and what now, where both are known to be answers to the same question. */
function changed(then: State, e: Given): string {
  const first = beforeOf(then, e);
  const now = shownOf(then, e);
  return `${partLabel(then, e.key, e.place)}: ${first ? `${shownOf(then, first)} → ` : ''}${now}`;
}

/** @param met instant at which it was met */
const how = (then: State, e: Entry, met: string): string => {
  const later = `${lasting(secondsOf(met, e.at))} later`;
  switch (e.kind) {
    case 'answer':
      return `answered again ${later}: ${changed(then, e)}`;
    case 'correct':
      return `corrected ${later}: ${e.reason}; ${changed(then, e)}`;
    case 'overrule':
      return `OVERRULED by ${e.initials}: ${e.reason}`;
    case 'undo':
      return takenBack(then, e.of);
    case 'raise':
      return 'something unforeseen was recorded';
    default:
      return 'gone on';
  }
};

/** The correction of another reading that met the stop, where a figure that rests on it is given anew: the guide asked for it. */
function askedBy(then: State, e: Given, met: number): Given | undefined {
  const by = then.entries[met - 1];
  return by?.kind === 'correct' && slotOf(by) !== slotOf(e) && typeof e.value === 'number' ? by : undefined;
}

/** @param seq number of the entry that met the stop */
function howAsked(then: State, e: Entry, seq: number): string {
  const by = isGiven(e) ? askedBy(then, e, seq) : undefined;
  return by?.kind === 'correct' ? `, after ${partLabel(then, by.key, by.place)} was corrected` : '';
}

/**
 * Taken back, led elsewhere by an event, asked no more, or another answer to the same step: the stop is gone, and nothing
 * shows that anything was put right. A step that has its work done again by an event shows it by that event alone. Where
 * “no” became “yes” somebody says that what the stop asks for was done; so does another choice where the stop leaves no
 * other way on. Where a person can be hurt it is told all the same.
 */
function resultOf(then: State, e: Entry, own: StepView, met: Pick<StopLine, 'gate' | 'seq' | 'at'>): StopResult {
  if (e.kind === 'undo') return 'taken back';
  if (e.kind === 'raise') return 'unforeseen';
  if (e.kind === 'overrule') return 'overruled';
  const gate = own.step.gates?.find((g) => g.id === met.gate);
  const holds = gate !== undefined && then.values.holds(gate.must, own.place) === true;
  const asked = e.kind === 'correct' && (gate?.correct ?? []).includes(e.key);
  if (own.status === 'not-needed' && !holds) return asked ? 'put right' : 'asked no more';
  if (!isGiven(e) || e.step !== own.step.id || e.place !== own.place) return 'put right';
  if (e.kind === 'correct') return 'answer changed';
  if (own.step.decision && askedBy(then, e, met.seq)) return AFTER;
  const first = beforeOf(then, e);
  const soon = secondsOf(met.at, e.at) < SOON && !workSince(then, met.seq, e.seq);
  if (gate?.raise === undefined && !(first && soon)) return 'put right';
  const only = gate?.overrule === 'never' && !gate.raise && !gate.correct && !own.step.hazard;
  const asks = first?.value === false ? e.value === true : only && typeof e.value === 'string';
  return asks ? 'confirmed' : 'answer changed';
}

/** Notes the stops of a job that is done entry by entry. */
export class StopLog {
  /** In the order in which they were met. */
  readonly lines: StopLine[] = [];
  private readonly open = new Map<string, Open>();
  /** By the question whose answer was taken back: which lines ended by it. */
  private readonly back = new Map<string, number[]>();
  /** Stops that nobody has seen: another of the same answer stands before them. */
  private readonly behind = new Set<string>();

  /** The state after one more entry, as it stood at that instant. */
  add(then: State): void {
    const { open, lines } = this;
    const entry = then.entries.at(-1);
    if (!entry || then.entries.length > MOST) return;
    for (const [id, { view, lately, ...met }] of open) {
      // Who overrules reads it as it stands then.
      const stop = entry.kind === 'overrule' ? { ...met, says: lately } : met;
      const own = then.board.own(view.step, view.place);
      if (own.status !== 'not-needed' && own.gates.some((g) => g.gate.id === stop.gate)) continue;
      open.delete(id);
      const result = resultOf(then, entry, own, stop);
      const i = lines.findIndex((l) => l.seq === stop.seq && l.gate === stop.gate && l.place === stop.place);
      lines[i] = {
        ...stop,
        ended: {
          at: entry.at,
          by: entry.by,
          how: how(then, entry, stop.at) + (result === AFTER ? howAsked(then, entry, stop.seq) : ''),
          result,
        },
      };
      const of = entry.kind === 'undo' ? then.entries[entry.of - 1] : undefined;
      if (isGiven(of)) this.back.set(slotOf(of), [...(this.back.get(slotOf(of)) ?? []), i]);
    }
    if (isGiven(entry)) this.anew(then, entry);
    for (const view of then.board.stopped())
      for (const [i, held] of view.gates.entries()) {
        const { gate } = held;
        const id = `${view.step.id}@${view.place}:${gate.id}`;
        // Of what one answer meets only the first is shown; another is met once it comes first.
        if (i > 0 && !open.has(id) && (this.behind.has(id) || this.metBy(entry, view))) {
          this.behind.add(id);
          continue;
        }
        this.behind.delete(id);
        const says = stopWords(then, held, view.place);
        const before = open.get(id);
        if (before) {
          open.set(id, { ...before, lately: says });
          continue;
        }
        const stop = { ...ofStep(then, view), gate: gate.id, says, seq: entry.seq, at: entry.at, by: entry.by };
        open.set(id, { ...stop, view, lately: says });
        lines.push(stop);
      }
  }

  private metBy(entry: Entry, { step, place }: StepView): boolean {
    return this.lines.some((l) => l.seq === entry.seq && l.step === step.id && l.place === place);
  }

  /** Beside what was taken back, what was answered in its place, and whether any work lies between the two. */
  private anew(then: State, entry: Given): void {
    for (const i of this.back.get(slotOf(entry)) ?? []) {
      const line = this.lines[i]!;
      const work = workSince(then, line.seq, entry.seq);
      const after = `then answered: ${shownOf(then, entry)} at ${entry.at}${work ? '' : ', nothing done between'}`;
      this.lines[i] = { ...line, ended: { ...line.ended!, how: `${line.ended!.how} at ${line.at}, ${after}` } };
    }
    this.back.delete(slotOf(entry));
  }
}

/** Stops that were let pass by another answer at once, with nothing done between. */
export function answeredAway(state: State): StopLine[] {
  const slots = state.entries.filter(isGiven).map(slotOf);
  // Only an answer that was given once more can do it: without one no entry is gone through.
  return new Set(slots).size === slots.length ? [] : stopsOf(state).filter((s) => s.ended?.result === 'answer changed');
}

/** The stops of a job of which only the journal is there: it is gone through entry by entry. */
export function stopsOf({ entries, model, options }: State): readonly StopLine[] {
  if (entries.length > MOST) return [];
  const log = new StopLog();
  let before: State | undefined;
  entries.forEach((entry, i) => {
    before = new State(model, entries.slice(0, i + 1), Date.parse(entry.at), {
      ...{ ...options, before },
      spent: true,
    });
    log.add(before);
  });
  return log.lines;
}
