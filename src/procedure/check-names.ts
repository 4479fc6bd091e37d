/** Names that stand twice, or that the expression language needs for itself. */
import { reservedWords } from './cel-words.js';
import { reopened, sinceOf, underscored } from './model.js';
import type { Complain, Path } from './problem.js';
import { partsOf } from './questions/index.js';
import type { Procedure } from './schema.js';

/** Complains of a name that is none of these; `what` says what is named. */
export type NameCheck = (path: Path, name: string | undefined, names: readonly string[], what: string) => boolean;

interface Named {
  readonly name: string;
  readonly path: Path;
}

export function duplicates(list: readonly Named[], what: string, complain: Complain): void {
  const seen = new Map<string, Path>();
  for (const { name, path } of list) {
    const first = seen.get(name);
    if (first)
      complain(
        'name-twice',
        path,
        `The ${what} “${name}” stands here a second time.`,
        'Give it a name of its own.',
        undefined,
        first,
      );
    else seen.set(name, path);
  }
}

export function checkNames(p: Procedure, complain: Complain): void {
  const ids = (list: readonly { id: string }[] | undefined, at: string): Named[] =>
    (list ?? []).map((x, i) => ({ name: x.id, path: [at, i, 'id'] }));
  duplicates(ids(p.steps, 'steps'), 'step', complain);
  duplicates(ids(p.phases, 'phases'), 'phase', complain);
  duplicates(ids(p.branches, 'branches'), 'branch', complain);
  duplicates([{ name: 'job', path: [] }, ...ids(p.places, 'places')], 'kind of place', complain);
  p.places.forEach((k, i) => {
    const list = k.instances.map((x, j): Named => ({ name: x.id, path: ['places', i, 'instances', j, 'id'] }));
    duplicates(list, 'place', complain);
  });
  const keys = keyPaths(p);
  duplicates(keys, 'key', complain);
  const made = new Map<string, string>();
  for (const s of p.steps)
    if (s.repeat) {
      made.set(`rows_${underscored(s.id)}`, `the log “${s.id}”`);
      made.set(`elapsed_${underscored(s.id)}`, `the log “${s.id}”`);
      for (const q of s.ask ?? []) made.set(`all_${q.key}`, `the log “${s.id}”`);
    }
  for (const b of p.branches ?? []) {
    for (const what of ['event', 'times']) made.set(`${what}_${underscored(b.id)}`, `the branch “${b.id}”`);
    for (const s of p.steps)
      if (s.repeat && s.at === b.at)
        made.set(`rows_${underscored(s.id)}_at_${underscored(b.id)}`, `the branch “${b.id}”`);
  }
  for (const { key, branch } of sinceOf(p)) made.set(key, `the branch “${branch.id}”`);
  for (const s of reopened(p)) made.set(`again_${underscored(s.id)}`, `the step “${s.id}”`);
  made.set('which_job', 'the job');
  for (const k of p.places) made.set(`which_${underscored(k.id)}`, `the kind of place “${k.id}”`);
  for (const { name, path } of keys) {
    if (reservedWords.includes(name))
      complain(
        'key-reserved',
        path,
        `“${name}” is a word of the expression language and can’t be a key.`,
        `Call it “${name}_value”.`,
      );
    const by = made.get(name);
    if (by)
      complain('key-made-already', path, `The key “${name}” is made by ${by} already.`, 'Give it a name of its own.');
  }
}

function keyPaths(p: Procedure): Named[] {
  const out: Named[] = [];
  p.steps.forEach((s, i) =>
    (s.ask ?? []).forEach((q, j) => {
      out.push({ name: q.key, path: ['steps', i, 'ask', j, 'key'] });
      partsOf(q).forEach((k, n) => {
        out.push({ name: k, path: ['steps', i, 'ask', j, 'parts', n] });
      });
    }),
  );
  for (const key of Object.keys(p.follows?.reads ?? {})) out.push({ name: key, path: ['follows', 'reads', key] });
  (p.facts ?? []).forEach((f, i) => {
    out.push({ name: f.key, path: ['facts', i, 'key'] });
  });
  (p.calcs ?? []).forEach((c, i) => {
    for (const [result, key] of Object.entries(c.gives)) out.push({ name: key, path: ['calcs', i, 'gives', result] });
  });
  return out;
}
