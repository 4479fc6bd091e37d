/** The shipped procedures and a good job of each, to be changed into jobs that go wrong. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import type { LifeEvent } from '../../src/engine/journal/entry.js';
import { type ReplayOptions, type ReplayOutcome, replay, type Standing } from '../../src/engine/replay/replay.js';
import { type ReplayFile, type ReplayItem, replaySchema, type StepItem } from '../../src/engine/replay/replay-file.js';
import { earlierValues } from '../../src/engine/state/earlier.js';
import type { State } from '../../src/engine/state/state.js';
import { lifeOf } from '../../src/life/history.js';
import type { Model } from '../../src/procedure/model.js';
import { modelFor } from '../procedure/library.js';

const folder = new URL('../../procedures/', import.meta.url).pathname;
const read = (name: string): string => readFileSync(join(folder, name), 'utf8');

interface Good {
  readonly model: Model;
  readonly file: ReplayFile;
  readonly options?: ReplayOptions;
}
const goodOf = (path: string): ReplayFile => replaySchema.parse(parse(read(path)));

export const model = modelFor('regrease-in-place');
export const sealed: Good = { model, file: goodOf('practice/college-30kw.replay.yaml') };

/** A machine that was together, of a magnet rotor that began on the bench, is opened again: in this order. */
export const outAgain: readonly ReplayItem[] = [
  { step: 'part-leads', answers: { leads_apart: 'yes' } },
  { step: 'open-machine', answers: { rings_cool: 'yes' } },
  { step: 'hold-rotor' },
  { step: 'cover-magnets' },
];

/** Outcomes of the jobs that were run last, by the text of their items. */
const outcomes = new WeakMap<Good, Recent<ReplayOutcome>>();
/** Where jobs stood on their way, by the text of the items that were behind them: others begin alike. */
const standings = new WeakMap<Good, Recent<Standing>>();
const EACH = 3;

/** What was used last, so many of them. */
class Recent<T> {
  private readonly all = new Map<string, T>();
  constructor(private readonly most: number) {}
  has(key: string): boolean {
    return this.all.has(key);
  }
  get(key: string): T | undefined {
    const found = this.all.get(key);
    if (found !== undefined) this.set(key, found);
    return found;
  }
  set(key: string, value: T): void {
    this.all.delete(key);
    this.all.set(key, value);
    for (const old of this.all.keys()) {
      if (this.all.size <= this.most) break;
      this.all.delete(old);
    }
  }
}
function recent<T>(of: WeakMap<Good, Recent<T>>, good: Good, most: number): Recent<T> {
  const known = of.get(good) ?? new Recent<T>(most);
  of.set(good, known);
  return known;
}

/** For each number of items a text that no others have. */
function beginnings({ steps: items, ...head }: ReplayFile): readonly string[] {
  let so = JSON.stringify(head);
  return [
    so,
    ...items.map((item) => {
      so = createHash('sha1').update(so).update(JSON.stringify(item)).digest('base64');
      return so;
    }),
  ];
}

/** A copy of the good job that can be bent. */
export class Job {
  readonly items: ReplayItem[];

  constructor(private readonly good: Good = sealed) {
    this.items = structuredClone(good.file.steps);
  }

