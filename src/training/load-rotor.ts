/** A practice rotor's text checked against its procedure: every mistake with its place and its cure. Pure. */

import { readDocument } from '../procedure/document.js';
import { judgeFor } from '../procedure/judge.js';
import type { Model } from '../procedure/model.js';
import { near } from '../procedure/near.js';
import { type Complain, listed, type Path, type Problem, quoted } from '../procedure/problem.js';
import { readAnswer } from '../procedure/questions/index.js';
import type { Step } from '../procedure/schema.js';
import { type Checks, checkDraw, checkLooks, checkPlan, checkRunIn } from './check-plans.js';
import { joinPlans } from './plan.js';
import { keysOfReading } from './practice-rotor.js';
import { type Rotor, type RunIn, rotorSchema, type Typed } from './rotor-file.js';
import { RotorWords } from './rotor-words.js';

export interface LoadedRotors {
  /** Those without a mistake, in the order in which they are to be tried. */
  readonly rotors: readonly Rotor[];
  readonly problems: readonly Problem[];
}

/**
 * Every rotor of a folder: each read, `like` filled in, then checked.
 * @param models the procedures that a rotor can be practised on, by id
 * @param known rotors from elsewhere that these may name
 */
export function loadRotors(
  files: readonly { readonly file: string; readonly text: string }[],
  models: ReadonlyMap<string, Model>,
  known: readonly Rotor[] = [],
): LoadedRotors {
  const read = files.map(({ file, text }) => readDocument(text, file, rotorSchema));
  const own = new Map([...known, ...read.flatMap((r) => r.value ?? [])].map((r) => [r.rotor, r]));
  const ids = [...own.keys()];
  for (const r of read) {
    const rotor = r.value;
    if (!rotor) continue;
    if (own.get(rotor.rotor) !== rotor)
      r.complain(
        'name-twice',
        ['rotor'],
        `There is another rotor “${rotor.rotor}”.`,
        'Give this one a name of its own.',
      );
    for (const name of ['next', 'like'] as const)
      if (rotor[name] !== undefined && (!own.has(rotor[name]) || (name === 'like' && goesRound(rotor, own))))
        r.complain(
          'rotor-unknown',
          [name],
          own.has(rotor[name]) ? 'This comes back to the rotor itself.' : `There is no rotor “${quoted(rotor[name])}”.`,
          near(rotor[name], ids) || `Known are: ${listed(ids)}.`,
        );
    const model = models.get(rotor.procedure);
    if (model) checkRotor(rotor, merged(rotor, own), model, r.complain);
    else
      r.complain(
        'procedure-unknown',
        ['procedure'],
        `There is no procedure “${quoted(rotor.procedure)}”.`,
        near(rotor.procedure, [...models.keys()]) || `Known are: ${listed([...models.keys()])}.`,
      );
  }
  const problems = read
    .flatMap((r) => r.problems)
    .sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : a.line - b.line || a.column - b.column));
  const sound = read.flatMap((r) => (r.value && r.problems.length === 0 ? [merged(r.value, own)] : []));
  return { rotors: inOrder(sound), problems };
}

/** As they are to be tried: each before the one that it names as its next. */
export function inOrder(rotors: readonly Rotor[]): Rotor[] {
  const named = new Set(rotors.map((r) => r.next));
  const out = new Set<Rotor>();
  for (const first of [...rotors.filter((r) => !named.has(r.rotor)), ...rotors])
    for (let r: Rotor | undefined = first; r && !out.has(r); ) {
      out.add(r);
      const { next }: Rotor = r;
      r = rotors.find((x) => x.rotor === next);
    }
  return [...out];
}

function goesRound(rotor: Rotor, all: ReadonlyMap<string, Rotor>): boolean {
  const seen = new Set<string>([rotor.rotor]);
  for (let r = rotor; r.like !== undefined; ) {
    if (seen.has(r.like)) return true;
    seen.add(r.like);
    const base = all.get(r.like);
    if (!base) return false;
    r = base;
  }
  return false;
}

/** Own readings first, since the first that fits is shown. */
function merged(rotor: Rotor, all: ReadonlyMap<string, Rotor>): Rotor {
  const base = rotor.like === undefined || goesRound(rotor, all) ? undefined : all.get(rotor.like);
  if (!base) return rotor;
  const under = merged(base, all);
  return {
    ...rotor,
    readings: [...rotor.readings, ...under.readings],
    logs: [...(rotor.logs ?? []), ...(under.logs ?? [])],
    ...(rotor.run_in || under.run_in ? { run_in: { ...under.run_in, ...rotor.run_in } as RunIn } : {}),
    looks: { ...under.looks, ...rotor.looks },
    careful: joinPlans([under.careful, rotor.careful]),
  };
}

