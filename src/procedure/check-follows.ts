/** Checks what a procedure reads from an earlier job against the procedure of that job. */
import type { Calculator } from '../calc/types.js';
import { type KeyInfo, keysOf, placesOf } from './model.js';
import { near } from './near.js';
import { type Complain, listed, type Path, quoted } from './problem.js';
import type { Procedure } from './schema.js';

type Follows = NonNullable<Procedure['follows']>;
type Read = Follows['reads'][string];

export function checkFollows(
  p: Procedure,
  known: readonly Procedure[],
  calculators: Readonly<Record<string, Calculator>>,
  complain: Complain,
): void {
  followedBy(p, known, complain);
  const follows = p.follows;
  if (!follows) return;
  const kinds = ['job', ...p.places.map((k) => k.id)];
  for (const [own, read] of Object.entries(follows.reads))
    if (!kinds.includes(read.at))
      complain(
        'place-unknown',
        ['follows', 'reads', own, 'at'],
        `There is no kind of place “${quoted(read.at)}”.`,
        near(read.at, kinds) || `Known are: ${listed(kinds)}.`,
      );
  const earlier = known.find((k) => k.procedure === follows.procedure);
  if (!earlier) {
    const names = known.map((k) => k.procedure).filter((n) => n !== p.procedure);
    complain(
      'procedure-unknown',
      ['follows', 'procedure'],
      `There is no procedure “${follows.procedure}” to follow.`,
      near(follows.procedure, names) || `Known are: ${listed(names)}.`,
    );
    return;
  }
  const keys = new Map(keysOf(earlier, calculators).map((k) => [k.key, k]));
  const own = new Map(keysOf(p, calculators).map((k) => [k.key, k]));
  checkAgain(follows, own, complain);
  const ids = (q: Procedure, kind: string): string =>
    placesOf(q)
      .filter((x) => x.kind === kind)
      .map((x) => x.id)
      .join(', ');
  for (const [name, read] of Object.entries(follows.reads)) {
    const path: Path = ['follows', 'reads', name];
    checkOtherwise(read, [...path, 'otherwise'], complain);
    if (read.key === undefined) {
      // What “again” names is looked at by itself; the value itself is none that a job gives.
      if (read.again === undefined || read.again === name)
        complain(
          'follow-up-not-possible',
          path,
          `No job knows “${name}”: it has no “key”, and no job of this procedure itself gives it.`,
          'Name the key of the earlier job, or write “again:” with a key of this procedure.',
        );
      continue;
    }
    const info = keys.get(read.key);
    if (!info) {
      complain(
        'value-unknown',
        [...path, 'key'],
        `“${earlier.procedure}” has no value “${quoted(read.key)}”.`,
        near(read.key, [...keys.keys()]) || 'Use the key of one of its questions, facts or calculations.',
      );
      continue;
    }
    const raised = info.from.by === 'question' && info.from.question.otherwise === undefined && info.from.step.branch;
    if (raised)
      complain(
        'earlier-not-always-known',
        [...path, 'key'],
        `“${read.key}” is known only in jobs in which “${raised}” was raised, so a finished job may lack it.`,
        'Give that question an “otherwise”, or read something that every job has.',
      );
    if (info.at !== read.at)
      complain(
        'earlier-place-other',
        [...path, 'at'],
        `“${read.key}” of the earlier job belongs to: ${info.at}.`,
        `Write “at: ${info.at}”.`,
      );
    else if (kinds.includes(read.at) && ids(p, read.at) !== ids(earlier, read.at))
      complain(
        'earlier-place-other',
        [...path, 'at'],
        `The places of kind “${read.at}” are ${ids(p, read.at)} here but ${ids(earlier, read.at)} in the earlier job.`,
        'Give them the same ids.',
      );
    if (info.type !== read.type)
      complain(
        'earlier-type-other',
        [...path, 'type'],
        `“${read.key}” of the earlier job is ${info.type}.`,
        `Write “type: ${info.type}”.`,
      );
    if (info.quantity !== read.quantity)
      complain(
        'earlier-type-other',
        [...path, read.quantity ? 'quantity' : 'key'],
        `“${read.key}” of the earlier job ${info.quantity ? `is a ${info.quantity}` : 'has no quantity'}.`,
        info.quantity ? `Write “quantity: ${info.quantity}”.` : 'Take “quantity” out.',
      );
  }
}

/** The job that is due later has to be one that a finished job of this procedure can have. */
function followedBy(p: Procedure, known: readonly Procedure[], complain: Complain): void {
  if (p.followed_by === undefined) return;
  const path: Path = ['followed_by'];
  const next = known.find((k) => k.procedure === p.followed_by);
  const names = known.filter((k) => k.follows).map((k) => k.procedure);
  if (!next)
    complain(
      'procedure-unknown',
      path,
      `There is no procedure “${p.followed_by}”.`,
      near(p.followed_by, names) || `Those that follow another are: ${listed(names)}.`,
    );
  else if (next.follows?.procedure !== p.procedure)
    complain(
      'follow-up-not-possible',
      path,
      `“${next.procedure}” ${next.follows ? `follows “${next.follows.procedure}”` : 'follows no job'}, so no finished job of this procedure can have it.`,
      'Let it follow this one, or name another.',
    );
}

/** What stands in for a value that the earlier job does not know has to be of its type. */
function checkOtherwise({ otherwise, type }: Read, path: Path, complain: Complain): void {
  const wanted = type === 'double' ? 'number' : type === 'bool' ? 'boolean' : type;
  if (otherwise === undefined || typeof otherwise === wanted) return;
  complain(
    'otherwise-type',
    path,
    `“${String(otherwise)}” is no ${type}.`,
    `Write a value of type ${type}, or take “otherwise” out.`,
  );
}

/** What a job of this procedure itself gives has to be of the same kind. */
function checkAgain(follows: Follows, own: ReadonlyMap<string, KeyInfo>, complain: Complain): void {
  for (const [name, read] of Object.entries(follows.reads)) {
    if (read.again === undefined) continue;
    const path: Path = ['follows', 'reads', name, 'again'];
    const info = own.get(read.again);
    if (!follows.again)
      complain(
        'follow-up-not-possible',
        path,
        'This procedure follows none of its own jobs.',
        'Write “again: true” above.',
      );
    else if (!info)
      complain(
        'value-unknown',
        path,
        `There is no value “${quoted(read.again)}” here.`,
        near(read.again, [...own.keys()]) || 'Use a key of this procedure.',
      );
    else if (info.at !== read.at || info.type !== read.type)
      complain(
        'earlier-type-other',
        path,
        `“${read.again}” is ${info.type} at ${info.at}.`,
        `It has to be ${read.type} at ${read.at}.`,
      );
  }
}
