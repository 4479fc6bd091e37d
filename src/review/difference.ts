/** Two versions of a procedure laid side by side, as text. */
import type { Calculator } from '../calc/types.js';
import { type KeyInfo, keysOf } from '../procedure/model.js';
import type { Procedure } from '../procedure/schema.js';
import { changedFigures } from './changed-figures.js';
import { changedSteps } from './changed-steps.js';
import { labels } from './question-words.js';

/** Empty when nothing differs. */
export function difference(
  before: Procedure,
  after: Procedure,
  calculators: Readonly<Record<string, Calculator>>,
): string {
  const out: string[] = [];
  const title = (p: Procedure, id: string): string => `“${p.steps.find((s) => s.id === id)?.title ?? id}” (${id})`;
  const list = (head: string, lines: readonly string[]): void => {
    if (lines.length) out.push(head, ...lines.map((l) => `  ${l}`), '');
  };
  const steps = changedSteps(before, after, calculators);
  list('Procedure', headChanges(before, after));
  list(
    'New steps',
    steps.added.map((id) => title(after, id)),
  );
  list(
    'Steps taken out',
    steps.removed.map((id) => title(before, id)),
  );
  for (const c of steps.changed) list(`Step ${title(after, c.id)}`, c.what);
  list('Branches', branchChanges(before, after));
  list('Figures', figureChanges(before, after, calculators));
  return out.join('\n').trimEnd();
}

function headChanges(a: Procedure, b: Procedure): string[] {
  const out: string[] = [];
  for (const [field, name] of [
    ['procedure', 'Id'],
    ['version', 'Version'],
    ['title', 'Title'],
    ['summary', 'Summary'],
    ['notice', 'Notice'],
  ] as const)
    if (a[field] !== b[field]) out.push(`${name}: ${b[field] ?? 'none'}, before ${a[field] ?? 'none'}.`);
  for (const [field, name] of [
    ['places', 'The places of the work are others.'],
    ['follows', 'It follows another job, or reads other values from it.'],
    ['sheet', 'The job sheet shows other things.'],
    ['phases', 'The phases are others.'],
  ] as const)
    if (JSON.stringify(a[field]) !== JSON.stringify(b[field])) out.push(name);
  if (out.length && a.version === b.version) out.push('The version number is still the same.');
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

function figureChanges(a: Procedure, b: Procedure, calculators: Readonly<Record<string, Calculator>>): string[] {
  const keyed = (p: Procedure): ReadonlyMap<string, KeyInfo> => new Map(keysOf(p, calculators).map((k) => [k.key, k]));
  const [old, now] = [keyed(a), keyed(b)];
  const made = (k: KeyInfo): boolean => k.from.by === 'fact' || k.from.by === 'calc';
  const added = [...now.values()].filter((k) => made(k) && !old.has(k.key)).map((k) => k.key);
  const removed = [...old.values()].filter((k) => made(k) && !now.has(k.key)).map((k) => k.key);
  const changed = [...changedFigures(a, b)].filter((k) => !added.includes(k));
  return [
    ...(added.length ? [`New: ${labels(added, now)}.`] : []),
    ...(removed.length ? [`No longer worked out: ${labels(removed, old)}.`] : []),
    ...(changed.length ? [`Worked out differently: ${labels(changed, now)}.`] : []),
  ];
}
