/** The journal folded into what holds now: linear in the number of entries, no clock, no procedure logic. */
import { type Model, safeAmong, withReopened } from '../../procedure/model.js';
import { unfit } from '../../procedure/questions/index.js';
import type { Entry, Pace } from './entry.js';
import { sameInitials, tidyInitials } from './initials.js';
import {
  beginsSitting,
  type ClockGain,
  type Given,
  type Ledger,
  type Of,
  type Row,
  related,
  rowsOf,
  type StepLedger,
  slot,
  stepLike,
  type Unfit,
} from './ledger-shape.js';
import { type Hands, noHands, ownWork, withHand } from './witness.js';

export {
  beginsSitting,
  type Given,
  type Ledger,
  type Row,
  related,
  type StepLedger,
  slot,
  type Unfit,
} from './ledger-shape.js';

const nothing: Ledger = {
  job: undefined,
  operator: '',
  pace: 'learning',
  sitting: 1,
  since: 1,
  steps: new Map(),
  raised: [],
  reopened: new Map(),
  corrections: [],
  notes: [],
  handover: undefined,
  undone: new Set(),
  hands: noHands,
  noWitness: [],
  unfit: [],
  clockJumps: [],
  clockGains: [],
};

/** Fold the journal. Entries that name unknown steps are kept in the journal and ignored here. */
export function fold(model: Model, entries: readonly Entry[]): Ledger {
  return extend(model, nothing, entries, 0).ledger;
}

export interface Extended {
  readonly ledger: Ledger;
  /** Slots in which something was added, and logs whose complete rows may have changed; undefined when anything may. */
  readonly touched: ReadonlySet<string> | undefined;
}

/** The ledger of `entries`, given that of the first `from` of them, which is left as it was unless it is `spent`. */
export function extend(model: Model, before: Ledger, entries: readonly Entry[], from: number, spent = false): Extended {
  // An empty ledger is always a new one: who spends it writes into it.
  if (from === entries.length && from > 0) return { ledger: before, touched: new Set() };
  const mine = new Set<number>();
  const undone = from > 0 ? before.undone : mine;
  // From the end: an undo that was itself taken back takes nothing back.
  for (let i = entries.length - 1; i >= from; i--) {
    const e = entries[i]!;
    if (e.kind !== 'undo' || undone.has(e.seq)) continue;
    // What was folded can't be taken out again.
    if (from > 0) return { ledger: fold(model, entries), touched: undefined };
    mine.add(e.of);
  }
  const builder = new Builder(model, before, undone, spent);
  for (let i = from; i < entries.length; i++) builder.add(entries[i]!, entries[i - 1]);
  return builder.extended;
}

class Builder {
  private readonly steps: Map<string, StepLedger>;
  /** Steps and rows made here, which may be changed; all others belong to the ledger before. */
  private readonly own = new Set<string>();
  private readonly ownRows = new Set<Row>();
  private readonly rowsTouched = new Set<string>();
  private everything = false;
  private readonly raised: Of<'raise'>[];
  private reopened: Ledger['reopened'];
  private readonly corrections: Of<'correct'>[];
  private readonly notes: (Of<'note'> | Of<'handover'>)[];
  private readonly clockJumps: { before: Entry; after: Entry }[];
  private readonly clockGains: ClockGain[];
  private readonly noWitness: Of<'sign'>[];
  private readonly unfit: Unfit[];
  private hands: Hands;
  private job: Of<'job'> | undefined;
  private handover: Of<'handover'> | undefined;
  private operator: string;
  private pace: Pace;
  private sitting: number;
  private since: number;

  constructor(
    private readonly model: Model,
    before: Ledger,
    private readonly undone: ReadonlySet<number>,
    spent: boolean,
  ) {
    // Its records of single steps are copied before they change all the same.
    this.steps = spent && before.steps instanceof Map ? before.steps : new Map(before.steps);
    this.raised = [...before.raised];
    this.reopened = before.reopened;
    this.corrections = [...before.corrections];
    this.notes = [...before.notes];
    this.clockJumps = [...before.clockJumps];
    this.clockGains = [...before.clockGains];
    this.noWitness = [...before.noWitness];
    this.unfit = [...before.unfit];
    this.hands = before.hands;
    this.job = before.job;
    this.handover = before.handover;
    this.operator = before.operator;
    this.pace = before.pace;
    this.sitting = before.sitting;
    this.since = before.since;
  }

