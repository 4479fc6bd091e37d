/** Checks a part by itself against what it says it needs. */
import { checkProcedure, type Surroundings } from './check.js';
import { complainOf, parsePlain, readSource, type SourceText } from './document.js';
import type { CelType } from './expression.js';
import { keysOf, underscored } from './model.js';
import { carried, isPartLine, type PartFile } from './parts.js';
import type { Complain, Path } from './problem.js';
import { type Need, type Part, type Procedure, partSchema, type Step } from './schema.js';
import { isKey, typeOf } from './unmet-needs.js';

/** Where a word that is no name of the file leads a reader astray. */
const nowhere: SourceText = { file: '', plain: {}, spot: () => ({ line: 1, column: 1 }) };

/** Pure: the text of a part file, read and checked against its needs. */
export function loadPart(text: string, file: string, around: Omit<Surroundings, 'part'>): PartFile {
  const { source, problems } = readSource(text, file);
  if (!source) return { id: '', source: nowhere, part: undefined, problems, missing: [] };
  const complain = complainOf(source, problems);
  const id = typeof source.plain.part === 'string' ? source.plain.part : '';
  if (nested(source, complain)) return { id, source, part: undefined, problems, missing: [] };
  const { value, guess } = parsePlain(source.plain, partSchema, complain);
  const missing = guess ? checkPart(guess, around, complain) : [];
  return { id, source, part: problems.length ? undefined : value, problems, missing };
}

function nested({ plain }: SourceText, complain: Complain): boolean {
  let found = false;
  for (const list of carried)
    for (const [n, item] of (Array.isArray(plain[list]) ? plain[list] : []).entries())
      if (isPartLine(item)) {
        found = true;
        complain('part-in-part', [list, n], 'A part can’t hold another part.', 'Let the procedure name both.');
      }
  return found;
}

/** Gives the needs that it has and does not name. */
function checkPart(part: Part, around: Omit<Surroundings, 'part'>, complain: Complain): Need[] {
  if (!carried.some((list) => part[list])) {
    complain('part-empty', [], `The part “${part.part}” is empty.`, `Give it one of: ${carried.join(', ')}.`);
    return [];
  }
  const needs = part.needs ?? [];
  /** Every key that is read, and the outermost kind of place from which it is. */
  const seen = new Map<string, string>();
  const named = new Set<string>();
  const stub = partAlone(placed(part, complain));
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
  const told = new Set<string>();
  const notice = {
    seen: (key: string, from: string) => {
      const before = seen.get(key);
      if (before === undefined || within(stub, before, from)) seen.set(key, from);
    },
    // What stands in for a need names nothing by itself.
    named: (what: string, name: string, [list, n]: Path) => {
      if (list !== 'steps' || Number(n) >= ahead) named.add(`${what}: ${name}`);
    },
  };
  checkProcedure(stub, { ...around, part: notice }, (code, path, ...rest) => {
    // A phase or branch without a step is a need too many, and told as that.
    if (path[0] === 'phases' || (path[0] === 'branches' && path.length === 2)) return;
    // A need that was not written down is missing once, however often it is read.
    if (code === 'value-unknown' && told.has(String(rest[0]))) return;
    told.add(String(rest[0]));
    complain(code, there(path), ...rest);
  });
  const used = usesOf(part, needs, seen, named);
  needs.forEach((n, i) => {
    const name = nameOf(n);
    if (needs.findIndex((x) => nameOf(x) === name) < i)
      complain('need-twice', ['needs', i], `The need of ${name} stands here a second time.`, 'Keep one of them.');
    else if (!used(n))
      complain('need-unused', ['needs', i], `The part needs ${name} and never uses it.`, 'Take the need out.');
    else if ('key' in n && n.otherwise !== undefined && typeof n.otherwise !== typeWord[typeOf(n)])
      complain(
        'otherwise-type',
        ['needs', i, 'otherwise'],
        `“${String(n.otherwise)}” is not what ${name} can be.`,
        'Write a word, a number in canonical units or true or false, as it is needed; a list has none.',
      );
  });
  return unnamed(part, stub, seen, named, around);
}

