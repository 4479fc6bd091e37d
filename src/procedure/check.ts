/** What a schema can't see: names, expressions, calculators, texts and order of a procedure. */
import { lacksOfSource } from '../calc/published.js';
import type { Calculator, Tables } from '../calc/types.js';
import { reservedWords } from './cel-words.js';
import { checkCalcs } from './check-calcs.js';
import { checkCircles, needsOf } from './check-circles.js';
import { checkDecisions } from './check-decisions.js';
import { checkDeadEnds, checkEvents } from './check-effects.js';
import { checkNames, type NameCheck } from './check-names.js';
import { checkHands, checkThings } from './check-order.js';
import { checkPurpose } from './check-purpose.js';
import { fits } from './check-question.js';
import { checkReach } from './check-reach.js';
import { checkOffered, checkSafe } from './check-safe.js';
import { checkSheet } from './check-sheet.js';
import { checkSize } from './check-size.js';
import { checkStep } from './check-step.js';
import { type CelType, environmentFor } from './expression.js';
import { cureOf, type Judge, judgeFor, type Notice } from './judge.js';
import { type KeyInfo, keysOf } from './model.js';
import { type Code, type Complain, listed, type Path, quoted } from './problem.js';
import { raisesOf } from './raises.js';
import type { Fact, Procedure, Step } from './schema.js';
import { trialFor } from './trial.js';

export interface Surroundings {
  readonly tables: Tables;
  readonly calculators: Readonly<Record<string, Calculator>>;
  /** Given when it is a part that is checked: told all that it names. */
  readonly part?: Notice;
}