  get extended(): Extended {
    const { job, operator, pace, sitting, since, steps, raised, reopened, corrections, notes } = this;
    const { handover, undone, hands, noWitness, unfit, clockJumps, clockGains } = this;
    return {
      ledger: {
        job,
        operator,
        pace,
        sitting,
        since,
        steps,
        raised,
        reopened,
        corrections,
        notes,
        handover,
        undone,
        hands,
        noWitness,
        unfit,
        clockJumps,
        clockGains,
      },
      touched: this.everything ? undefined : new Set([...this.own, ...this.rowsTouched]),
    };
  }

  private at(step: string, place: string): StepLedger {
    const id = slot(step, place);
    let s = this.steps.get(id);
    if (!s || !this.own.has(id)) {
      s = stepLike(s);
      this.own.add(id);
      this.steps.set(id, s);
    }
    return s;
  }

  add(e: Entry, previous: Entry | undefined): void {
    if (previous) {
      const pause = Date.parse(e.at) - Date.parse(previous.at);
      if (pause < 0) this.clockJumps.push({ before: previous, after: e });
      if (beginsSitting(pause)) this.sitting = e.seq;
    }
    if (e.kind === 'note' && e.clock?.gained !== undefined)
      this.clockGains.push({ seq: e.seq, gained: e.clock.gained });
    if (this.undone.has(e.seq)) return;
    switch (e.kind) {
      case 'job':
        this.job = e;
        this.operator = e.by;
        this.everything = true;
        break;
      case 'operator':
        if (!sameInitials(e.initials, this.operator)) this.since = this.beganLate(e) ? 1 : e.seq;
        this.operator = e.initials;
        this.sitting = e.seq;
        break;
      case 'pace':
        this.pace = e.pace;
        break;
      case 'raise':
        this.raise(e);
        break;
      case 'note':
        this.notes.push(e);
        break;
      case 'handover':
        this.notes.push(e);
        this.handover = e;
        this.sitting = e.seq;
        break;
      case 'undo':
      case 'procedure':
      case 'picture':
      case 'name':
        break;
      default:
        this.inStep(e, this.at(e.step, e.place));
        this.hands = withHand(this.hands, e);
    }
  }

  /** Whoever begins practice late takes nothing over: all before was filled in for this very person. */
  private beganLate({ initials }: Of<'operator'>): boolean {
    return this.job?.from !== undefined && this.since === 2 && sameInitials(initials, this.job.by);
  }

  private raise(e: Of<'raise'>): void {
    this.raised.push(e);
    this.everything = true;
    const branch = this.model.procedure.branches?.find((b) => b.id === e.branch);
    const own = this.model.procedure.steps.flatMap((s) => (s.branch === e.branch ? [s.id] : []));
    const told = [...this.steps].flatMap(([id, old]) => {
      const [step = '', place = ''] = id.split('@');
      return related(place, e.place) ? [{ id, old, step, place }] : [];
    });
    const ids = [...(branch?.reopens ?? []), ...own];
    const again = withReopened(this.model.procedure, ids, (step) => told.some((s) => s.step === step));
    const gone = told.filter((t) => again.has(t.step));
    const safe = safeAmong(this.model.procedure, again).map((s) => slot(s.id, s.at));
    for (const id of [...safe, ...gone.map((t) => t.id)]) this.reopened = new Map(this.reopened).set(id, e.seq);
    for (const { id, old, step, place } of gone) {
      this.steps.delete(id);
      // A log of the branch itself goes on: what was moved the first time stays moved when it comes to it again.
      const { branch: home, repeat } = this.model.steps.get(step) ?? {};
      if (home === e.branch && repeat && !branch?.reopens?.includes(step)) this.at(step, place).rows.push(...old.rows);
    }
  }

