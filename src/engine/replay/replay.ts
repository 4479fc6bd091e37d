/**
 * A whole job from a replay file, by the same engine as the screens: each reading is proposed,
 * and what the screens would refuse is refused here with the step and the reason.
 */
import type { Model } from '../../procedure/model.js';
import { parseQuantity } from '../../units/parse.js';
import { type Action, gateSentence, notNow, propose } from '../actions/propose.js';
import { type Draft, type Entry, type LifeEvent, stamped } from '../journal/entry.js';
import { initialsSentence, sameInitials, tidyInitials } from '../journal/initials.js';
import type { Ledger } from '../journal/ledger-shape.js';
import { State, type StateOptions } from '../state/state.js';
import type { StepView } from '../steps/board.js';
import { fillIn } from '../values/texts.js';
import type { ReplayFile, ReplayItem, StepItem } from './replay-file.js';

export type ReplayOutcome =
  | { readonly ok: true; readonly state: State; readonly warnings: readonly string[] }
  | { readonly ok: false; readonly state: State; readonly item: number; readonly message: string };

class Refused extends Error {}
const SECOND = 1000;
/** From here on a year has more than four figures, which no entry can hold. */
const LAST = Date.parse('9998-12-31T00:00:00Z');

/** What is wrong with the head of a replay file beside its form: the key, and one sentence with the cure. */
export function headTrouble(
  file: ReplayFile,
): { readonly key: 'by' | 'apprentice' | 'mentor' | 'start'; readonly message: string } | undefined {
  for (const key of ['by', 'apprentice', 'mentor'] as const)
    if (file[key] !== undefined && tidyInitials(file[key]) === undefined) return { key, message: initialsSentence };
  const { by, apprentice, mentor, start } = file;
  if (mentor !== undefined && sameInitials(mentor, apprentice ?? by))
    return { key: 'mentor', message: 'The mentor is another person than the one who does the work; name that person.' };
  if (start === undefined) return undefined;
  const at = Date.parse(start);
  if (Number.isNaN(at)) return { key: 'start', message: 'This is no instant; write one such as 2026-03-02T08:00:00Z.' };
  if (at < 0 || at > LAST)
    return { key: 'start', message: 'Only the years 1970 to 9998 can be reckoned with; write 2026-03-02T08:00:00Z.' };
  return undefined;
}
/** Of one step: more than the longest log has. */
const MOST_ENTRIES = 100_000;

/** Where a job stands between two items of its file. */
export interface Standing {
  /** Items that are behind it. */
  readonly done: number;
  readonly state: State;
  readonly warnings: readonly string[];
}

/** What a job is told when it begins, and what its state stands on. */
export interface ReplayOptions extends StateOptions {
  /** Finished jobs of its rotor until then. */
  readonly life?: readonly LifeEvent[];
  /** Told before each item. From what it asks for every job goes on that has the same head, options and items until there. */
  readonly stands?: (done: number, here: () => Standing) => void;
  readonly from?: Standing;
}

/** @param each told the state after each entry, as it stood at that instant */
export function replay(
  model: Model,
  file: ReplayFile,
  options: ReplayOptions = {},
  each?: (then: State) => void,
): ReplayOutcome {
  const trouble = headTrouble(file);
  if (trouble)
    return { ok: false, state: new State(model, [], 0), item: 0, message: `${trouble.key}: ${trouble.message}` };
  const run = new Run(model, file, options, each);
  let item = 0;
  try {
    for (item = options.from?.done ?? 0; item < file.steps.length; item++) {
      options.stands?.(item, () => run.stand(item));
      run.item(file.steps[item]!);
    }
    return { ok: true, state: run.state, warnings: run.warnings };
  } catch (e) {
    if (e instanceof Refused) return { ok: false, state: run.state, item, message: e.message };
    throw e;
  }
}

class Run {
  private entries: readonly Entry[] = [];
  private now: number;
  private by: string;
  private cached: State | undefined;
  private before: State | undefined;
  /** The ledger from which others go on: it is copied, not handed over. Where only time goes by, states have one together. */
  private kept: Ledger | undefined;
  readonly warnings: string[] = [];

  constructor(
    private readonly model: Model,
    file: ReplayFile,
    private readonly options: ReplayOptions,
    private readonly each: ((then: State) => void) | undefined,
  ) {
    if (options.from) {
      const { state } = options.from;
      this.before = this.cached = state;
      this.kept = state.ledger;
      ({ entries: this.entries, now: this.now } = state);
      this.by = state.ledger.operator;
      this.warnings.push(...options.from.warnings);
      return;
    }
    this.now = file.start ? Date.parse(file.start) : 0;
    const named = (text: string | undefined) => (text === undefined ? undefined : tidyInitials(text));
    this.by = named(file.by) ?? '';
    const practice = file.practice ?? (file.invented ? 'invented readings' : undefined);
    const [apprentice, mentor] = [named(file.apprentice), named(file.mentor)];
    this.append([
      {
        kind: 'job',
        name: file.name,
        procedure: model.procedure.procedure,
        version: model.procedure.version,
        hash: model.hash,
        practice,
        apprentice,
        mentor,
        earlier: file.earlier,
        ...(options.earlier ? { earlierValues: Object.fromEntries(options.earlier) } : {}),
        ...(options.life?.length ? { life: options.life } : {}),
        by: this.by,
      },
    ]);
    if (file.pace && file.pace !== 'learning') this.act({ do: 'pace', pace: file.pace });
  }

