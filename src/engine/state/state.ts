/** The state of a job: a pure function of procedure, journal and the time that it is. */
import type { Model } from '../../procedure/model.js';
import type { Branch } from '../../procedure/schema.js';
import type { Answer, Entry, EntryKind } from '../journal/entry.js';
import { beginsSitting, extend, fold, type Ledger, related } from '../journal/ledger.js';
import type { Of } from '../journal/ledger-shape.js';
import { Board, type StepView } from '../steps/board.js';
import { figuresUnder } from '../steps/look.js';
import { readsOf } from '../values/reads.js';
import { fillIn, labelAt, showValue } from '../values/texts.js';
import { type Earlier, type Trial, Values } from '../values/values.js';

/** Work that was done under a figure which has since been corrected. */
export interface Remedy {
  readonly view: StepView;
  readonly text: string;
  /** Why nothing is to be done about it. */
  readonly nothing: string | undefined;
  readonly changed: readonly {
    readonly key: string;
    readonly label: string;
    readonly old: string;
    readonly now: string;
  }[];
}

export interface StateOptions {
  readonly trial?: Trial;
  readonly earlier?: Earlier;
  /**
   * A state of the same job whose journal is a beginning of this one: what the added entries do not touch
   * is taken over from it. Changes nothing but the time that it takes; one that does not fit is ignored.
   */
  readonly before?: State;
  /** `before` is never asked again: what it has is handed over, not copied. Of its entries only the last is compared. */
  readonly spent?: true;
}

/** True when `before` was made for a beginning of these entries, under the same trial and earlier job. */
function fits(before: State, model: Model, entries: readonly Entry[], options: StateOptions): boolean {
  const old = before.entries;
  if (before.model !== model || old.length > entries.length) return false;
  if (before.options.trial !== options.trial || before.options.earlier !== options.earlier) return false;
  if (old === entries) return true;
  return options.spent ? old.at(-1) === entries[old.length - 1] : old.every((e, i) => e === entries[i]);
}

const lookAgain = ({ step }: StepView): string => `Look at what was done in “${step.title}” again.`;

export class State {
  readonly ledger: Ledger;
  readonly values: Values;
  readonly board: Board;
  /** Number of the first entry of this sitting; beyond the last one when somebody has only just come back. */
  readonly sitting: number;
  /** Milliseconds since 1970 of the last entry. */
  private readonly last: number;
  readonly options: Omit<StateOptions, 'before' | 'spent'>;

  constructor(
    readonly model: Model,
    readonly entries: readonly Entry[],
    /** Milliseconds since 1970. */
    readonly now: number,
    options: StateOptions = {},
  ) {
    const { trial, earlier, before, spent = false } = options;
    // Only one state back is kept, not the chain of all states before it.
    this.options = { trial, earlier };
    const old = before && fits(before, model, entries, options) ? before : undefined;
    const { ledger, touched } = old
      ? extend(model, old.ledger, entries, old.entries.length, spent)
      : { ledger: fold(model, entries), touched: undefined };
    const kept = old &&
      touched && {
        values: old.values,
        board: old.board,
        touched: touched.size ? readsOf(model, touched) : undefined,
        spent,
      };
    this.ledger = ledger;
    this.values = new Values(model, ledger, trial, earlier, kept);
    this.last = Date.parse(entries.at(-1)?.at ?? '');
    this.sitting = beginsSitting(now - this.last) ? entries.length + 1 : ledger.sitting;
    this.board = new Board(
      this.values,
      {
        now,
        training: Boolean(ledger.job?.apprentice || ledger.job?.practice),
        pace: ledger.pace,
        sitting: this.sitting,
      },
      kept,
    );
  }

  get views(): readonly StepView[] {
    return this.board.views();
  }

  /** Steps that can be worked on now, in order; the current place first when one is given. */
  available(place?: string): StepView[] {
    const open = this.views.filter((v) => v.status === 'open' || v.status === 'stopped' || v.status === 'reopened');
    if (!place) return open;
    const near = open.filter((v) => v.place === 'job' || related(v.place, place));
    return [...near, ...open.filter((v) => !near.includes(v))];
  }

  /** The first of them, without a look at those behind it. */
  next(place?: string): StepView | undefined {
    const near = place && place !== 'job' ? this.board.workable((p) => p === 'job' || related(p, place)) : undefined;
    return near ?? this.board.workable(() => true);
  }

  get waiting(): StepView[] {
    return this.views.filter((v) => v.status === 'waiting');
  }

