/** Checks a part by itself against what it says it needs, and a procedure for what its parts need. */
// @ts-nocheck

import type { Calculator } from '../calc/types.js';
import { checkProcedure, type Surroundings } from './check.js';
import { complainOf, parsePlain, readSource, type Source } from './document.js';
import type { CelType } from './expression.js';
import { type KeyInfo, keysOf, underscored } from './model.js';
import { near } from './near.js';
import { carried, type Expanded, isPartLine, type PartFile } from './parts.js';
import { type Complain, listed, type Path, quoted } from './problem.js';
import { type Need, type Part, type Procedure, partSchema, type Step } from './schema.js';

type KeyNeed = Extract<Need, { key: string }>;
const isKey = (n: Need): n is KeyNeed => 'key' in n;
const typeOf = (n: KeyNeed): CelType => n.type ?? (n.quantity ? 'double' : 'string');
/** Where a word that is no name of the file leads a reader astray. */
const nowhere: Source = { file: '', plain: {}, spot: () => ({ line: 1, column: 1 }) };

/** Pure: the text of a part file, read and checked against its needs. */
export function loadPart(text: string, file: string, around: Omit<Surroundings, 'part'>): PartFile {
  const { source, problems } = readSource(text, file);
  if (!source) return { id: '', source: nowhere, part: undefined, problems };
  const complain = complainOf(source, problems);
  const id = typeof source.plain.part === 'string' ? source.plain.part : '';
  if (nested(source, complain)) return { id, source, part: undefined, problems };
  const { value, guess } = parsePlain(source.plain, partSchema, complain);
  if (guess) checkPart(guess, around, complain);
  return { id, source, part: problems.length ? undefined : value, problems };
}

function nested({ plain }: Source, complain: Complain): boolean {
  let found = false;
  for (const list of carried)
    for (const [n, item] of (Array.isArray(plain[list]) ? plain[list] : []).entries())
      if (isPartLine(item)) {
        found = true;
        complain('part-in-part', [list, n], 'A part can’t hold another part.', 'Let the procedure name both.');
      }
  return found;
}

function checkPart(part: Part, around: Omit<Surroundings, 'part'>, complain: Complain): void {
  if (!carried.some((list) => part[list])) {
    complain('part-empty', [], `The part “${part.part}” is empty.`, `Give it one of: ${carried.join(', ')}.`);
    return;
  }
  const needs = part.needs ?? [];
  const seen = new Set<string>();
  const stub = partAlone(part);
  const ahead = stub.steps.length - (part.steps?.length ?? 0);
  const at = (test: (n: Need) => boolean): Path => {
    const n = needs.findIndex(test);
    return n < 0 ? [] : ['needs', n];
  };
  /** Where a place of the stub stands in the part. */
  const there = ([list, n, ...rest]: Path): Path => {
    if (list === 'steps' && typeof n === 'number') {
      const first = stub.steps[n];
      return n < ahead ? at((x) => 'step' in x && x.step === first?.id) : ['steps', n - ahead, ...rest];
    }
    if (list === 'branches' && typeof n === 'number' && n >= (part.branches?.length ?? 0))
      return at((x) => 'branch' in x && x.branch === stub.branches?.[n]?.id);
    if (list === 'places') return at((x) => 'place' in x && x.place === stub.places[Number(n)]?.id);
    if (list === 'follows') return at((x) => isKey(x) && x.key === rest[0]);
    return list === undefined ? [] : n === undefined ? [list] : [list, n, ...rest];
  };
  checkProcedure(stub, { ...around, part: { seen: (key) => seen.add(key) } }, (code, path, ...rest) => {
    // A phase or branch without a step is a need too many, and told as that.
    if (path[0] === 'phases' || (path[0] === 'branches' && path.length === 2)) return;
    complain(code, there(path), ...rest);
  });
  const used = usesOf(part, needs, seen);
  needs.forEach((n, i) => {
    const name = nameOf(n);
    if (needs.findIndex((x) => nameOf(x) === name) < i)
      complain('need-twice', ['needs', i], `The need of ${name} stands here a second time.`, 'Keep one of them.');
    else if (!used(n))
      complain('need-unused', ['needs', i], `The part needs ${name} and never uses it.`, 'Take the need out.');
  });
}

function nameOf(n: Need): string {
  if ('key' in n) return `the value “${n.key}”`;
  if ('place' in n) return `the kind of place “${n.place}”`;
  if ('phase' in n) return `the phase “${n.phase}”`;
  return 'step' in n ? `the step “${n.step}”` : `the branch “${n.branch}”`;
}

/** A procedure that gives just what the part needs, around it. */
export function partAlone(part: Part): Procedure {
  const needs = part.needs ?? [];
  const phases = needs.flatMap((n) => ('phase' in n ? [{ id: n.phase, title: n.phase }] : []));
  const step = (id: string, branch?: string, at = 'job'): Step => ({
    id,
    at,
    ...(branch ? { branch } : {}),
    phase: phases[0]?.id ?? 'none',
    title: id,
    do: id,
    why: id,
  });
  return {
    procedure: part.part,
    version: part.version,
    title: part.title,
    summary: part.title,
    places: needs.flatMap((n) =>
      'place' in n
        ? [
            {
              id: n.place,
              name: n.place,
              ...(n.within && n.within !== 'job' ? { within: n.within } : {}),
              instances: (n.instances ?? ['one']).map((id) => ({ id, label: id })),
            },
          ]
        : [],
    ),
    phases: phases.length ? phases : [{ id: 'none', title: 'none' }],
    steps: [...needs.flatMap((n) => ('step' in n ? [step(n.step)] : [])), ...(part.steps ?? [])],
    ...(part.facts ? { facts: part.facts } : {}),
    ...(part.calcs ? { calcs: part.calcs } : {}),
    branches: [
      ...(part.branches ?? []),
      ...needs.flatMap((n) => ('branch' in n ? [{ id: n.branch, at: n.at, title: n.branch, mark: n.branch }] : [])),
    ],
    follows: {
      procedure: part.part,
      reads: Object.fromEntries(
        needs.filter(isKey).map((n) => [
          n.key,
          {
            key: n.key,
            at: n.at,
            type: typeOf(n) as 'double',
            label: n.key,
            ...(n.quantity ? { quantity: n.quantity } : {}),
          },
        ]),
      ),
    },
  };
}

