/**
 * What a new job on a known rotor takes over: answers that stay true from one job to the next, each from the latest
 * finished job that knows it. Nothing counts before somebody has confirmed it. Pure.
 */
import type { Draft, TakenFrom } from '../engine/journal/entry.js';
import { slot } from '../engine/journal/ledger.js';
import { entriesOf, type State } from '../engine/state/state.js';
import { showValue } from '../engine/values/texts.js';
import type { Model } from '../procedure/model.js';
import { unfit } from '../procedure/questions/index.js';
import type { Question, Step } from '../procedure/schema.js';

type Given = Omit<Extract<Draft, { kind: 'answer' }>, 'by'>;
type Named = Omit<Extract<Draft, { kind: 'name' }>, 'by'>;

/** What one step at one place takes over; several places where all of it is the same there. */
export interface Taken {
  readonly step: string;
  readonly title: string;
  /** Names of the places; empty for the job as a whole. */
  readonly where: string;
  /** `Cage: PA66 nylon`, one for each figure. */
  readonly says: readonly string[];
  readonly from: TakenFrom;
  readonly drafts: readonly (Given | Named)[];
}

export interface FinishedJob {
  readonly job: string;
  readonly state: State;
}

interface Found {
  readonly step: Step;
  readonly question: Question;
  readonly place: string;
  readonly draft: Given;
}

const sourceOf = ({ job, state }: FinishedJob): TakenFrom => ({
  job,
  name: state.ledger.job?.name ?? job,
  at: state.entries.at(-1)?.at ?? '',
});

/** Latest first by the end of the job. */
const byAge = (jobs: readonly FinishedJob[]): readonly FinishedJob[] =>
  [...jobs].sort((a, b) => (sourceOf(a).at < sourceOf(b).at ? 1 : -1));

/** One answer of a finished job, as an entry of the new one; undefined where it was not given or does not fit. */
function carried(model: Model, from: FinishedJob, key: string, place: string, there = key): Found | undefined {
  const info = model.keys.get(key);
  if (info?.from.by !== 'question' || info.from.part !== undefined || info.from.step.repeat) return undefined;
  const { step, question } = info.from;
  const v = from.state.values.get(there, place);
  if (!v.known || v.origin.from !== 'answer' || v.value === '') return undefined;
  if (typeof v.value === 'object' || unfit(question, v.value, model.tables) !== undefined) return undefined;
  const { typed, entry } = v.origin;
  const half = 'plusMinus' in entry ? entry.plusMinus : undefined;
  const draft: Given = {
    kind: 'answer',
    step: step.id,
    place,
    key,
    value: v.value,
    ...(typed === undefined ? {} : { typed }),
    ...(half === undefined ? {} : { plusMinus: half }),
    from: sourceOf(from),
  };
  return { step, question, place, draft };
}

/**
 * @param model of the job that begins
 * @param jobs finished jobs of its rotor, in any order
 * @returns in the order of the procedure; empty where there is nothing to take over
 */
export function takenOver(model: Model, jobs: readonly FinishedJob[]): readonly Taken[] {
  const found = new Map<string, Found>();
  const settled = new Set<string>();
  for (const from of byAge(jobs))
    for (const group of from.state.model.procedure.life?.keeps ?? [])
      for (const key of group.keys) {
        const { values } = from.state;
        for (const place of model.places.filter((p) => p.kind === model.keys.get(key)?.at)) {
          const name = slot(key, place.id);
          if (settled.has(name) || !from.state.model.place.has(place.id) || !values.takesPart(place.id)) continue;
          if (group.when !== undefined && values.holds(group.when, place.id) !== true) {
            // Something else is there since: what older jobs knew is of no use.
            settled.add(name);
            continue;
          }
          const one = carried(model, from, key, place.id, group.from);
          if (!one) continue;
          settled.add(name);
          found.set(name, one);
        }
      }
  return [...grouped(model, [...found.values()]), ...namesTaken(jobs)];
}