  /** Waits that are over, and nothing was recorded at that place since they were. */
  get waited(): StepView[] {
    const at = (id: string): number => this.model.order.get(id) ?? -1;
    // For the whole job only what comes behind it.
    const isOn = (e: Entry & { readonly place: string }, v: StepView): boolean =>
      e.place === 'job' ? 'step' in e && at(e.step) > at(v.step.id) : related(e.place, v.place);
    return this.views.filter((v) => {
      if (v.status !== 'done' || !v.wait || v.wait.left > 0) return false;
      const { until } = v.wait;
      const begun = Math.max(v.ledger!.last!.seq, v.wait.since);
      const since = (e: Entry): boolean => e.seq > begun && 'place' in e && isOn(e, v) && Date.parse(e.at) >= until;
      return !this.entries.some(since);
    });
  }

  /** True when all would be the same at this time: nothing waits, nothing has to be begun in time, no sitting begins. */
  holdsAt(now: number): boolean {
    if (now === this.now) return true;
    return !this.byClock && beginsSitting(now - this.last) === this.sitting > this.entries.length;
  }
  private get byClock(): boolean {
    this.clocked ??= this.views.some(
      (v) => v.status === 'waiting' || (v.status === 'open' && v.step.fresh && !v.ledger?.last),
    );
    return this.clocked;
  }
  private clocked: boolean | undefined;

  get finished(): boolean {
    return this.views.every((v) => v.status === 'done' || v.status === 'not-needed');
  }

  /** Done and still to do among the steps that apply. */
  get progress(): { done: number; total: number } {
    const apply = this.views.filter((v) => v.status !== 'not-needed');
    return { done: apply.filter((v) => v.status === 'done' || v.status === 'waiting').length, total: apply.length };
  }

  /** Branches that can be raised at a place now. */
  branches(place: string): Branch[] {
    return (this.model.procedure.branches ?? []).filter(
      (b) =>
        this.values.enclosing(b.at, place) !== undefined &&
        this.values.takesPart(place) &&
        (!b.when || this.values.holds(b.when, place) !== false),
    );
  }

  /** What is to be done about physical work that rested on figures which changed since. */
  get remedies(): Remedy[] {
    return this.outdated.filter((r) => r.nothing === undefined);
  }

  /** Physical work that rested on figures which changed since, also where nothing is to be done about it. */
  get outdated(): Remedy[] {
    return this.views
      .filter((v) => v.step.physical && !v.step.decision && v.changed.length > 0 && v.ledger?.done)
      .map((view) => {
        const shown = (key: string, value: Answer | undefined): string => {
          if (value === undefined) return 'not known';
          const v = this.values.get(key, view.place);
          const half = v.known && v.origin.from !== 'answer' ? v.plusMinus : undefined;
          return showValue(this.model, key, value, half, 'rounded');
        };
        const then = figuresUnder(view.ledger!, view.ledger!.done!);
        const changed = view.changed.map((c) => ({
          key: c.key,
          label: labelAt(this.values, c.key, view.place),
          old: shown(c.key, c.old),
          now: shown(c.key, c.now),
        }));
        const special = (name: string): string | undefined => {
          const [key = '', part] = name.split('.');
          // What to do in words of its own: while nobody can tell which, its name would tell nobody what to do.
          const info = this.model.keys.get(key);
          if (info?.type === 'string' && info.from.by === 'fact' && !this.values.get(key, view.place).known)
            return lookAgain(view);
          const old = then?.[key];
          const v = this.values.get(key, view.place);
          if (part === 'old') return shown(key, old);
          if (part === 'change' && typeof old === 'number' && v.known && typeof v.value === 'number') {
            const d = v.value - old;
            return `${d >= 0 ? '+' : '−'}${shown(key, Math.abs(d))}`;
          }
          return undefined;
        };
        const text = view.step.remedy ? fillIn(this.values, view.step.remedy, view.place, special) : lookAgain(view);
        const none = view.step.no_remedy;
        const right = none && this.values.holds(none.when, view.place) === true;
        return { view, text, changed, nothing: right ? fillIn(this.values, none.say, view.place) : undefined };
      });
  }

  view(step: string, place: string): StepView | undefined {
    return this.board.view(step, place);
  }

  /** True of an entry that was taken back: it stays in the journal and counts no more. */
  takenBack(e: Entry): boolean {
    return this.ledger.undone.has(e.seq);
  }
}

/** The entries of these kinds that count, in order: none that was taken back. Whoever shows or counts entries asks here. */
export function entriesOf<K extends EntryKind>(state: State, ...kinds: readonly K[]): Of<K>[] {
  const wanted: ReadonlySet<EntryKind> = new Set(kinds);
  return state.entries.filter((e): e is Of<K> => wanted.has(e.kind) && !state.takenBack(e));
}

/** Names as they were last given: by initials, 'customer' or 'issuer'. */
export function namesOf(state: State): ReadonlyMap<string, string> {
  const out = new Map<string, string>();
  for (const e of entriesOf(state, 'name')) out.set(e.of, e.name);
  return out;
}