  private inStep(e: Extract<Entry, { step: string }>, s: StepLedger): void {
    switch (e.kind) {
      case 'correct':
        this.corrections.push(e);
        this.correct(e, s);
        return;
      case 'answer':
        this.answer(e, s);
        s.seq = e.seq;
        break;
      case 'caution':
        s.caution = e;
        break;
      case 'done':
        s.done = e;
        s.seq = e.seq;
        break;
      case 'settle':
        s.settled = e;
        break;
      case 'sign':
        // A journal may come from elsewhere: what is refused when it is entered counts for nothing either.
        if (this.vouches(e, s)) s.signs.push(e);
        else this.noWitness.push(e);
        break;
      case 'refuse':
        s.refusals.push(e);
        break;
      case 'overrule':
        s.overrules.push(e);
        break;
      case 'predict':
        s.predictions.push(e);
        return;
    }
    s.last = e;
  }

  /** Where a mentor is named, only another person than those who did the work can sign. */
  private vouches(e: Of<'sign'>, s: StepLedger): boolean {
    const { hands, operator, job } = this;
    if (!job?.mentor) return true;
    if (e.role !== 'mentor' || tidyInitials(e.initials) === undefined) return false;
    return !ownWork({ hands, operator, job }, e.place, e.initials, s);
  }

  private answer(entry: Of<'answer'>, s: StepLedger): void {
    const fits = this.fits(entry);
    const read: Given = { value: entry.value, plusMinus: entry.plusMinus, typed: entry.typed, entry, first: entry };
    const given: Given = fits ? read : { ...read, unfit: true };
    const step = this.model.steps.get(entry.step);
    if (step?.repeat) {
      const row = s.rows.at(-1);
      const begins = !row || row.has(entry.key);
      // What is surely no whole row yet leaves the whole rows as they were, if the row before it was surely whole.
      const settled = !begins || !row || !step.ask?.some((q) => !q.optional && !row.has(q.key));
      this.row(s, begins ? s.rows.length : s.rows.length - 1, entry.key, given);
      const grown = s.rows.at(-1);
      const lacks = step.ask?.some((q) => !q.optional && !q.when && !grown?.has(q.key));
      if (!settled || !lacks) this.rowsTouched.add(rowsOf(slot(entry.step, entry.place)));
    }
    if (fits) s.answers.set(entry.key, given);
    else s.answers.delete(entry.key);
  }

  /** True when the question could have had this answer; what the step does not ask at all is left to others. */
  private fits(entry: Unfit['entry']): boolean {
    const question = this.model.steps.get(entry.step)?.ask?.find((q) => q.key === entry.key);
    const why = question && unfit(question, entry.value, this.model.tables);
    if (why) this.unfit.push({ entry, why });
    return why === undefined;
  }

  private row(s: StepLedger, i: number, key: string, given: Given): void {
    let row = s.rows[i];
    if (!row || !this.ownRows.has(row)) {
      row = new Map(row);
      this.ownRows.add(row);
      s.rows[i] = row;
    }
    row.set(key, given);
  }

  private correct(entry: Of<'correct'>, s: StepLedger): void {
    this.rowsTouched.add(rowsOf(slot(entry.step, entry.place)));
    const fits = this.fits(entry);
    const hit = (g: Given | undefined): g is Given =>
      g !== undefined && (g.entry.seq === entry.of || g.first.seq === entry.of);
    const now = (old: Given): Given => ({
      value: entry.value,
      plusMinus: entry.plusMinus ?? old.plusMinus,
      typed: entry.typed,
      entry,
      first: old.first,
      ...(fits ? {} : { unfit: true }),
    });
    const given = s.answers.get(entry.key);
    if (hit(given) && fits) s.answers.set(entry.key, now(given));
    // The reading that it replaces was said to be wrong.
    else if (hit(given)) s.answers.delete(entry.key);
    for (let i = s.rows.length - 1; i >= 0; i--) {
      const g = s.rows[i]?.get(entry.key);
      if (!hit(g)) continue;
      this.row(s, i, entry.key, now(g));
      break;
    }
    s.seq = entry.seq;
  }
}