/** By step, in the order of the procedure; places at which all is the same stand together. */
function grouped(model: Model, found: readonly Found[]): Taken[] {
  return model.procedure.steps.flatMap((step) => {
    const own = found.filter((f) => f.step === step);
    const order = (f: Found): number => step.ask?.indexOf(f.question) ?? 0;
    const groups = new Map<string, { places: string[]; all: Found[] }>();
    for (const place of model.places.filter((p) => own.some((f) => f.place === p.id))) {
      const here = own.filter((f) => f.place === place.id).sort((a, b) => order(a) - order(b));
      const same = JSON.stringify(here.map((f) => [f.draft.key, f.draft.value, f.draft.from?.job]));
      const group = groups.get(same) ?? { places: [], all: [] };
      groups.set(same, { places: [...group.places, place.id], all: [...group.all, ...here] });
    }
    return [...groups.values()].flatMap(({ places, all }): Taken[] => {
      const first = all[0];
      if (!first?.draft.from) return [];
      const one = all.filter((f) => f.place === first.place);
      const says = one.map(({ question, draft }) => saidOf(model, question, draft));
      const where = places.map((p) => labelOf(model, found, p)).filter(Boolean);
      return [
        {
          step: step.id,
          title: step.title,
          where: where.join(', '),
          says,
          from: first.draft.from,
          drafts: all.map((f) => f.draft),
        },
      ];
    });
  });
}

/** A figure with its label; words that tell what they are by themselves without it. */
function saidOf(model: Model, question: Question, draft: Given): string {
  const label = plainLabel(question.label);
  const text = showValue(model, draft.key, draft.value, draft.plusMinus, 'as-read');
  const tells = typeof draft.value === 'string' && label.split(' ').length > 2;
  return tells ? text : `${label}: ${text}`;
}

const plainLabel = (label: string): string => label.replace(/\{[^}]*\}/g, '').trim();

/** `Drive end, front side`: with the name that the shop gave it, where that is taken over too. */
function labelOf(model: Model, found: readonly Found[], place: string): string {
  const names: string[] = [];
  for (let p = model.place.get(place); p && p.id !== 'job'; p = p.parent ? model.place.get(p.parent) : undefined) {
    const own = found.find((f) => f.draft.key === p?.labelFrom)?.draft.value;
    names.unshift(typeof own === 'string' ? own : p.label);
  }
  return names.join(' ');
}

/** For whom it is done and by which shop, as in the latest job that says so. */
function namesTaken(jobs: readonly FinishedJob[]): Taken[] {
  const titles = { customer: 'Done for', issuer: 'Done by the shop' } as const;
  return (['customer', 'issuer'] as const).flatMap((of): Taken[] => {
    for (const job of byAge(jobs)) {
      const e = entriesOf(job.state, 'name').findLast((x) => x.of === of);
      if (!e) continue;
      const draft: Named = { kind: 'name', of, name: e.name };
      return [{ step: '', title: titles[of], where: '', says: [e.name], from: sourceOf(job), drafts: [draft] }];
    }
    return [];
  });
}

/** What one finished job of the shop answered where a step asks for what lies on its shelf. */
export interface Shelved {
  readonly step: string;
  readonly from: TakenFrom;
  /** As it was typed there, by key. */
  readonly texts: Readonly<Record<string, string>>;
}

/**
 * What the shop has at hand, whichever rotor it was used on: the latest job first, each step of the whole job by itself.
 * @param model of the job that is worked on
 * @param jobs finished ones, in any order
 */
export function shelfOf(model: Model, jobs: readonly FinishedJob[]): readonly Shelved[] {
  return byAge(jobs).flatMap((from) =>
    model.procedure.steps.flatMap((step): Shelved[] => {
      const marked = (step.ask ?? []).filter((q) => q.shelf && step.at === 'job');
      const all = marked.flatMap((q) => carried(model, from, q.key, 'job') ?? []);
      const texts = all.map(({ draft }) => [draft.key, draft.typed ?? String(draft.value)]);
      return texts.length ? [{ step: step.id, from: sourceOf(from), texts: Object.fromEntries(texts) }] : [];
    }),
  );
}

/** The entries of what was confirmed, by whom; one key recorded them all. */
export const takeOverDrafts = (taken: readonly Taken[], by: string): Draft[] =>
  taken.flatMap((t) => t.drafts).map((d, i): Draft => (i === 0 ? { ...d, by } : { ...d, by, joined: true }));