  get state(): State {
    if (!this.cached) {
      const { trial, earlier } = this.options;
      this.cached = new State(this.model, this.entries, this.now, {
        ...{ trial, earlier, before: this.before },
        ...(this.kept && this.before?.ledger === this.kept ? {} : { spent: true }),
      });
      this.before = this.cached;
    }
    return this.cached;
  }

  stand(done: number): Standing {
    this.kept = this.state.ledger;
    return { done, state: this.state, warnings: [...this.warnings] };
  }

  private append(drafts: readonly Draft[]): void {
    for (const d of drafts) {
      this.now += SECOND;
      // Two lists are joined in one go, a list and an item one by one.
      this.entries = this.entries.concat([stamped(d, this.entries.length + 1, new Date(this.now).toISOString())]);
      this.cached = undefined;
      this.each?.(this.state);
    }
  }

  private pass(after: unknown): void {
    if (after === undefined) return;
    const read = parseQuantity(String(after), 'duration', 'min');
    if (!read.ok || read.value < 0)
      throw new Refused(`after: ${read.ok ? 'time does not run backwards' : read.message}`);
    if (this.now + read.value * 60_000 > LAST)
      throw new Refused(`after: ${String(after).slice(0, 40)} is too long to wait; write a time such as 20 min.`);
    this.now += read.value * 60_000;
    this.cached = undefined;
  }

  private act(action: Action): void {
    const p = propose(this.state, action, this.by);
    if (!p.ok) throw new Refused(p.message);
    if (p.unusual && !this.warnings.includes(p.unusual)) this.warnings.push(p.unusual);
    this.append(p.drafts);
  }

  item(x: ReplayItem): void {
    if ('after' in x) this.pass(x.after);
    if ('raise' in x) this.act({ do: 'raise', branch: x.raise, place: x.at, text: x.text });
    else if ('correct' in x) {
      const c = x.correct;
      this.act({
        do: 'correct',
        step: c.step,
        place: c.at ?? 'job',
        key: c.key,
        text: c.value,
        way: c.way,
        reason: c.reason,
      });
    } else if ('settle' in x)
      this.act({ do: 'settle', step: x.settle.step, place: x.settle.at ?? 'job', reason: x.settle.reason });
    else if ('note' in x) this.act({ do: 'note', place: x.at ?? 'job', text: x.note });
    else if ('handover' in x) this.act({ do: 'handover', text: x.handover });
    else this.step(x);
  }

  private step(item: StepItem): void {
    if (item.by !== undefined && tidyInitials(item.by) !== this.by) {
      this.act({ do: 'operator', initials: item.by });
      this.by = this.state.ledger.operator;
    }
    const at = { step: item.step, place: item.at ?? 'job' };
    const overrules =
      item.overrule === undefined ? [] : Array.isArray(item.overrule) ? [...item.overrule] : [item.overrule];
    const wait = overrules.find((o) => o.gate === 'wait');
    if (wait) {
      this.act({ do: 'overrule', ...at, ...wait });
      return;
    }
    const left = new Map(Object.entries(item.answers ?? {}));
    const predictions = new Map(Object.entries(item.predict ?? {}));
    const rows = (item.rows ?? []).map((r) => new Map(Object.entries(r)));
    const step = this.model.steps.get(item.step);
    if (!step || !this.state.view(item.step, at.place)) {
      // Refused, with the reason.
      this.act({ do: 'done', ...at });
      return;
    }
    if (rows.length && !step.repeat) throw new Refused(`“${item.step}” is no log; write answers instead of rows.`);

    if (item.as !== undefined) this.act({ do: 'alike', ...at, as: item.as });
    for (let guard = 0; guard < MOST_ENTRIES; guard++) {
      const view = this.state.view(item.step, at.place);
      if (!view) break;
      if (view.status === 'done' || view.status === 'waiting') {
        if (guard === 0) throw new Refused(notNow(this.state, view));
        break;
      }
      if (['later', 'hidden', 'not-needed'].includes(view.status)) throw new Refused(notNow(this.state, view));
      if (!this.advance(view, item, left, predictions, rows, overrules)) break;
    }
    for (const [key, value] of left) {
      const q = step.ask?.find((a) => a.key === key);
      if (q?.when && this.state.values.holds(q.when, at.place) === false)
        throw new Refused(`“${q.label}” does not apply here as the answers stand; leave ${key} out.`);
      this.act({ do: 'answer', ...at, key, text: value });
    }
    if (rows.some((r) => r.size > 0))
      throw new Refused(`“${item.step}” was finished before its last row; take the rows after it out.`);
    const unused = overrules[0];
    if (unused) throw new Refused(`No gate “${unused.gate}” was holding “${item.step}”; take the overrule out.`);
    if ((item.sign || item.refuse) && !step.hold)
      throw new Refused(`“${item.step}” is no hold point; take “sign:” out.`);
    const guess = [...predictions.keys()].find((k) => !step.predict?.includes(k));
    if (guess) throw new Refused(`Nothing is to be predicted for “${guess.slice(0, 60)}” in “${item.step}”.`);
  }

