/** Where each step stands at each place, each with what comes before it taken into account. */
import type { Model } from '../../procedure/model.js';
import type { Step } from '../../procedure/schema.js';
import { related, slot } from '../journal/ledger.js';
import { Memo, type TakenOver } from '../values/reads.js';
import type { Values } from '../values/values.js';
import { look, type Now } from './look.js';
import { leftWords, type StepView } from './step-view.js';

export { figuresOf } from './look.js';
export {
  type GateView,
  leftWords,
  type StepView,
} from './step-view.js';

/** A step at a place, with the earlier ones that it waits for. */
interface Pair {
  readonly step: Step;
  readonly place: string;
  readonly id: string;
  readonly ahead: readonly number[];
}
interface Order {
  readonly pairs: readonly Pair[];
  readonly index: ReadonlyMap<string, number>;
  /** Members of each group of steps that are kept together. */
  readonly groups: readonly (readonly number[])[];
  /** Those whose step has gates. */
  readonly gated: readonly number[];
  /** Those that the clock alone can change. */
  readonly timed: readonly number[];
  /** By the number of a step: those with gates, from it on, that do not wait for it. Found when it is asked for. */
  readonly beside: (readonly number[] | undefined)[];
}

const orders = new WeakMap<Model, Map<string, Order>>();

/**
 * Every step at every place in order; steps of branches that were raised come first at their place, or behind the step that
 * the branch names. Before them comes what is asked anew and what makes safe and has to be done again, but for what a branch proves itself.
 */
function orderOf(model: Model, { raised: events, reopened }: Values['ledger']): Order {
  const known = orders.get(model) ?? new Map<string, Order>();
  orders.set(model, known);
  const raised = new Set(events.map((r) => r.branch));
  const unsafe = model.procedure.steps.filter((s) => s.makes_safe && !s.anew && reopened.has(slot(s.id, s.at)));
  const name = [...[...raised].sort(), '', ...unsafe.map((s) => s.id)].join();
  let order = known.get(name);
  if (!order) {
    order = makeOrder(model, raised, unsafe);
    known.set(name, order);
  }
  return order;
}

function makeOrder(model: Model, raised: ReadonlySet<string>, unsafe: readonly Step[]): Order {
  const { steps, branches = [] } = model.procedure;
  const behind = new Map(branches.map((b) => [b.id, b.behind]));
  const events = steps.filter((s) => s.branch && raised.has(s.branch));
  const unforeseen = events.filter((s) => behind.get(s.branch!) === undefined && s.stays_at !== 'papers');
  // What is settled on paper comes before anything is opened for it.
  const papers = events.filter((s) => s.stays_at === 'papers');
  const proofs = new Set(steps.flatMap((s) => s.anew?.after ?? []));
  // Of a branch all up to its proof.
  const proving = unforeseen.filter((s, i) =>
    unforeseen.slice(i).some((o) => o.branch === s.branch && proofs.has(o.id)),
  );
  const ordered = [
    ...papers,
    ...proving,
    ...steps.filter((s) => s.anew),
    ...unsafe,
    ...unforeseen.filter((s) => !proving.includes(s)),
    ...steps.filter((s) => !s.branch && !s.anew && !unsafe.includes(s)),
  ].flatMap((s) => [s, ...events.filter((e) => behind.get(e.branch!) === s.id && !papers.includes(e))]);
  const near = new Map(model.places.map((p) => [p.id, model.places.filter((q) => related(q.id, p.id))]));
  /** All so far at, around and within each place. */
  const nearby = new Map<string, number[]>(model.places.map((p) => [p.id, []]));
  const pairs: Pair[] = [];
  const groups = new Map<string, number[]>();
  for (const step of ordered)
    for (const p of model.places) {
      if (p.kind !== step.at) continue;
      const { not_after } = step;
      const all = nearby.get(p.id)!;
      const ahead = not_after ? all.filter((i) => !not_after.includes(pairs[i]!.step.id)) : all.slice();
      for (const q of near.get(p.id)!) nearby.get(q.id)!.push(pairs.length);
      if (step.together) groups.set(step.together, [...(groups.get(step.together) ?? []), pairs.length]);
      pairs.push({ step, place: p.id, id: slot(step.id, p.id), ahead });
    }
  return {
    pairs,
    index: new Map(pairs.map((p, i) => [p.id, i])),
    groups: [...groups.values()],
    gated: pairs.flatMap((p, i) => (p.step.gates?.length ? [i] : [])),
    timed: pairs.flatMap((p, i) => (p.step.wait || p.step.fresh ? [i] : [])),
    beside: [],
  };
}

