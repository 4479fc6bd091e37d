/**
 * What a search over the whole procedure finds: stops that somebody who answered “unknown” can never pass, events that
 * change nothing, and follow-ups that no finished job can have.
 */
import type { Answer } from './answer.js';
import type { Judge } from './judge.js';
import { sinceOf, underscored } from './model.js';
import { type Complain, quoted } from './problem.js';
import { optionsOf, partsOf, type Question } from './questions/index.js';
import type { Branch, Gate, Procedure, Step } from './schema.js';
import type { ConditionTrial } from './trial.js';

/** The word that stands for “nobody knows” among the options of a question. */
const UNKNOWN = 'unknown';
const nothing = (): boolean => false;

interface Around {
  readonly judge: Pick<Judge, 'sound'>;
  readonly trial: ConditionTrial;
}

/** Questions before a step, at its place or around it or below, that can be answered with “unknown”. */
const unknownBefore = (p: Procedure, step: Step): Question[] =>
  p.steps
    .slice(0, p.steps.indexOf(step))
    .flatMap((s) => s.ask ?? [])
    .filter((q) => 'options' in q && optionsOf(q, {}).some((o) => o.value === UNKNOWN));

export function checkDeadEnds(p: Procedure, { judge, trial }: Around, complain: Complain): void {
  p.steps.forEach((s, i) => {
    (s.gates ?? []).forEach((g, j) => {
      if (g.overrule !== 'never' || ![s.when, g.when, g.must].every((t) => t === undefined || judge.sound(t))) return;
      const applies = [s.when, g.when].filter((t) => t !== undefined).map((t) => `(${t})`);
      const opens = [...applies, `(${g.must})`].join(' && ');
      const read = trial.reads(opens);
      for (const q of unknownBefore(p, s)) {
        if (!read.has(q.key) || wayOut(g, applies, q, trial)) continue;
        const fixed = new Map<string, Answer>([[q.key, UNKNOWN]]);
        const seen = trial.can(opens, nothing, fixed);
        if (!seen || seen.true || trial.can(opens, nothing, new Map())?.true !== true) continue;
        if (applies.length && trial.can(applies.join(' && '), nothing, fixed)?.true === false) continue;
        complain(
          'unknown-never-passes',
          ['steps', i, 'gates', j, 'must'],
          `Whoever answered “${UNKNOWN}” to “${q.key}” never passes the gate “${g.id}”, and it can’t be overruled.`,
          'Hold it where that is asked, name a way out in “raise” or “correct”, or let it be overruled.',
        );
      }
    });
  });
}

/** The stop itself offers something else than to know after all: an event, or a decision that takes its condition away. */
function wayOut(g: Gate, applies: readonly string[], q: Question, trial: ConditionTrial): boolean {
  if (g.raise !== undefined) return true;
  const read = trial.reads(applies.join(' && ') || 'true');
  return (g.correct ?? []).some((key) => key !== q.key && read.has(key));
}

/** Names that expressions and lists of keys of a step read. */
function namesIn(value: unknown, out = new Set<string>()): Set<string> {
  if (typeof value === 'string') for (const m of value.match(/[a-z][a-z0-9_]*/g) ?? []) out.add(m);
  else if (typeof value === 'object' && value !== null) for (const v of Object.values(value)) namesIn(v, out);
  return out;
}

/** A step without what is only read by people, but for the figures in it. */
function machineryOf(s: Step): unknown {
  const figures = (text: string | undefined): string[] => (text ?? '').match(/\{[^}]*\}/g) ?? [];
  return [
    s.when,
    s.show,
    s.rests_on,
    s.predict,
    s.draw?.with,
    s.repeat?.until,
    s.repeat?.pause,
    s.wait?.minutes,
    s.no_remedy?.when,
    (s.ask ?? []).map((q) => [q.when, q.suggest]),
    (s.gates ?? []).map((g) => [g.when, g.must, g.correct]),
    [s.do, s.brief, s.title, s.remedy, s.no_remedy?.say, s.mark].flatMap(figures),
  ];
}

/** A word that finds its event anyway. */
function checkEventWords(b: Branch, i: number, complain: Complain): void {
  (b.words ?? []).forEach((word, j, all) => {
    if (all.indexOf(word) === j && !b.title.toLowerCase().includes(word)) return;
    complain(
      'event-word-needless',
      ['branches', i, 'words', j],
      b.title.toLowerCase().includes(word)
        ? `“${word}” is found by the title “${quoted(b.title)}” already.`
        : `“${word}” stands among these words already.`,
      'Take it out.',
    );
  });
}

export function checkEvents(p: Procedure, complain: Complain): void {
  (p.branches ?? []).forEach((b, i) => {
    checkEventWords(b, i, complain);
    const own = p.steps.filter((s) => s.branch === b.id);
    if (own.length === 0 || b.reopens?.length || own.some((s) => s.gates?.some((g) => g.raise))) return;
    const elsewhere = namesIn([
      p.steps.filter((s) => s.branch !== b.id).map(machineryOf),
      (p.facts ?? []).map(({ label: _, ...f }) => f),
      p.calcs,
      (p.branches ?? []).filter((x) => x !== b).map((x) => x.when),
      p.places.flatMap((k) => k.instances.map((x) => x.when)),
      p.sheet,
    ]);
    const given = [...eventNames(p, b), ...own.flatMap((s) => (s.ask ?? []).flatMap((q) => [q.key, ...partsOf(q)]))];
    if (!given.some((k) => elsewhere.has(k)))
      complain(
        'event-without-effect',
        ['branches', i, 'id'],
        `Raising “${b.id}” changes nothing: it reopens no step, and nothing reads that it happened or what was answered.`,
        `Add “reopens:”, or let something read event_${underscored(b.id)}.`,
      );
  });
}

const eventNames = (p: Procedure, b: Branch): string[] => [
  `event_${underscored(b.id)}`,
  `times_${underscored(b.id)}`,
  ...p.steps.filter((s) => s.repeat).map((s) => `rows_${underscored(s.id)}_at_${underscored(b.id)}`),
  ...sinceOf(p).flatMap(({ key, branch }) => (branch === b ? [key] : [])),
];
