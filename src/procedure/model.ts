/** A checked procedure with its tables and calculators, indexed for the engine. */
import type { Environment } from '@marcbachmann/cel-js';
import type { Calculator, Tables } from '../calc/types.js';
import { canonicalUnit, type QuantityKind } from '../units/kinds.js';
import { type CelType, compile, type Evaluation, type Expression, environmentFor, evaluationOf } from './expression.js';
import { kindOf, partsOf, type Question, quantityOf } from './questions/index.js';
import { raisesOf } from './raises.js';
import type { CalcUse, Fact, Procedure, Step } from './schema.js';
import type { Trees } from './tree.js';

/** One real place of the job: 'job', a position 'a', a seal 'a.front'. */
export interface Place {
  readonly id: string;
  readonly kind: string;
  readonly parent: string | undefined;
  readonly label: string;
  readonly labelFrom: string | undefined;
  readonly when: string | undefined;
}

export interface KeyInfo {
  readonly key: string;
  /** Kind of place that it belongs to. */
  readonly at: string;
  readonly type: CelType;
  readonly label: string;
  readonly quantity: QuantityKind | undefined;
  readonly unit: string;
  /** Key of a list of words that names the items of this list, in order. */
  readonly names?: string;
  /** All words that it can be, where a calculator says so. */
  readonly words?: readonly string[];
  readonly from:
    | { readonly by: 'question'; readonly step: Step; readonly question: Question; readonly part?: number }
    | { readonly by: 'rows'; readonly step: Step; readonly question: Question; readonly what: 'all' }
    | { readonly by: 'rows'; readonly step: Step; readonly question?: undefined; readonly what: 'count' | 'elapsed' }
    | {
        readonly by: 'event';
        readonly branch: string;
        /** Log whose rows until then are counted, instead of whether it was raised. */
        readonly log?: string;
        /** How often it was raised. */
        readonly times?: true;
        /** Branch after whose last raising it was raised. */
        readonly since?: string;
      }
    | {
        readonly by: 'event';
        /** Step of which something was recorded that an event took back. */
        readonly again: string;
        readonly log?: undefined;
        readonly times?: undefined;
        readonly since?: undefined;
      }
    | { readonly by: 'place'; readonly labels?: Readonly<Record<string, string>> }
    | { readonly by: 'fact'; readonly fact: Fact }
    | { readonly by: 'calc'; readonly use: CalcUse; readonly result: string }
    | { readonly by: 'earlier'; readonly key: string; readonly otherwise?: string | number | boolean };
}

export interface Model {
  readonly procedure: Procedure;
  readonly hash: string;
  /** It comes from a shop's own folder, not with the program. */
  readonly shop: boolean;
  readonly tables: Tables;
  readonly calculators: Readonly<Record<string, Calculator>>;
  readonly places: readonly Place[];
  readonly place: ReadonlyMap<string, Place>;
  readonly keys: ReadonlyMap<string, KeyInfo>;
  readonly steps: ReadonlyMap<string, Step>;
  /** Where a step stands among all, from 0. */
  readonly order: ReadonlyMap<string, number>;
  readonly environment: Environment;
  /** Compiled on first use. */
  readonly expression: (text: string) => Expression;
}

/** Figures, and sizes as they are printed: what was typed says more than the value. Of what is picked it would be noise. */
export const keepsTyped = (info: KeyInfo | undefined): boolean => {
  const asked = info?.from.by === 'question' ? info.from.question : undefined;
  return info?.quantity !== undefined || (asked?.kind === 'choice-from-table' && asked.suffixes !== undefined);
};

export const underscored = (id: string): string => id.replaceAll('-', '_');

/** All places, outermost first. */
export function placesOf(procedure: Procedure): Place[] {
  const out: Place[] = [
    { id: 'job', kind: 'job', parent: undefined, label: 'whole job', labelFrom: undefined, when: undefined },
  ];
  for (const kind of procedure.places) {
    const parents = out.filter((p) => p.kind === (kind.within ?? 'job'));
    for (const parent of parents)
      for (const i of kind.instances)
        out.push({
          id: parent.id === 'job' ? i.id : `${parent.id}.${i.id}`,
          kind: kind.id,
          parent: parent.id,
          label: i.label,
          labelFrom: i.label_from,
          when: i.when,
        });
  }
  return out;
}

