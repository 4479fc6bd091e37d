/** The desk: one open job, what is known of it now, and the one way to record something. */
import { type Action, type Proposal, propose } from '../engine/actions/propose.js';
import { related } from '../engine/journal/ledger.js';
import { ranAhead, ranBack } from '../engine/journal/ledger-shape.js';
import { withDrafts } from '../engine/state/impact.js';
import { State } from '../engine/state/state.js';
import type { StepView } from '../engine/steps/board.js';
import type { Earlier } from '../engine/values/values.js';
import { safetyKey } from '../keys/key.js';
import type { Shelved } from '../life/take-over.js';
import type { Model } from '../procedure/model.js';
import type { Step } from '../procedure/schema.js';
import type { App, JobBasis, OpenJob, PracticeReadout } from './app-contract.js';
import { emptyInput, type Input } from './ask/asker.js';
import type { Stack } from './page.js';
import { lessonPage } from './pages/lesson.js';
import { summaryOf } from './words/summary.js';
import { left } from './words/times.js';

/** What the desk shows now. */
export type Stage =
  | { readonly kind: 'step'; readonly view: StepView }
  /** Nothing more here for now; something at another place. */
  | { readonly kind: 'elsewhere'; readonly next: StepView; readonly waiting: readonly StepView[] }
  | { readonly kind: 'waiting'; readonly waiting: readonly StepView[] }
  | { readonly kind: 'finished' }
  /** Nothing can be worked on although not all is done. */
  | { readonly kind: 'stuck'; readonly views: readonly StepView[] };

export type Acted = 'done' | 'unusual' | 'refused';

/** Actions that go on with a step; after any other, what comes first may be another step. */
const within: ReadonlySet<Action['do']> = new Set([
  'caution',
  'answer',
  'predict',
  'done',
  'sign',
  'refuse',
  'overrule',
  'note',
  'picture',
  'name',
  'handover',
  'operator',
  'pace',
  'alike',
  'shelf',
]);

/** The outermost place below the job: a position. */
export const topOf = (place: string): string => place.split('.')[0] ?? place;

/** The clock is held against the time once in so many ms. */
const moment = 250;

export class Desk {
  /** Where one works: 'job' or a position. */
  place: string;
  /** A step that was chosen out of turn. */
  pinned: { readonly step: string; readonly place: string } | undefined;
  /** The step that stands on the screen: it stays there until it is done, also when a wait ends meanwhile. */
  private current: { readonly step: string; readonly place: string } | undefined;
  readonly inputs = new Map<string, Input>();
  /** What would be recorded although it is unusual, once confirmed. */
  unusual: { readonly where: string; readonly text: string; readonly says: string } | undefined;
  /** Where a value was typed that was not taken. */
  refused: string | undefined;
  /** What the last key went on from by itself (or the Enter behind it that was asked about), and at how many entries. */
  passed: { readonly from: 'figure' | 'pick' | 'asked'; readonly at: number } | undefined;
  /** In practice: how a reading is taken, by where it is typed. */
  readonly ways = new Map<string, string>();
  private readonly units = new Map<string, string>();
  /** Hold points at which initials were offered, and those at which a finding was asked for once. */
  readonly signing = new Set<string>();
  /** Where everything is typed and only the confirming key is wanted. */
  ready: string | undefined;
  /** Where an answer is given once more: key of its question. */
  again: { readonly where: string; readonly key: string } | undefined;
  /** Lessons that were told. */
  private readonly told: Set<string>;
  /** What the shop has at hand; undefined until it is asked for. */
  private onShelf: readonly Shelved[] | undefined;
  /** How far the clock was ahead of the time when it was last held against it. */
  private lead: number | undefined;
  private held: { readonly at: number; readonly gained: number } | undefined;
  private telling = false;
  private memo: { entries: readonly unknown[]; bucket: number; state: State } | undefined;

  constructor(
    readonly app: App,
    readonly job: OpenJob,
    readonly basis: JobBasis,
    readonly stack: Stack,
  ) {
    this.lead = app.lead?.();
    const last = job.entries.findLast((e) => 'place' in e && e.place !== 'job');
    this.place = last && 'place' in last ? topOf(last.place) : 'job';
    // What was done before the window was closed was told then.
    this.told = new Set(basis.harms?.(this.state).map((h) => h.id));
    this.kept = new Map(job.draftTexts().map((d) => [d.where, d.text]));
  }