function gatedBeside({ pairs, gated, beside }: Order, begin: number): readonly number[] {
  let found = beside[begin];
  if (!found) {
    found = gated.filter((i) => i >= begin && !pairs[i]!.ahead.includes(begin));
    beside[begin] = found;
  }
  return found;
}

const settled = (v: StepView): boolean => v.status === 'done' || v.status === 'not-needed';
const workable = (v: StepView): boolean => v.status === 'open' || v.status === 'stopped' || v.status === 'reopened';

export class Board {
  /** By the numbers of the order; a branch that was not raised has none. */
  private readonly looks: Memo<StepView>;
  private readonly order: Order;
  private readonly placed: (StepView | undefined)[] = [];
  private group: { readonly name: string; readonly open: StepView } | undefined;
  private grouped = false;
  private first: number | undefined;
  private readonly settledTo: number = 0;
  private all: StepView[] | undefined;

  constructor(
    readonly values: Values,
    private readonly now: Now,
    /** The board of a shorter journal. */
    before?: TakenOver & { readonly board: Board },
  ) {
    // Of a branch that was raised since nothing is taken over, so the order is the same.
    this.order = before?.board.order ?? orderOf(values.model, values.ledger);
    // Another pace, sitting or person: what has to be confirmed may be another. Who comes first in the morning begins with
    // the sitting that was expected, under the same number.
    const same =
      before?.board.now.pace === now.pace &&
      before.board.now.sitting === now.sitting &&
      before.board.values.ledger.since === values.ledger.since;
    this.looks = new Memo(same ? before.board.looks : undefined, before);
    if (!before || !same) return;
    const { board } = before;
    // What waits by the clock is looked at anew, as the time is another; a wait that is over stays over while the clock
    // goes forward.
    const forward =
      now.now >= board.now.now && values.ledger.clockJumps.length === board.values.ledger.clockJumps.length;
    // So is what has to be begun in time.
    const over = ({ wait, step, ledger: begun }: StepView): boolean =>
      !(step.fresh && !begun?.last) && (!wait || (forward && wait.left === 0 && !wait.clockBack));
    for (const i of this.order.timed) {
      const kept = this.looks.get(i);
      if (kept && !over(kept.value)) this.looks.drop(i);
    }
    // What was settled from the first on and is kept needs no second look.
    const { first = 0 } = board;
    while (this.settledTo < first && this.looks.get(this.settledTo)) this.settledTo++;
  }

  /** The step looked at on its own, without what comes before it. */
  own(step: Step, place: string): StepView {
    const i = this.order.index.get(slot(step.id, place));
    return i === undefined ? look(this.values, this.now, step, place) : this.ownAt(i);
  }

  private ownAt(i: number): StepView {
    const seen = this.looks.get(i);
    if (seen) return seen.value;
    const { step, place } = this.order.pairs[i]!;
    const kept = this.values.tracked(() => look(this.values, this.now, step, place));
    this.looks.set(i, kept);
    return kept.value;
  }

  /** The first step that has to be settled before this one and is not. All before `begin` are: they are passed over. */
  private unsettledAhead(i: number): number | undefined {
    const { ahead } = this.order.pairs[i]!;
    const begin = this.begin();
    let low = 0;
    for (let high = ahead.length; low < high; ) {
      const middle = (low + high) >> 1;
      if (ahead[middle]! < begin) low = middle + 1;
      else high = middle;
    }
    for (; low < ahead.length; low++) if (!settled(this.ownAt(ahead[low]!))) return ahead[low];
    return undefined;
  }