export function checkProcedure(p: Procedure, around: Surroundings, complain: Complain): void {
  if (!checkSize(p, complain)) return;
  const kinds = ['job', ...p.places.map((k) => k.id)];
  const phases = p.phases.map((f) => f.id);
  const branches = (p.branches ?? []).map((b) => b.id);
  const steps = p.steps.map((s) => s.id);
  checkNames(p, complain);
  const one = (path: Path, name: string | undefined, names: readonly string[], what: string): boolean => {
    if (name === undefined) return true;
    around.part?.named(what, name, path);
    if (names.includes(name)) return true;
    const known = `Known are: ${listed(names)}.`;
    const codes: Readonly<Record<string, Code>> = {
      phase: 'phase-unknown',
      branch: 'branch-unknown',
      step: 'step-unknown',
    };
    complain(
      codes[what] ?? 'place-unknown',
      path,
      `There is no ${what} “${quoted(name)}”.`,
      cureOf(name, names, known, around.part),
    );
    return false;
  };
  let sound = true;
  p.places.forEach((k, i) => {
    sound =
      one(['places', i, 'within'], k.within, kinds.slice(0, i + 1), 'kind of place before this one called') && sound;
  });
  if (!sound) return;
  const keys = new Map<string, KeyInfo>();
  for (const k of keysOf(p, around.calculators))
    if (!keys.has(k.key) && !reservedWords.includes(k.key)) keys.set(k.key, k);
  const env = environmentFor(new Map([...keys].map(([name, k]) => [name, k.type])), around.tables);
  const judge = judgeFor(p, keys, env, around, complain);

  checkInstances(p, keys, judge, complain);
  p.steps.forEach((s, i) => {
    const path: Path = ['steps', i];
    one([...path, 'phase'], s.phase, phases, 'phase');
    if (!one([...path, 'at'], s.at, kinds, 'kind of place')) return;
    one([...path, 'branch'], s.branch, branches, 'branch');
    checkFresh(p, s, path, one, complain, around.part !== undefined);
    checkAnew(p, s, path, one, complain, around.part !== undefined);
    for (const [j, n] of (s.reopens ?? []).entries()) one([...path, 'reopens', j], n, steps, 'step');
    for (const [j, n] of (s.not_after ?? []).entries())
      if (one([...path, 'not_after', j], n, steps, 'step') && steps.indexOf(n) >= i)
        complain(
          'not-after-later',
          [...path, 'not_after', j],
          `“${n}” does not come before “${s.id}”.`,
          'Name an earlier step, or take the line out.',
        );
    (s.gates ?? []).forEach((g, j) => {
      const at: Path = [...path, 'gates', j];
      for (const raised of raisesOf(g)) {
        if (!one([...at, 'raise'], raised, branches, 'branch')) continue;
        const home = p.branches?.find((b) => b.id === raised)?.at ?? 'job';
        if (home !== s.at && !inside(p, home, s.at) && !inside(p, s.at, home))
          complain(
            'raise-elsewhere',
            [...at, 'raise'],
            `The branch “${raised}” belongs to a ${home}, and this stop is at a ${s.at}.`,
            'Name a branch of this place, of one around it or below it.',
          );
      }
      if (g.answer_stands && !raisesOf(g).length && !g.correct)
        complain(
          'answer-stands-alone',
          [...at, 'answer_stands'],
          `The gate “${g.id}” takes the answer for right and names nothing to do about it.`,
          'Name a branch in raise or a reading in correct, or take the line out.',
        );
      (g.correct ?? []).forEach((k, n) => {
        judge.name(k, s.at, [...at, 'correct', n]);
        const by = keys.get(k)?.from.by;
        if (by === 'event' || by === 'place' || (by === 'earlier' && !around.part))
          complain(
            'correct-no-reading',
            [...at, 'correct', n],
            `“${k}” is not read off here and can’t be corrected.`,
            'Name a reading.',
          );
      });
    });
    checkStep(s, path, judge, complain);
    checkOffered(s, path, around.part !== undefined, judge, complain);
  });
  p.phases.forEach((f, i) => {
    if (!p.steps.some((s) => s.phase === f.id))
      complain('phase-empty', ['phases', i], `The phase “${f.id}” has no step.`, 'Give it one or take it out.');
  });
  (p.branches ?? []).forEach((b, i) => {
    const path: Path = ['branches', i];
    if (!one([...path, 'at'], b.at, kinds, 'kind of place')) return;
    judge.expression(b.when, b.at, 'bool', [...path, 'when']);
    for (const [j, n] of (b.reopens ?? []).entries()) one([...path, 'reopens', j], n, steps, 'step');
    const foreseen = p.steps.flatMap((s) => (s.branch ? [] : [s.id]));
    one([...path, 'behind'], b.behind, foreseen, 'step');
    if (!p.steps.some((s) => s.branch === b.id))
      complain('branch-empty', path, `The branch “${b.id}” has no step.`, 'Add a step with this branch.');
  });
  (p.facts ?? []).forEach((f, i) => {
    const path: Path = ['facts', i];
    const missing = 'source' in f && f.source ? lacksOfSource(f.source) : [];
    if (missing.length > 0)
      complain(
        'source-incomplete',
        [...path, 'source'],
        `The source of “${f.key}” is tagged P but does not name ${missing.join(', nor ')}.`,
        'Name document, edition and place, or tag it M (from memory) or CP (common practice).',
      );
    if (!one([...path, 'at'], f.at, kinds, 'kind of place')) return;
    if ('over' in f) {
      checkGathered(p, f, path, judge, one, complain);
    } else {
      judge.expression(f.is, f.at, keys.get(f.key)?.type, [...path, 'is'], f.quantity);
      if (f.unit !== undefined && !(f.quantity && fits(f.unit, f.quantity)))
        complain(
          'unit-unknown',
          [...path, 'unit'],
          `“${quoted(f.unit)}” is no unit of ${f.quantity ?? 'nothing'}.`,
          'Use a unit of the fact’s quantity.',
        );
      if (f.quantity && f.type && f.type !== 'double' && f.type !== 'list<double>')
        complain(
          'type-and-quantity',
          [...path, 'type'],
          `A ${f.quantity} can’t be ${f.type}.`,
          'Take “type” or “quantity” out.',
        );
      checkTimes(p, f, path, judge, one, complain);
    }
  });
  checkCalcs(p, around.calculators, keys, kinds, judge, one, complain);
  checkSheet(p, keys, steps, kinds, judge, one, complain);
  const late = checkReach(p, keys, env, around.tables, judge, complain);
  const needs = needsOf(keys, env);
  checkCircles(p, keys, needs, late, complain);
  const trial = trialFor(keys, env, around.tables, judge.sound, around.calculators);
  const tried = { keys, judge, trial, tables: around.tables };
  checkSafe(p, tried, complain);
  checkPurpose(p, { ...tried, late }, complain);
  // Of a part alone much is not seen that these hang on.
  if (!around.part) {
    checkDeadEnds(p, { judge, trial }, complain);
    checkEvents(p, complain);
    checkHands(p, complain);
    checkThings(p, complain);
  }
  checkDecisions(p, { keys, needs, env, calculators: around.calculators }, complain);
}