  /** What the shop has at hand for a step of a real job, the latest first; it is read when the first such step comes up. */
  shelf(step: Step): readonly Shelved[] {
    if (!this.app.shelf || this.state.ledger.job?.practice || !step.ask?.some((q) => q.shelf)) return [];
    if (!this.onShelf) {
      this.onShelf = [];
      void this.app.shelf(this.model.procedure.procedure).then((read) => {
        this.onShelf = read;
        this.stack.changed();
      });
    }
    return this.onShelf.filter((s) => s.step === step.id);
  }

  /** What is typed and not confirmed, by where: it stays until its question is answered or its field emptied. */
  private readonly kept: Map<string, string>;

  get model(): Model {
    return this.basis.model;
  }

  get practice(): PracticeReadout | undefined {
    return this.basis.practice;
  }

  get earlier(): Earlier | undefined {
    return this.basis.earlier;
  }

  /** So many ms the clock went on by more than the time since it was last held against it. */
  private get gained(): number {
    if (!this.app.lead) return 0;
    const at = this.app.now();
    // Asking the system costs more than the rest of a look at the state; a clock that was set is another moment.
    if (!this.held || Math.abs(at - this.held.at) >= moment)
      this.held = { at, gained: this.app.lead() - (this.lead ?? 0) };
    return this.held.gained;
  }

  /**
   * Records where the clock ran otherwise than the time: it was set, or the guide was opened before its last entry. Until
   * that is kept no wait goes by what it gained.
   */
  async lookAtClock(): Promise<void> {
    const { gained, job } = this;
    const known = ranAhead(Math.abs(gained));
    const back = ranBack(this.app.now() - Date.parse(job.entries.at(-1)?.at ?? ''));
    if (job.readOnly || this.telling || !(known || back)) return;
    const by = known ? ` by ${left(Math.abs(gained))}` : '';
    const text =
      known && gained > 0
        ? `The clock of this computer was set forward${by}: waits go by the time that passed.`
        : `The clock of this computer was set back${by}: waits ${known ? 'go by the time that passed' : 'count anew from here'}.`;
    this.telling = true;
    const draft = { kind: 'note', place: 'job', text, clock: known ? { gained } : {}, by: this.by } as const;
    const outcome = await job.append([draft]);
    this.telling = false;
    if (!outcome.ok) return;
    this.lead = this.app.lead?.();
    this.held = undefined;
    this.stack.say(`${text} Is it right now?`);
  }

  get state(): State {
    const { gained } = this;
    const now = this.app.now() - (ranAhead(gained) ? gained : 0);
    const { entries } = this.job;
    const seen = this.memo;
    // A second is fine enough for what goes by the clock.
    const bucket = Math.floor(now / 1000);
    if (seen && seen.entries === entries && (seen.bucket === bucket || seen.state.holdsAt(now))) return seen.state;
    const state = new State(this.model, entries, now, { earlier: this.earlier, before: seen?.state });
    this.memo = { entries, bucket, state };
    return state;
  }

  get by(): string {
    return this.state.ledger.operator;
  }

  /** Positions that take part, the whole job left out. */
  get positions(): string[] {
    return this.model.places.filter((p) => p.parent === 'job' && this.state.values.takesPart(p.id)).map((p) => p.id);
  }

  /** What one position is called, such as `bearing`. */
  get positionName(): string {
    const kind = this.model.places.find((p) => p.parent === 'job')?.kind;
    return this.model.procedure.places.find((p) => p.id === kind)?.name.toLowerCase() ?? 'position';
  }

  stage(): Stage {
    const { state } = this;
    const open = state.available(this.place);
    if (this.pinned) {
      const own = open.find((v) => v.step.id === this.pinned?.step && v.place === this.pinned.place);
      if (own) return { kind: 'step', view: own };
      this.pinned = undefined;
    }
    const begun = open.find((v) => v.step.id === this.current?.step && v.place === this.current.place);
    const next = begun && related(begun.place, this.place) ? begun : open[0];
    this.current = undefined;
    if (next) {
      if (this.place === 'job' && next.place !== 'job') this.place = topOf(next.place);
      if (related(next.place, this.place)) {
        // Time passes under a hand that is about to press: no other question may slip in between.
        this.current = { step: next.step.id, place: next.place };
        return { kind: 'step', view: next };
      }
      return { kind: 'elsewhere', next, waiting: state.waiting };
    }
    if (state.waiting.length) return { kind: 'waiting', waiting: state.waiting };
    if (state.finished) return { kind: 'finished' };
    return { kind: 'stuck', views: state.views.filter((v) => v.status === 'later' || v.status === 'hidden') };
  }

  /** Lets what comes first by the procedure come up again. */
  leaveStep(): void {
    this.pinned = undefined;
    this.current = undefined;
  }

  readonly safetyKey = safetyKey;