  /** Number of the first step of all that is not settled. */
  private begin(): number {
    if (this.first !== undefined) return this.first;
    let at = this.settledTo;
    while (at < this.order.pairs.length && settled(this.ownAt(at))) at++;
    this.first = at;
    return at;
  }

  /** Taken into account what comes before. */
  private at(i: number): StepView {
    const seen = this.placed[i];
    if (seen) return seen;
    const own = this.ownAt(i);
    let view = own;
    if (own.status !== 'not-needed') {
      const j = this.unsettledAhead(i);
      if (j !== undefined) {
        const because = this.waitsFor(this.at(j));
        const status = own.status === 'done' ? own.status : own.because === 'unsure' ? 'hidden' : 'later';
        view = { ...own, status, because };
      }
    }
    this.placed[i] = view;
    return view;
  }

  private waitsFor(before: StepView): string {
    const where = before.place === 'job' ? '' : ` (${this.values.placeLabel(before.place)})`;
    return before.status === 'waiting'
      ? `“${before.step.title}”${where} still takes ${leftWords(before.wait!)} (${before.wait!.label}).`
      : `“${before.step.title}”${where} comes first.`;
  }

  /** The group of steps that is begun and not to be interrupted. */
  private begun(): Board['group'] {
    if (this.grouped) return this.group;
    this.grouped = true;
    const begin = this.begin();
    for (const members of this.order.groups) {
      // All of them are done with, or nothing of them was ever recorded.
      if (
        members.every((i) => i < begin) ||
        !members.some((i) => this.values.ledger.steps.has(this.order.pairs[i]!.id))
      )
        continue;
      const views = members.map((i) => this.at(i)).filter((v) => v.status !== 'not-needed');
      const open = views.find((v) => v.status !== 'done');
      // While none of them can be worked on, something else has to come first and must stay possible.
      if (open && views.some((v) => v.status === 'done') && views.some(workable)) {
        this.group = { name: open.step.together ?? '', open };
        break;
      }
    }
    return this.group;
  }

  /** True where a step of the group waits for it: it was opened again since, and nothing goes on before it. */
  private comesFirst(i: number, group: string): boolean {
    return this.order.pairs.some(
      ({ step, ahead }, j) => step.together === group && ahead.includes(i) && !settled(this.ownAt(j)),
    );
  }

  private final(i: number): StepView {
    const v = this.at(i);
    if (v.status !== 'open' && v.status !== 'stopped') return v;
    const begun = this.begun();
    if (!begun || v.step.together === begun.name || v.step.branch || this.comesFirst(i, begun.name)) return v;
    const because = `“${begun.open.step.title}” must be finished first: it is not to be interrupted.`;
    return { ...v, status: 'later', because };
  }

  /** Every step at every place, in order. */
  views(): readonly StepView[] {
    this.all ??= this.order.pairs.map((_, i) => this.final(i));
    return this.all;
  }

  /** The first step that can be worked on now at a place that is wanted. */
  workable(wanted: (place: string) => boolean): StepView | undefined {
    // All before `begin` are settled.
    for (let i = this.begin(); i < this.order.pairs.length; i++) {
      const view = wanted(this.order.pairs[i]!.place) ? this.final(i) : undefined;
      if (view && workable(view)) return view;
    }
    return undefined;
  }

  /** Every step that a gate stops now, in order. Of what lies behind the work nothing is worked out. */
  stopped(): StepView[] {
    // All before `begin` are settled.
    const begin = this.begin();
    return gatedBeside(this.order, begin)
      .filter((i) => this.unsettledAhead(i) === undefined && this.ownAt(i).status === 'stopped')
      .map((i) => this.final(i))
      .filter((v) => v.status === 'stopped');
  }

  view(stepId: string, place: string): StepView | undefined {
    const i = this.order.index.get(slot(stepId, place));
    if (i === undefined) return undefined;
    return this.all?.[i] ?? this.final(i);
  }
}