/** Tells of a need whether anything of the part uses it. */
function usesOf(part: Part, needs: readonly Need[], seen: ReadonlySet<string>): (n: Need) => boolean {
  const kinds = new Set(
    carried.flatMap((list) =>
      (part[list] ?? []).flatMap((x: { at: string; over?: string }) => (x.over ? [x.at, x.over] : [x.at])),
    ),
  );
  for (const n of needs) if ('at' in n) kinds.add(n.at);
  for (const n of [...needs].reverse()) if ('place' in n && n.within && kinds.has(n.place)) kinds.add(n.within);
  const steps = new Set([
    ...(part.steps ?? []).flatMap((s) => s.not_after ?? []),
    ...(part.branches ?? []).flatMap((b) => b.reopens ?? []),
    ...(part.calcs ?? []).flatMap((c) => c.warn_at ?? []),
  ]);
  const branches = new Set(
    (part.steps ?? []).flatMap((s) => [s.branch ?? [], ...(s.gates ?? []).map((g) => g.raise ?? [])].flat()),
  );
  const phases = new Set((part.steps ?? []).map((s) => s.phase));
  return (n) => {
    if ('key' in n) return seen.has(n.key);
    if ('place' in n) return kinds.has(n.place) || seen.has(`which_${underscored(n.place)}`);
    if ('phase' in n) return phases.has(n.phase);
    if ('step' in n) return steps.has(n.step);
    return branches.has(n.branch) || seen.has(`event_${underscored(n.branch)}`);
  };
}

/** What the parts of a procedure need and do not find, said at the line that names the part. */
export function checkNeeds(
  p: Procedure,
  { uses, silent }: Pick<Expanded, 'uses' | 'silent'>,
  calculators: Readonly<Record<string, Calculator>>,
  complain: Complain,
): void {
  const keys = new Map(keysOf(p, calculators).map((k) => [k.key, k]));
  for (const [file, line] of uses)
    for (const n of file.part?.needs ?? []) {
      const lack = lacks(n, p, keys);
      if (!lack) continue;
      // One sentence here is enough: what follows from it inside the part is not said as well.
      silent.add(file);
      complain('need-not-given', line, `The part “${file.id}” needs ${lack.message}`, lack.cure);
    }
}

function lacks(
  n: Need,
  p: Procedure,
  keys: ReadonlyMap<string, KeyInfo>,
): { message: string; cure: string } | undefined {
  const one = (what: string, name: string, names: readonly string[]) =>
    names.includes(name)
      ? undefined
      : {
          message: `a ${what} “${name}”, and there is none.`,
          cure: near(name, names) || `Add it; there are: ${listed(names)}.`,
        };
  if ('phase' in n)
    return one(
      'phase',
      n.phase,
      p.phases.map((f) => f.id),
    );
  if ('step' in n)
    return one(
      'step',
      n.step,
      p.steps.map((s) => s.id),
    );
  if ('branch' in n) {
    const branch = p.branches?.find((b) => b.id === n.branch);
    if (branch && branch.at !== n.at)
      return {
        message: `the branch “${n.branch}” at ${n.at}, but it belongs to ${branch.at}.`,
        cure: `Write “at: ${n.at}” there.`,
      };
    return one(
      'branch',
      n.branch,
      (p.branches ?? []).map((b) => b.id),
    );
  }
  if ('place' in n) {
    const kind = p.places.find((k) => k.id === n.place);
    if (!kind)
      return one(
        'kind of place',
        n.place,
        p.places.map((k) => k.id),
      );
    const around = kind.within ?? 'job';
    if (around !== (n.within ?? 'job'))
      return {
        message: `the kind of place “${n.place}” within ${n.within ?? 'job'}, but it lies within ${around}.`,
        cure: 'Write the steps here instead of the part.',
      };
    const ids = kind.instances.map((i) => i.id);
    const missing = (n.instances ?? []).filter((i) => !ids.includes(i));
    return missing.length
      ? {
          message: `the ${n.place} ${missing.map((m) => `“${m}”`).join(' and ')}, and there is none.`,
          cure: `There are: ${listed(ids)}.`,
        }
      : undefined;
  }
  const info = keys.get(n.key);
  const what = n.quantity ?? typeOf(n);
  if (!info)
    return {
      message: `“${n.key}” (${what}, at ${n.at}), and nothing here gives it.`,
      cure: near(n.key, [...keys.keys()]) || 'Ask it or work it out under this key.',
    };
  if (info.at !== n.at)
    return { message: `“${n.key}” at ${n.at}, but it belongs to ${quoted(info.at)}.`, cure: 'Give it at that place.' };
  if (info.type !== typeOf(n) || info.quantity !== n.quantity)
    return {
      message: `“${n.key}” as ${what}, but it is ${info.quantity ?? info.type}.`,
      cure: 'Give it under this key as it is needed.',
    };
  return undefined;
}