const typeWord: Partial<Record<CelType, string>> = { double: 'number', string: 'string', bool: 'boolean' };

/** True when the first kind of place lies somewhere inside the second. */
function within(p: Procedure, kind: string, around: string): boolean {
  if (around === 'job') return kind !== 'job';
  for (let k = p.places.find((x) => x.id === kind)?.within, n = 0; k && n < 9; n++) {
    if (k === around) return true;
    k = p.places.find((x) => x.id === k)?.within;
  }
  return false;
}

/** What the part names and neither has nor needs, as needs that could be written down. */
function unnamed(
  part: Part,
  stub: Procedure,
  seen: ReadonlyMap<string, string>,
  named: ReadonlySet<string>,
  { calculators }: Omit<Surroundings, 'part'>,
): Need[] {
  const keys = new Set(keysOf(stub, calculators).map((k) => k.key));
  const kinds = ['job', ...(part.needs ?? []).flatMap((n) => ('place' in n ? [n.place] : []))];
  const have: Record<string, readonly string[]> = {
    phase: stub.phases.map((f) => f.id),
    'kind of place': kinds,
    step: stub.steps.map((s) => s.id),
    branch: (stub.branches ?? []).map((b) => b.id),
  };
  const lacking = (what: string): string[] =>
    [...named].flatMap((n) =>
      n.startsWith(`${what}: `) && !have[what]?.includes(n.slice(what.length + 2)) ? [n.slice(what.length + 2)] : [],
    );
  return [
    ...lacking('kind of place').map((place) => ({ place })),
    ...lacking('phase').map((phase) => ({ phase })),
    ...[...seen].flatMap(([key, at]) => (keys.has(key) ? [] : [{ key, at }])),
    ...lacking('step').map((step) => ({ step })),
    ...lacking('branch').map((branch) => ({ branch, at: 'job' })),
  ];
}

/** The part with every kind of place that it works at as a need, so that the rest of it can be looked at too. */
function placed(part: Part, complain: Complain): Part {
  const kinds = new Set(['job', ...(part.needs ?? []).flatMap((n) => ('place' in n ? [n.place] : []))]);
  const more: Need[] = [];
  for (const list of carried)
    (part[list] ?? []).forEach((x: { at: string }, i) => {
      if (kinds.has(x.at)) return;
      kinds.add(x.at);
      more.push({ place: x.at });
      complain('place-unknown', [list, i, 'at'], `There is no kind of place “${x.at}”.`, 'Name it under “needs”.');
    });
  return more.length ? { ...part, needs: [...(part.needs ?? []), ...more] } : part;
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
    steps: [...needs.flatMap((n) => ('step' in n ? [step(n.step, undefined, n.at)] : [])), ...(part.steps ?? [])],
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

/** Tells of a need whether anything of the part uses it: what the check looks up is what is used. */
function usesOf(
  part: Part,
  needs: readonly Need[],
  seen: ReadonlyMap<string, string>,
  named: ReadonlySet<string>,
): (n: Need) => boolean {
  const kinds = new Set(
    carried.flatMap((list) =>
      (part[list] ?? []).flatMap((x: { at: string; over?: string }) => (x.over ? [x.at, x.over] : [x.at])),
    ),
  );
  for (const n of needs) if ('at' in n && n.at) kinds.add(n.at);
  for (const n of [...needs].reverse()) if ('place' in n && n.within && kinds.has(n.place)) kinds.add(n.within);
  return (n) => {
    if ('key' in n) return seen.has(n.key);
    if ('place' in n) return kinds.has(n.place) || seen.has(`which_${underscored(n.place)}`);
    if ('phase' in n) return named.has(`phase: ${n.phase}`);
    if ('step' in n) return named.has(`step: ${n.step}`);
    const id = underscored(n.branch);
    const told = [...seen.keys()].some((k) => k === `event_${id}` || k === `times_${id}` || k.endsWith(`_at_${id}`));
    return told || named.has(`branch: ${n.branch}`);
  };
}
