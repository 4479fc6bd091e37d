/** Checks what a procedure reads from an earlier job against the procedure of that job. */
// @ts-nocheck

import type { Calculator } from '../calc/types.js';
import { keysOf, placesOf } from './model.js';
import { near } from './near.js';
import { type Complain, listed, type Path, quoted } from './problem.js';
import type { Procedure } from './schema.js';

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
  const ids = (q: Procedure, kind: string): string =>
    placesOf(q)
      .filter((x) => x.kind === kind)
      .map((x) => x.id)
      .join(', ');
  for (const [own, read] of Object.entries(follows.reads)) {
    const path: Path = ['follows', 'reads', own];
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