function questionKeys(step: Step, q: Question): KeyInfo[] {
  const quantity = quantityOf(q);
  const { type, partType = 'double', partWords } = kindOf(q);
  const base = { at: step.at, quantity, unit: quantity ? canonicalUnit[quantity] : '' };
  const out: KeyInfo[] = [{ ...base, key: q.key, type, label: q.label, from: { by: 'question', step, question: q } }];
  partsOf(q).forEach((key, part) => {
    out.push({
      ...base,
      key,
      type: partType,
      label: `${q.label}: ${key}`,
      ...(partWords ? { words: partWords(q) } : {}),
      from: { by: 'question', step, question: q, part },
    });
  });
  if (step.repeat)
    out.push({
      ...base,
      key: `all_${q.key}`,
      type: `list<${type}>` as CelType,
      label: q.label,
      from: { by: 'rows', step, question: q, what: 'all' },
    });
  return out;
}

/** Adds to steps that are to be done again those that each of them brings along; `counts` says which of them were done. */
export function withReopened(
  procedure: Procedure,
  ids: Iterable<string>,
  counts: (step: string) => boolean = () => true,
): Set<string> {
  const all = new Set(ids);
  for (const id of all)
    if (counts(id)) for (const more of procedure.steps.find((s) => s.id === id)?.reopens ?? []) all.add(more);
  return all;
}

/** What makes safe among these: it comes first again, even where it was not needed at the start. */
export const safeAmong = (procedure: Procedure, ids: ReadonlySet<string>): Step[] =>
  procedure.steps.filter((s) => s.makes_safe && ids.has(s.id));

/** Steps of which an event can take back what was recorded: those that a branch reopens, and its own. */
export function reopened(procedure: Procedure): Step[] {
  const ids = withReopened(
    procedure,
    (procedure.branches ?? []).flatMap((b) => b.reopens ?? []),
  );
  return procedure.steps.filter((s) => s.branch !== undefined || ids.has(s.id));
}

/** Of each branch that a stop of another one's steps offers: whether it was raised since that one. */
export function sinceOf({ steps, branches = [] }: Pick<Procedure, 'steps' | 'branches'>) {
  return branches.flatMap((since) => {
    const offered = steps.filter((s) => s.branch === since.id).flatMap((s) => (s.gates ?? []).flatMap(raisesOf));
    return branches
      .filter((b) => offered.includes(b.id))
      .map((branch) => ({
        key: `${underscored(branch.id)}_since_${underscored(since.id)}`,
        at: branch.at === 'job' ? since.at : branch.at,
        branch,
        since,
      }));
  });
}