  get file(): ReplayFile {
    return { ...this.good.file, steps: this.items } as ReplayFile;
  }
  get model(): Model {
    return this.good.model;
  }
  private at(step: string, place = 'job'): number {
    const i = this.items.findIndex((x) => 'step' in x && x.step === step && (x.at ?? 'job') === place);
    if (i < 0) throw new Error(`the good job has no ${step} at ${place}`);
    return i;
  }
  step(step: string, place?: string): StepItem {
    return this.items[this.at(step, place)] as StepItem;
  }
  /** Copies of steps of the good job, to be done again. */
  again(...steps: (readonly [string, string?])[]): ReplayItem[] {
    return steps.map(([step, place]) => structuredClone(this.step(step, place)));
  }
  answer(step: string, place: string, answers: StepItem['answers']): this {
    const s = this.step(step, place);
    s.answers = { ...s.answers, ...answers };
    // What a witness found of the good job is not what they find of another.
    delete s.own;
    return this;
  }
  before(step: string, place: string, ...items: ReplayItem[]): this {
    this.items.splice(this.at(step, place), 0, ...items);
    return this;
  }
  after(step: string, place: string, ...items: ReplayItem[]): this {
    this.items.splice(this.at(step, place) + 1, 0, ...items);
    return this;
  }
  /** Only what comes before that step. */
  upTo(step: string, place?: string): this {
    this.items.length = this.at(step, place);
    return this;
  }
  /** The rotor-side seal of a stays in; `left` is what that left inside. */
  backSealStays(left: StepItem['answers']): this {
    return this.drop((x) => x.at === 'a.back' && ['seal-log', 'seal-solvent', 'seal-clean'].includes(x.step))
      .before(
        'open-back',
        'a',
        { raise: 'back-seal-stays', at: 'a' },
        { step: 'back-stays-why', at: 'a', answers: { stays_why: 'no-access', ...left } },
      )
      .drop((x) => x.at === 'a' && x.step === 'open-back');
  }
  /** A seal is reported as damaged before it is logged; a new one is not washed. */
  torn(at: string, answers: { torn_where: string; repair: string }): this {
    return this.before('seal-log', at, { raise: 'seal-torn', at }, { step: 'torn-what', at, answers }).drop(
      (x) => x.at === at && answers.repair === 'replace' && ['seal-solvent', 'seal-clean'].includes(x.step),
    );
  }
  /** Bearing b has pits and is scrapped: what would follow is not done to it. */
  scrappedAtB(answers: StepItem['answers']): this {
    const gone = [
      ...['grease-fit', 'volume-known', 'share', 'dose', 'weigh-first', 'gap-fill', 'weigh-half', 'race-fill'],
      ...['dose-check', 'cause', 'put-away', 'refit-back', 'refit', 'seals-seated', 'defect-tones'],
    ];
    return this.answer('raceway-look', 'b', { inside_findings: ['pitting'] })
      .answer('second-verdict', 'b', { second_look: 'scrap' })
      .after('second-verdict', 'b', { step: 'scrapped', at: 'b', answers })
      .unraise('put-away', 'b')
      .drop((x) => (x.at ?? '').startsWith('b') && gone.includes(x.step));
  }
  drop(want: (x: StepItem) => boolean): this {
    for (let i = this.items.length - 1; i >= 0; i--) {
      const x = this.items[i];
      if (x && 'step' in x && want(x)) this.items.splice(i, 1);
    }
    return this;
  }
  /** Without an event of the good job. */
  unraise(branch: string, at: string): this {
    const i = this.items.findIndex((x) => 'raise' in x && x.raise === branch && x.at === at);
    if (i >= 0) this.items.splice(i, 1);
    return this;
  }
  /** The same items come out the same each time, and nobody changes a state. */
  run(): ReplayOutcome {
    const begun = beginnings(this.file);
    const known = recent(outcomes, this.good, 12);
    const outcome = known.get(begun.at(-1)!) ?? this.replay(begun);
    known.set(begun.at(-1)!, outcome);
    return outcome;
  }
  private replay(begun: readonly string[]): ReplayOutcome {
    return onward(this.good, this.file, begun);
  }
}

/** A file on the same procedure that begins as others did goes on from where they stood. */
export function onward(good: Good, file: ReplayFile, begun = beginnings(file)): ReplayOutcome {
  const known = recent(standings, good, 120);
  const from = begun.findLast((b) => known.has(b));
  return replay(good.model, file, {
    ...good.options,
    ...(from === undefined ? {} : { from: known.get(from) }),
    stands: (done, here) => {
      if (done % EACH === 0 && !known.has(begun[done]!)) known.set(begun[done]!, here());
    },
  });
}

/** The look at the bearings of the good job after their first hours. */
export function inspectionJob(): Job {
  inspection ??= inspectionGood();
  return new Job(inspection);
}
let inspection: Good | undefined;
function inspectionGood(): Good {
  const follower = modelFor('inspect-after-run');
  const read = earlierValues(follower.procedure, new Job().run().state);
  if (!read.ok) throw new Error(read.message);
  const file = goodOf('../tests/procedure/replays/inspect.replay.yaml');
  return { model: follower, file, options: { earlier: read.values } };
}

/** The good job once more, begun at another time, told of its rotor's life until then. */
export const regreased = (name: string, start: string, life: readonly LifeEvent[]): Job =>
  new Job({ ...sealed, file: { ...sealed.file, name, start }, options: { life } });

/** A look after any finished job of the rotor. */
export function lookAfter(before: State, name: string, start: string, job: string): Job {
  const follower = modelFor('inspect-after-run');
  const read = earlierValues(follower.procedure, before);
  if (!read.ok) throw new Error(read.message);
  const file = goodOf('../tests/procedure/replays/inspect.replay.yaml');
  const options = { earlier: read.values, life: lifeOf(before, job) };
  return new Job({ model: follower, file: { ...file, name, start, earlier: job }, options });
}

/** The sentence with which a job was refused. */
export function refused(outcome: ReplayOutcome): string {
  if (outcome.ok) throw new Error('it was not refused');
  return outcome.message;
}
/** Finished to the last step, or what stopped it. */
export function finished(outcome: ReplayOutcome): true | string {
  if (!outcome.ok) return outcome.message;
  return outcome.state.finished ? true : 'it ended before the last step';
}