/** @param whole with the readings that it takes over */
function checkRotor(rotor: Rotor, whole: Rotor, model: Model, complain: Complain): void {
  const words = new RotorWords(model, whole);
  const judge = judgeFor(model.procedure, words.keys, words.environment, model, complain);
  const steps = [...model.steps.keys()];
  const places = model.places.map((p) => p.id);

  const placeAt = (id: string, path: Path): string | undefined => {
    const kind = model.place.get(id)?.kind;
    if (kind === undefined)
      complain(
        'place-unknown',
        path,
        `There is no place “${quoted(id)}”.`,
        near(id, places) || `Places are: ${listed(places)}.`,
      );
    return kind;
  };
  const stepAt = (id: string, at: string, path: Path): Step | undefined => {
    const step = model.steps.get(id);
    if (!step) {
      complain(
        'step-unknown',
        [...path, 'step'],
        `There is no step “${quoted(id)}”.`,
        near(id, steps) || 'Use a step of the procedure.',
      );
      return undefined;
    }
    const kind = placeAt(at, [...path, 'at']);
    if (kind === undefined) return undefined;
    if (kind === step.at) return step;
    const fit = model.places.filter((p) => p.kind === step.at).map((p) => p.id);
    complain(
      'step-elsewhere',
      [...path, 'at'],
      `“${id}” is done at ${fit.join(' or ')}, not at “${quoted(at)}”.`,
      'Name that place.',
    );
    return undefined;
  };
  const readable = (step: Step, key: string, typed: Typed | undefined, path: Path): void => {
    const q = step.ask?.find((a) => a.key === key);
    if (!q) {
      const keys = (step.ask ?? []).map((a) => a.key);
      complain(
        'question-unknown',
        path,
        `“${step.id}” asks no “${quoted(key)}”.`,
        near(key, keys) || `It asks: ${listed(keys)}.`,
      );
      return;
    }
    if (typed === undefined) return;
    const answer = readAnswer(q, typed, model.tables);
    if (!answer.ok) complain('reading-not-taken', path, `The guide would not take this reading: ${answer.message}`, '');
  };

  const always = new Set<string>();
  rotor.readings.forEach((r, i) => {
    const path: Path = ['readings', i];
    const step = stepAt(r.step, r.at, path);
    if (!step) return;
    judge.expression(r.when, step.at, 'bool', [...path, 'when']);
    const plain = r.shows !== undefined || r.works_out !== undefined;
    if (plain ? r.key !== undefined || r.ways !== undefined : r.key === undefined || !(r.ways || r.says))
      complain(
        'reading-shape',
        path,
        'A reading has “shows”, or “key” with “ways” or with “says”.',
        'Keep one of them.',
      );
    if (r.key !== undefined) readable(step, r.key, undefined, [...path, 'key']);
    for (const [key, text] of Object.entries(r.works_out ?? {})) {
      readable(step, key, undefined, [...path, 'works_out', key]);
      judge.expression(text, step.at, 'double', [...path, 'works_out', key]);
    }
    for (const [key, typed] of Object.entries(r.shows ?? {})) readable(step, key, typed, [...path, 'shows', key]);
    for (const [key, list] of Object.entries(r.also ?? {}))
      list.forEach((other, j) => void readable(step, key, other, [...path, 'also', key, j]));
    r.ways?.forEach((w, j) => {
      if (r.key !== undefined)
        readable(step, r.key, w.shows, [...path, 'ways', j, w.shows === undefined ? 'way' : 'shows']);
      const behind = [...rotor.traps, ...(rotor.elsewhere ?? [])].map((t) => t.id);
      if (w.careless !== undefined && !behind.includes(w.careless))
        complain(
          'trap-unknown',
          [...path, 'ways', j, 'careless'],
          `There is no trap “${quoted(w.careless)}” here.`,
          near(w.careless, behind) || `Traps are: ${listed(behind)}.`,
        );
      judge.expression(w.unless, step.at, 'bool', [...path, 'ways', j, 'unless']);
      if (r.ways?.findIndex((x) => x.way === w.way) !== j)
        complain(
          'name-twice',
          [...path, 'ways', j, 'way'],
          `The way “${quoted(w.way)}” stands here twice.`,
          'Give it a name of its own.',
        );
    });
    for (const key of keysOfReading(r)) {
      const id = `${key}@${r.at}`;
      if (always.has(id))
        complain(
          'reading-hidden',
          path,
          `An earlier reading of “${quoted(key)}” always comes first.`,
          'Give that one a “when”, or take this out.',
        );
      else if (r.when === undefined) always.add(id);
    }
  });

  rotor.logs?.forEach((log, i) => {
    const path: Path = ['logs', i];
    const step = stepAt(log.step, log.at, path);
    if (!step) return;
    if (!step.repeat)
      complain('log-unknown', [...path, 'step'], `“${log.step}” is no log.`, 'Write “readings” for it.');
    judge.expression(log.when, step.at, 'bool', [...path, 'when']);
    readable(step, log.by, undefined, [...path, 'by']);
    log.rows.forEach((row, j) => {
      if (row.length !== log.columns.length + 1)
        complain(
          'row-width',
          [...path, 'rows', j],
          `The row has ${row.length} values, but “${log.by}” and ${log.columns.length} columns need ${log.columns.length + 1}.`,
          'Give one for each.',
        );
      else [log.by, ...log.columns].forEach((key, n) => void readable(step, key, row[n], [...path, 'rows', j, n]));
    });
  });

  const checks: Checks = { model, judge, complain, stepAt, placeAt, readable };
  checkLooks(rotor, checks);
  if (rotor.run_in) checkRunIn(rotor.run_in, checks);
  if (rotor.draw) checkDraw(rotor.draw, checks);
  for (const how of ['careful', 'careless'] as const) if (rotor[how]) checkPlan(rotor[how], [how], whole, checks);

  checkTraps(rotor, checks, steps);
}