/** Every name that expressions may use, in file order; duplicates are reported by the check. */
export function keysOf(procedure: Procedure, calculators: Model['calculators']): KeyInfo[] {
  const out: KeyInfo[] = [];
  for (const step of procedure.steps) {
    for (const q of step.ask ?? []) out.push(...questionKeys(step, q));
    if (step.repeat) {
      const base = { at: step.at, quantity: undefined, unit: '' };
      const id = underscored(step.id);
      out.push(
        {
          ...base,
          key: `rows_${id}`,
          type: 'double',
          label: `rows of ${step.title}`,
          from: { by: 'rows', step, what: 'count' },
        },
        {
          ...base,
          key: `elapsed_${id}`,
          type: 'list<double>',
          label: 'minutes since the first row',
          quantity: 'duration',
          unit: 'min',
          from: { by: 'rows', step, what: 'elapsed' },
        },
      );
    }
  }
  for (const b of procedure.branches ?? []) {
    const base = { at: b.at, quantity: undefined, unit: '' };
    const from = { by: 'event' as const, branch: b.id };
    const id = underscored(b.id);
    out.push({ ...base, key: `event_${id}`, type: 'bool', label: b.title, from });
    out.push({
      ...base,
      key: `times_${id}`,
      type: 'double',
      label: `how often “${b.title}” was reported`,
      from: { ...from, times: true },
    });
    for (const s of procedure.steps)
      if (s.repeat && s.at === b.at)
        out.push({
          ...base,
          key: `rows_${underscored(s.id)}_at_${id}`,
          type: 'double',
          label: `rows of ${s.title} when “${b.title}” was raised last`,
          from: { ...from, log: s.id },
        });
  }
  for (const { key, at, branch, since } of sinceOf(procedure))
    out.push({
      ...{ key, at, type: 'bool', label: `“${branch.title}” was reported since “${since.title}”` },
      ...{ quantity: undefined, unit: '' },
      from: { by: 'event', branch: branch.id, since: since.id },
    });
  for (const s of reopened(procedure))
    out.push({
      key: `again_${underscored(s.id)}`,
      at: s.at,
      type: 'bool',
      label: `${s.title}: begun before, and counts no longer`,
      quantity: undefined,
      unit: '',
      from: { by: 'event', again: s.id },
    });
  for (const kind of procedure.places)
    out.push({
      key: `which_${underscored(kind.id)}`,
      at: kind.id,
      type: 'string',
      label: `which ${kind.name.toLowerCase()}`,
      quantity: undefined,
      unit: '',
      words: kind.instances.map((i) => i.id),
      from: { by: 'place', labels: Object.fromEntries(kind.instances.map((i) => [i.id, i.label])) },
    });
  out.push({
    key: 'which_job',
    at: 'job',
    type: 'string',
    label: 'name of the job',
    quantity: undefined,
    unit: '',
    from: { by: 'place' },
  });
  for (const [key, read] of Object.entries(procedure.follows?.reads ?? {}))
    out.push({
      key,
      at: read.at,
      type: read.type,
      label: read.label,
      quantity: read.quantity,
      unit: read.quantity ? canonicalUnit[read.quantity] : '',
      from: { by: 'earlier', key: read.key ?? key, otherwise: read.otherwise },
    });
  for (const fact of procedure.facts ?? []) {
    const quantity = fact.quantity;
    out.push({
      key: fact.key,
      at: fact.at,
      type: fact.type ?? factType(fact),
      label: fact.label,
      quantity,
      unit: quantity ? canonicalUnit[quantity] : '',
      from: { by: 'fact', fact },
    });
  }
  for (const use of procedure.calcs ?? [])
    for (const [result, key] of Object.entries(use.gives)) {
      const calculator = Object.hasOwn(calculators, use.calc) ? calculators[use.calc] : undefined;
      const spec = calculator && Object.hasOwn(calculator.results, result) ? calculator.results[result] : undefined;
      const one = spec?.kind ? 'double' : spec?.flag ? 'bool' : 'string';
      out.push({
        key,
        at: use.at,
        type: spec?.list ? (`list<${one}>` as const) : one,
        label: spec?.label ?? key,
        quantity: spec?.kind,
        unit: spec?.unit ?? '',
        words: spec?.words,
        names: use.names?.[result],
        from: { by: 'calc', use, result },
      });
    }
  return out;
}

function factType(fact: Fact): CelType {
  if ('over' in fact) return fact.count ? 'double' : fact.list ? 'list<string>' : 'bool';
  return fact.quantity ? 'double' : 'string';
}

/** @param trees of expressions, by their text, where they were kept */
export function modelOf(
  procedure: Procedure,
  hash: string,
  tables: Tables,
  calculators: Model['calculators'],
  shop = false,
  trees: Trees = {},
): Model {
  const places = placesOf(procedure);
  const keys = new Map<string, KeyInfo>();
  for (const k of keysOf(procedure, calculators)) if (!keys.has(k.key)) keys.set(k.key, k);
  let environment: Environment | undefined;
  const env = () => (environment ??= environmentFor(new Map([...keys].map(([n, k]) => [n, k.type])), tables));
  let evaluation: Evaluation | undefined;
  const compiled = new Map<string, Expression>();
  return {
    procedure,
    hash,
    shop,
    tables,
    calculators,
    places,
    place: new Map(places.map((p) => [p.id, p])),
    keys,
    steps: new Map(procedure.steps.map((s) => [s.id, s])),
    order: new Map(procedure.steps.map((s, i) => [s.id, i])),
    get environment() {
      return env();
    },
    expression: (text) => {
      let e = compiled.get(text);
      if (!e) {
        evaluation ??= evaluationOf((name) => keys.get(name)?.type, tables);
        e = compile(env, text, evaluation, Object.hasOwn(trees, text) ? trees[text] : undefined);
        compiled.set(text, e);
      }
      return e;
    },
  };
}