/** A fact over the places below. */
function checkGathered(
  p: Procedure,
  f: Extract<Fact, { over: string }>,
  path: Path,
  judge: Judge,
  one: NameCheck,
  complain: Complain,
): void {
  if (
    !one(
      [...path, 'over'],
      f.over,
      p.places.map((k) => k.id),
      'kind of place',
    )
  )
    return;
  const given = (['all', 'any', 'count', 'list'] as const).filter((k) => f[k] !== undefined);
  if (given.length !== 1)
    complain('gather-one', path, `The fact “${f.key}” needs just one of all, any, count, list.`, 'Keep one of them.');
  if (!inside(p, f.over, f.at))
    complain(
      'gather-not-inside',
      [...path, 'over'],
      `A ${quoted(f.over)} does not lie inside a ${quoted(f.at)}.`,
      'Gather from a place below.',
    );
  const item = /^list<(.*)>$/.exec(f.type ?? 'list<string>')?.[1] as CelType | undefined;
  for (const k of given) judge.expression(f[k], f.over, k === 'list' ? item : 'bool', [...path, k], f.quantity);
}

/** When a fact counts, and the step that holds it. */
function checkTimes(
  p: Procedure,
  f: Extract<Fact, { is: string }>,
  path: Path,
  judge: Judge,
  one: NameCheck,
  complain: Complain,
): void {
  judge.expression(f.when, f.at, 'bool', [...path, 'when']);
  const steps = p.steps.map((s) => s.id);
  one([...path, 'held_by'], f.held_by, steps, 'step');
  const holder = p.steps.find((s) => s.id === f.held_by);
  if (holder && holder.at !== f.at)
    complain(
      'held-elsewhere',
      [...path, 'held_by'],
      `The step “${holder.id}” is at a ${holder.at}, and “${f.key}” at a ${f.at}.`,
      'Name a step of the same kind of place.',
    );
}

function checkInstances(p: Procedure, keys: ReadonlyMap<string, KeyInfo>, judge: Judge, complain: Complain): void {
  p.places.forEach((k, i) => {
    judge.expression(k.left?.when, k.id, 'bool', ['places', i, 'left', 'when']);
    judge.text(k.left?.say, k.id, ['places', i, 'left', 'say']);
    k.instances.forEach((x, j) => {
      const path: Path = ['places', i, 'instances', j];
      judge.expression(x.when, k.within ?? 'job', 'bool', [...path, 'when']);
      judge.name(x.label_from, 'job', [...path, 'label_from']);
      if (x.label_from && keys.has(x.label_from) && keys.get(x.label_from)?.type !== 'string')
        complain(
          'label-no-text',
          [...path, 'label_from'],
          `“${x.label_from}” is no text.`,
          'Give the key of a text question.',
        );
    });
  });
}

/** A step that is to be begun in time names another one of the same kind of place. */
function checkFresh(
  p: Procedure,
  { id, at, fresh }: Step,
  path: Path,
  one: NameCheck,
  complain: Complain,
  alone: boolean,
): void {
  if (!fresh) return;
  const after = [...path, 'fresh', 'after'];
  const ids = p.steps.map((s) => s.id);
  const other = one(after, fresh.after, ids, 'step') ? p.steps.find((o) => o.id === fresh.after) : undefined;
  if (other && other.at !== at)
    complain(
      'fresh-elsewhere',
      after,
      `“${other.id}” is done at another kind of place than “${id}”.`,
      alone ? `Write “at: ${at}” at its need, or name another step.` : 'Name a step of the same kind of place.',
    );
  const branches = (p.branches ?? []).map((b) => b.id);
  one([...path, 'fresh', 'raise'], fresh.raise, branches, 'branch');
}

/** A step that is asked anew comes before all else at every place: it belongs to the whole job, and only asks. */
function checkAnew(p: Procedure, s: Step, path: Path, one: NameCheck, complain: Complain, alone: boolean): void {
  if (!s.anew) return;
  const ids = p.steps.map((o) => o.id);
  for (const [i, id] of (s.anew.lost_with ?? []).entries()) one([...path, 'anew', 'lost_with', i], id, ids, 'step');
  for (const [i, id] of s.anew.after.entries()) {
    const at = [...path, 'anew', 'after', i];
    if (one(at, id, ids, 'step') && !alone && !p.steps.find((o) => o.id === id)?.hazard)
      complain('anew-not-possible', at, `“${id}” is not confirmed as done.`, 'Mark it “hazard: true”, or take it out.');
  }
  if (s.at !== 'job' || s.branch || s.repeat || s.wait || s.hold || s.decision || s.physical || s.together)
    complain(
      'anew-not-possible',
      [...path, 'anew'],
      `The step “${s.id}” can’t be asked anew.`,
      'Take “anew” out: it is for questions of the whole job, outside a branch, that are no log, decision, wait, hold or work.',
      -1,
    );
}

/** True when the kind of place lies somewhere below the other. */
function inside(p: Procedure, kind: string, around: string): boolean {
  for (let k: string | undefined = kind, n = 0; k && n < 9; n++) {
    k = p.places.find((x) => x.id === k)?.within ?? (k === 'job' ? undefined : 'job');
    if (k === around) return true;
  }
  return false;
}