function checkTraps(
  rotor: Rotor,
  { model, judge, complain, placeAt, readable }: Checks,
  steps: readonly string[],
): void {
  const seen = new Set<string>();
  rotor.traps.forEach((trap, i) => {
    const path: Path = ['traps', i];
    if (seen.has(trap.id))
      complain(
        'name-twice',
        [...path, 'id'],
        `The trap “${quoted(trap.id)}” stands here a second time.`,
        'Give it a name of its own.',
      );
    seen.add(trap.id);
    const kind = placeAt(trap.at, [...path, 'at']);
    if (kind === undefined) return;
    judge.expression(trap.fell, kind, 'bool', [...path, 'fell']);
    judge.expression(trap.caught, kind, 'bool', [...path, 'caught']);
    for (const [key, typed] of Object.entries(trap.truth ?? {})) {
      const asking = model.procedure.steps.find((s) => s.at === kind && s.ask?.some((q) => q.key === key));
      if (asking) readable(asking, key, typed, [...path, 'truth', key]);
      else
        complain(
          'question-unknown',
          [...path, 'truth', key],
          `Nothing at this place asks “${quoted(key)}”.`,
          near(key, [...model.keys.keys()]) || 'Name a reading of the place of the trap.',
        );
    }
    if (trap.too_late === undefined) return;
    const late = model.procedure.steps.findIndex((s) => s.id === trap.too_late);
    const first = Math.min(...askedBy(model, trap.fell).map((s) => model.procedure.steps.indexOf(s)));
    if (late < 0)
      complain(
        'step-unknown',
        [...path, 'too_late'],
        `There is no step “${quoted(trap.too_late)}”.`,
        near(trap.too_late, [...steps]) || 'Use a step of the procedure.',
      );
    else if (Number.isFinite(first) && late < first)
      complain(
        'late-before-reading',
        [...path, 'too_late'],
        `“${trap.too_late}” comes before “${model.procedure.steps[first]?.id}”, the first step that anybody can fall into it at.`,
        'Name a step that comes after it.',
      );
  });
}

/** Steps of the work that ask what a condition rests on; none where a branch or something unforeseen is part of it. */
function askedBy(model: Model, condition: string): readonly Step[] {
  const steps = new Set<Step>();
  const seen = new Set<string>();
  let foreseen = true;
  const add = (text: string): void => {
    for (const name of text.replace(/'[^']*'|"[^"]*"/g, '').match(/[a-z][a-z0-9_]*/g) ?? []) {
      const from = (model.keys.get(name) ?? model.keys.get(name.replace(/^way_/, '')))?.from;
      if (!from || seen.has(name)) continue;
      seen.add(name);
      if (from.by === 'event') foreseen = false;
      else if (from.by === 'question' || from.by === 'rows') steps.add(from.step);
      else if (from.by === 'calc') Object.values(from.use.with).forEach(add);
      else if (from.by === 'fact' && 'is' in from.fact) add(from.fact.is);
      else if (from.by === 'fact' && 'over' in from.fact)
        add([from.fact.all, from.fact.any, from.fact.count, from.fact.list].filter(Boolean).join(' '));
    }
  };
  add(condition);
  return foreseen && ![...steps].some((s) => s.branch) ? [...steps] : [];
}