  /**
   * The unit in which this question was answered last, at any place, in this job or in another. No other question
   * takes it over: a number that was typed in good faith would be read in a unit that nobody chose for it.
   */
  unitOf(key: string): string | undefined {
    return this.units.get(key) ?? this.app.units?.get(key);
  }

  noteUnit(key: string, unit: string | undefined): void {
    if (unit === undefined || this.unitOf(key) === unit) return;
    this.units.set(key, unit);
    this.app.units?.set(key, unit);
  }

  propose(action: Action): Proposal {
    return propose(this.state, action, this.by);
  }

  /** Records an action. What is unusual is recorded only with `sure`. */
  async act(action: Action, options: { sure?: boolean; by?: string } = {}): Promise<Acted> {
    if (this.job.readOnly) {
      this.stack.say(this.job.whyReadOnly ?? 'This job can only be looked at here.');
      return 'refused';
    }
    await this.lookAtClock();
    const proposal = propose(this.state, action, options.by ?? this.by);
    if (!proposal.ok) {
      this.stack.say(proposal.message);
      return 'refused';
    }
    if (proposal.unusual && !options.sure) return 'unusual';
    const before = this.state;
    const outcome = await this.job.append(
      proposal.drafts,
      summaryOf(withDrafts(before, proposal.drafts, { earlier: this.earlier }), this.place),
    );
    if (!outcome.ok) {
      this.stack.say(outcome.trouble.sentence);
      return 'refused';
    }
    if (!within.has(action.do)) this.current = undefined;
    for (const d of proposal.drafts) {
      const of = d.kind === 'undo' ? before.entries.find((e) => e.seq === d.of) : undefined;
      const back = of?.kind === 'undo' ? before.entries.find((e) => e.seq === of.of) : of;
      const where = back && 'place' in back ? back.place : 'place' in d ? d.place : undefined;
      if (where && where !== 'job') this.place = topOf(where);
    }
    if (within.has(action.do)) this.goOn(before);
    if (outcome.notice) this.stack.say(outcome.notice);
    this.tellLessons();
    return 'done';
  }

  /**
   * Whole-job work that is done leads to the first bearing in order, not to the one that was on before. In the brisk
   * pace one that has nothing more to do leads to the next; the page says where one is now.
   */
  private goOn(before: State): void {
    const { state } = this;
    const done = state.entries.at(-1);
    const at = done && 'step' in done ? done : undefined;
    const open = state.available(this.place);
    const next = open[0];
    if (!at || !next) return;
    const [first] = state.available();
    if (next.place === 'job') {
      // Work of the whole job that need not wait comes behind what is earlier at another bearing.
      if (first && first.place !== 'job' && this.pinned === undefined) this.place = topOf(first.place);
      return;
    }
    const finished = (s: State): boolean => s.view(at.step, at.place)?.status === 'done';
    if (at.place === 'job' && finished(state) && !finished(before)) {
      if (first && first.place !== 'job' && this.pinned === undefined) this.place = topOf(first.place);
    } else if (state.ledger.pace === 'brisk' && !related(next.place, this.place)) this.place = topOf(next.place);
  }

  /** In practice, by choice of the mentor: what harm was done is told at once, each once. */
  private tellLessons(): void {
    for (const { id, lines } of this.basis.harms?.(this.state) ?? []) {
      if (this.told.has(id)) continue;
      this.told.add(id);
      this.stack.push(lessonPage(this.stack, lines));
    }
  }

  /** True where something was typed, here or before the window was closed. */
  holds(where: string): boolean {
    return this.inputs.has(where) || this.kept.has(where);
  }

  /** What has been typed for one question; begun from what a closed window left behind. */
  inputFor(where: string, restore: (kept: string) => Input): Input {
    const own = this.inputs.get(where);
    if (own) return own;
    const kept = this.kept.get(where);
    const fresh = kept === undefined ? emptyInput : restore(kept);
    this.inputs.set(where, fresh);
    return fresh;
  }

  /** Keeps it as a draft too, so that a closed window loses nothing. */
  setInput(where: string, input: Input, keep: string | undefined): void {
    this.inputs.set(where, input);
    this.keep(where, keep);
  }

  dropInput(where: string): void {
    this.inputs.delete(where);
    this.keep(where, undefined);
  }

  private keep(where: string, text: string | undefined): void {
    if (this.kept.get(where) === text) return;
    this.kept.delete(where);
    if (text !== undefined) this.kept.set(where, text);
    if (!this.job.readOnly) this.job.setDraftTexts([...this.kept].map(([at, typed]) => ({ where: at, text: typed })));
  }
}

export const isBrisk = (desk: Desk): boolean => desk.state.ledger.pace === 'brisk';