  /** One thing that the step wants; false when nothing more is wanted. */
  private advance(
    view: StepView,
    item: StepItem,
    left: Map<string, unknown>,
    predictions: Map<string, unknown>,
    rows: Map<string, unknown>[],
    overrules: { gate: string; reason: string; initials: string }[],
  ): boolean {
    const at = { step: view.step.id, place: view.place };
    switch (view.wants) {
      case 'gate': {
        // A log may end in the middle: what follows in the file deals with the gate.
        if (view.step.repeat && item.rows && rows.length === 0) return false;
        const again = [...left.keys()].find((k) => view.step.ask?.some((q) => q.key === k));
        if (again !== undefined && view.gates.some((g) => g.gate.at === 'leave')) {
          this.act({ do: 'answer', ...at, key: again, text: left.get(again), way: item.ways?.[again] });
          left.delete(again);
          return true;
        }
        if (view.gates.some((g) => g.gate.id === item.held)) return false;
        const o = overrules.find(({ gate }) => view.gates.some((g) => g.gate.id === gate));
        if (!o) throw new Refused(`“${view.step.title}”: ${gateSentence(this.state, view)}`);
        overrules.splice(overrules.indexOf(o), 1);
        this.act({ do: 'overrule', ...at, ...o });
        return true;
      }
      case 'caution':
        this.act({ do: 'caution', ...at, wide: true });
        return true;
      case 'predict': {
        const key = view.step.predict?.find((k) => !view.ledger?.predictions.some((p) => p.key === k)) ?? '';
        this.act({ do: 'predict', ...at, key, text: predictions.get(key) ?? 'none given' });
        return true;
      }
      case 'question':
        return this.question(view, item, left, rows, at);
      case 'confirm':
        this.act({ do: 'done', ...at });
        return true;
      default: // To be signed: a step that wants nothing is done or waits.
        if (item.refuse) {
          this.act({ do: 'refuse', ...at, ...item.refuse });
          return false;
        }
        if (!item.sign) throw new Refused(`“${view.step.title}” is a hold point; add “sign:” with initials.`);
        this.pass(item.sign_after);
        this.act({ do: 'sign', ...at, initials: item.sign, own: item.own });
        return true;
    }
  }

  private question(
    view: StepView,
    item: StepItem,
    left: Map<string, unknown>,
    rows: Map<string, unknown>[],
    at: { step: string; place: string },
  ): boolean {
    const q = view.question!;
    if (view.step.repeat && item.rows && rows.length === 0) return false;
    const [row] = rows;
    if (view.step.repeat && row) {
      if (row.has('after')) {
        this.pass(row.get('after'));
        row.delete('after');
      }
      // What is filled in is said first where the file says it.
      const brisk = this.state.ledger.pace === 'brisk';
      const said = (brisk && view.step.ask?.find((a) => a.filled && row.has(a.key))?.key) || q.key;
      if (row.has(said)) {
        this.act({ do: 'answer', ...at, key: said, text: row.get(said) });
        row.delete(said);
        if (row.size === 0) rows.shift();
        return true;
      }
      // Refused as unknown, or as not asked here.
      const key = [...row.keys()].find((k) => {
        const asked = view.step.ask?.find((a) => a.key === k);
        return !asked || (asked.when && this.state.values.holds(asked.when, view.place) === false);
      });
      if (key !== undefined) this.act({ do: 'answer', ...at, key, text: row.get(key) });
    } else if (left.has(q.key)) {
      this.act({ do: 'answer', ...at, key: q.key, text: left.get(q.key), way: item.ways?.[q.key] });
      left.delete(q.key);
      return true;
    }
    const stray = [...left.keys()].find((k) => !view.step.ask?.some((a) => a.key === k));
    if (stray) this.act({ do: 'answer', ...at, key: stray, text: left.get(stray) });
    if (view.status === 'reopened') return false;
    if (q.optional && !view.step.repeat) {
      this.act({ do: 'answer', ...at, key: q.key, text: '' });
      return true;
    }
    const where = view.place === 'job' ? '' : ` at ${this.state.values.placeLabel(view.place)}`;
    const label = fillIn(this.state.values, q.label, view.place);
    throw new Refused(`“${view.step.title}”${where} needs an answer for ${q.key} (${label}).`);
  }
}
