/** Two versions of a procedure laid side by side, as text. */
import type { Calculator } from '../calc/types.js';
import { partAlone } from '../procedure/check-part.js';
import { type KeyInfo, keysOf } from '../procedure/model.js';
import type { UsedPart } from '../procedure/parts.js';
import type { Part, Procedure } from '../procedure/schema.js';
import { changedFigureKeys } from './changed-figures.js';
import { changedSteps } from './changed-steps.js';
import { labels } from './question-words.js';

/** A procedure with the parts that it names. */
export interface Reviewed {
  readonly procedure: Procedure;
  readonly parts?: readonly UsedPart[];
}
type Calculators = Readonly<Record<string, Calculator>>;

/** Empty when nothing differs. `all`: procedures that are asked which parts they use. */
export function difference(a: Reviewed, b: Reviewed, calculators: Calculators, all: readonly Reviewed[] = []): string {
  const [before, after] = [a.procedure, b.procedure];
  const body = changes(before, after, calculators);
  const parts = partChanges(a.parts ?? [], b.parts ?? [], all);
  const head = headChanges(before, after);
  if ((head.length || body.length || parts.length) && before.version === after.version)
    head.push('The version number is still the same.');
  return [...block('Procedure', head), ...block('Parts', parts), ...body].join('\n').trimEnd();
}

/** Two versions of a part, and which procedures they touch. Empty when nothing differs. */
export function partDifference(a: Part, b: Part, all: readonly Reviewed[], calculators: Calculators): string {
  const [before, after] = [partAlone(a), partAlone(b)];
  const body = changes(before, after, calculators);
  const head: string[] = [];
  if (a.part !== b.part) head.push(`Id: ${b.part}, before ${a.part}.`);
  if (a.title !== b.title) head.push(`Title: ${b.title}, before ${a.title}.`);
  if (JSON.stringify(a.needs) !== JSON.stringify(b.needs)) head.push('It needs other things.');
  if (a.version !== b.version) head.push(`Version: ${b.version}, before ${a.version}.`);
  else if (head.length || body.length) head.push('The version number is still the same.');
  if (!head.length && !body.length) return '';
  const users = usersOf(b.part, all);
  head.push(users.length ? `Used by: ${users.join(', ')}.` : 'No procedure uses it.');
  return [...block(`Part ${b.part}`, head), ...body].join('\n').trimEnd();
}

const block = (head: string, lines: readonly string[]): string[] =>
  lines.length ? [head, ...lines.map((l) => `  ${l}`), ''] : [];

function changes(before: Procedure, after: Procedure, calculators: Calculators): string[] {
  const title = (p: Procedure, id: string): string => `“${p.steps.find((s) => s.id === id)?.title ?? id}” (${id})`;
  const steps = changedSteps(before, after, calculators);
  return [
    ...block(
      'New steps',
      steps.added.map((id) => title(after, id)),
    ),
    ...block(
      'Steps taken out',
      steps.removed.map((id) => title(before, id)),
    ),
    ...steps.changed.flatMap((c) => block(`Step ${title(after, c.id)}`, c.what)),
    ...block('Branches', branchChanges(before, after)),
    ...block('Figures', figureChanges(before, after, calculators)),
  ];
}

const usersOf = (part: string, all: readonly Reviewed[]): string[] =>
  all.filter((r) => r.parts?.some((p) => p.part === part)).map((r) => r.procedure.procedure);

function partChanges(old: readonly UsedPart[], now: readonly UsedPart[], all: readonly Reviewed[]): string[] {
  const users = (part: string): string => {
    const n = usersOf(part, all).length;
    return n ? `, used by ${n === 1 ? '1 procedure' : `${n} procedures`}` : '';
  };
  return [
    ...now.flatMap((p) => {
      const was = old.find((o) => o.part === p.part);
      if (!was) return [`Part ${p.part} ${p.version} is new${users(p.part)}.`];
      return was.version === p.version ? [] : [`Part ${p.part} ${was.version} -> ${p.version}${users(p.part)}.`];
    }),
    ...old.filter((o) => !now.some((p) => p.part === o.part)).map((o) => `Part ${o.part} is no longer named.`),
  ];
}

function headChanges(a: Procedure, b: Procedure): string[] {
  const out: string[] = [];
  for (const [field, name] of [
    ['procedure', 'Id'],
    ['version', 'Version'],
    ['title', 'Title'],
    ['summary', 'Summary'],
    ['notice', 'Notice'],
    ['followed_by', 'Due later'],
  ] as const)
    if (a[field] !== b[field]) out.push(`${name}: ${b[field] ?? 'none'}, before ${a[field] ?? 'none'}.`);
  for (const [field, name] of [
    ['places', 'The places of the work are others.'],
    ['follows', 'It follows another job, or reads other values from it.'],
    ['sheet', 'The job sheet shows other things.'],
    ['phases', 'The phases are others.'],
  ] as const)
    if (JSON.stringify(a[field]) !== JSON.stringify(b[field])) out.push(name);
  return out;
}

function branchChanges(a: Procedure, b: Procedure): string[] {
  const old = new Map((a.branches ?? []).map((x) => [x.id, x]));
  const now = new Map((b.branches ?? []).map((x) => [x.id, x]));
  return [
    ...[...now.values()].filter((x) => !old.has(x.id)).map((x) => `New: “${x.title}” (${x.id}).`),
    ...[...old.values()].filter((x) => !now.has(x.id)).map((x) => `Taken out: “${x.title}” (${x.id}).`),
    ...[...now.values()]
      .filter((x) => old.has(x.id) && JSON.stringify(old.get(x.id)) !== JSON.stringify(x))
      .map((x) => `Changed: “${x.title}” (${x.id}): its wording, its condition or the steps that it reopens.`),
  ];
}

function figureChanges(a: Procedure, b: Procedure, calculators: Calculators): string[] {
  const keyed = (p: Procedure): ReadonlyMap<string, KeyInfo> => new Map(keysOf(p, calculators).map((k) => [k.key, k]));
  const [old, now] = [keyed(a), keyed(b)];
  const made = (k: KeyInfo): boolean => k.from.by === 'fact' || k.from.by === 'calc';
  const added = [...now.values()].filter((k) => made(k) && !old.has(k.key)).map((k) => k.key);
  const removed = [...old.values()].filter((k) => made(k) && !now.has(k.key)).map((k) => k.key);
  const changed = [...changedFigureKeys(a, b)].filter((k) => !added.includes(k));
  return [
    ...(added.length ? [`New: ${labels(added, now)}.`] : []),
    ...(removed.length ? [`No longer worked out: ${labels(removed, old)}.`] : []),
    ...(changed.length ? [`Worked out differently: ${labels(changed, now)}.`] : []),
  ];
}
