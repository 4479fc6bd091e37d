/** The journal folded into what holds now: linear in the number of entries, no clock, no procedure logic. */
import type { Model } from '../procedure/model.js';
import type { Answer, Entry } from './entry.js';

type Of<K extends Entry['kind']> = Extract<Entry, { kind: K }>;

/** An answer with its corrections applied. */
export interface Given {
  readonly value: Answer;
  readonly plusMinus: number | undefined;
  readonly typed: string | undefined;
  /** The entry that gave the value that holds now. */
  readonly entry: Of<'answer'> | Of<'correct'>;
  /** The entry that first answered. */
  readonly first: Of<'answer'>;
}
export type Row = ReadonlyMap<string, Given>;

/** What was recorded about one step at one place. */
export interface StepLedger {
  readonly answers: Map<string, Given>;
  readonly rows: Map<string, Given>[];
  caution: Of<'caution'> | undefined;
  done: Of<'done'> | undefined;
  settled: Of<'settle'> | undefined;
  signs: Of<'sign'>[];
  overrules: Of<'overrule'>[];
  predictions: Of<'predict'>[];
  /** Latest entry that advanced the step. */
  last: Entry | undefined;
}

export interface Ledger {
  readonly job: Of<'job'> | undefined;
  readonly operator: string;
  readonly steps: ReadonlyMap<string, StepLedger>;
  readonly raised: readonly Of<'raise'>[];
  readonly corrections: readonly Of<'correct'>[];
  readonly notes: readonly (Of<'note'> | Of<'handover'>)[];
  readonly handover: Of<'handover'> | undefined;
  /** Sequence numbers that an undo took back. */
  readonly undone: ReadonlySet<number>;
  /** Pairs of entries between which the wall clock ran backwards. */
  readonly clockJumps: readonly { readonly before: Entry; readonly after: Entry }[];
}

export const slot = (step: string, place: string): string => `${step}@${place}`;

/** True when one place is the other or encloses it. */
export function related(a: string, b: string): boolean {
  return a === b || a === 'job' || b === 'job' || a.startsWith(`${b}.`) || b.startsWith(`${a}.`);
}

function emptyStep(): StepLedger {
  return {
    answers: new Map(),
    rows: [],
    caution: undefined,
    done: undefined,
    settled: undefined,
    signs: [],
    overrules: [],
    predictions: [],
    last: undefined,
  };
}

function answer(entry: Of<'answer'>, at: StepLedger, repeats: boolean): void {
  const given: Given = { value: entry.value, plusMinus: entry.plusMinus, typed: entry.typed, entry, first: entry };
  if (repeats) {
    let row = at.rows.at(-1);
    if (!row || row.has(entry.key)) {
      row = new Map();
      at.rows.push(row);
    }
    row.set(entry.key, given);
  }
  at.answers.set(entry.key, given);
}

function correct(entry: Of<'correct'>, at: StepLedger): void {
  const put = (map: Map<string, Given>): void => {
    const old = map.get(entry.key);
    if (old && (old.entry.seq === entry.of || old.first.seq === entry.of))
      map.set(entry.key, {
        value: entry.value,
        plusMinus: entry.plusMinus ?? old.plusMinus,
        typed: entry.typed,
        entry,
        first: old.first,
      });
  };
  put(at.answers);
  for (const row of at.rows) put(row);
}

/** Fold the journal. Entries that name unknown steps are kept in the journal and ignored here. */
export function fold(model: Model, entries: readonly Entry[]): Ledger {
  const undone = new Set<number>();
  for (const e of entries) if (e.kind === 'undo' && !undone.has(e.seq)) undone.add(e.of);
  const steps = new Map<string, StepLedger>();
  const raised: Of<'raise'>[] = [];
  const corrections: Of<'correct'>[] = [];
  const notes: (Of<'note'> | Of<'handover'>)[] = [];
  const clockJumps: { before: Entry; after: Entry }[] = [];
  let job: Of<'job'> | undefined;
  let handover: Of<'handover'> | undefined;
  let operator = '';
  let previous: Entry | undefined;

  const at = (step: string, place: string): StepLedger => {
    const id = slot(step, place);
    let s = steps.get(id);
    if (!s) {
      s = emptyStep();
      steps.set(id, s);
    }
    return s;
  };

  for (const e of entries) {
    if (previous && e.at < previous.at) clockJumps.push({ before: previous, after: e });
    previous = e;
    if (undone.has(e.seq)) continue;
    switch (e.kind) {
      case 'job':
        job = e;
        operator = e.by;
        break;
      case 'operator':
        operator = e.initials;
        break;
      case 'raise': {
        raised.push(e);
        const branch = model.procedure.branches?.find((b) => b.id === e.branch);
        const again = new Set(branch?.reopens ?? []);
        for (const s of model.procedure.steps) if (s.branch === e.branch) again.add(s.id);
        for (const id of [...steps.keys()]) {
          const [step = '', place = ''] = id.split('@');
          if (again.has(step) && related(place, e.place)) steps.delete(id);
        }
        break;
      }
      case 'note':
        notes.push(e);
        break;
      case 'handover':
        notes.push(e);
        handover = e;
        break;
      case 'undo':
      case 'procedure':
        break;
      default: {
        const s = at(e.step, e.place);
        if (e.kind === 'correct') {
          corrections.push(e);
          correct(e, s);
          break;
        }
        if (e.kind === 'answer') answer(e, s, Boolean(model.steps.get(e.step)?.repeat));
        else if (e.kind === 'caution') s.caution = e;
        else if (e.kind === 'done') s.done = e;
        else if (e.kind === 'settle') s.settled = e;
        else if (e.kind === 'sign') s.signs.push(e);
        else if (e.kind === 'overrule') s.overrules.push(e);
        else s.predictions.push(e);
        if (e.kind !== 'predict') s.last = e;
      }
    }
  }
  return { job, operator, steps, raised, corrections, notes, handover, undone, clockJumps };
}
