/** What a rotor's file says of its run-in, of how it is gone about and of what is drawn, held against its procedure. Pure. */
import type { Judge } from '../procedure/judge.js';
import type { Model } from '../procedure/model.js';
import { near } from '../procedure/near.js';
import { type Complain, listed, type Path, quoted } from '../procedure/problem.js';
import type { Step } from '../procedure/schema.js';
import { filledAtEnds, namesDrawn } from './fill-drawn.js';
import type { PracticePlan, Rotor, RotorReading, RunIn, Typed } from './rotor-file.js';

export interface Checks {
  readonly model: Model;
  readonly judge: Judge;
  readonly complain: Complain;
  readonly stepAt: (id: string, at: string, path: Path) => Step | undefined;
  readonly placeAt: (id: string, path: Path) => string | undefined;
  readonly readable: (step: Step, key: string, typed: Typed | undefined, path: Path) => void;
}

export function checkRunIn({ log, worse }: RunIn, c: Checks): void {
  const path: Path = ['run_in'];
  worse?.forEach((w, i) => {
    const kind = c.placeAt(w.at, [...path, 'worse', i, 'at']);
    if (kind !== undefined) c.judge.expression(w.when, kind, 'bool', [...path, 'worse', i, 'when']);
  });
  if (!log) return;
  const at = c.model.steps.get(log.step)?.at ?? 'job';
  const step = c.stepAt(log.step, at, [...path, 'log']);
  if (!step) return;
  c.readable(step, log.stage, undefined, [...path, 'log', 'stage']);
  if (log.sound !== undefined) c.readable(step, log.sound, undefined, [...path, 'log', 'sound']);
  for (const name of ['room', 'top'] as const) c.judge.expression(log[name], at, 'double', [...path, 'log', name]);
  for (const [key, ring] of Object.entries(log.rings)) {
    c.readable(step, key, undefined, [...path, 'log', 'rings', key]);
    const kind = c.placeAt(ring, [...path, 'log', 'rings', key]);
    if (kind === undefined) continue;
    for (const name of ['due', 'put_in'] as const)
      c.judge.expression(log[name], kind, 'double', [...path, 'log', name]);
  }
  log.stood?.forEach((branch, i) => void known(branches(c.model), branch, 'branch', [...path, 'log', 'stood', i], c));
}

const branches = (model: Model): string[] => (model.procedure.branches ?? []).map((b) => b.id);

function known(
  names: readonly string[],
  name: string,
  what: 'branch' | 'gate' | 'step' | 'value' | 'way',
  path: Path,
  { complain }: Checks,
): boolean {
  if (names.includes(name)) return true;
  complain(
    `${what}-unknown`,
    path,
    `There is no ${what} “${quoted(name)}”.`,
    near(name, [...names]) || (names.length ? `There are: ${listed([...names])}.` : ''),
  );
  return false;
}

/** Each answer that something is seen of is one that its question takes. */
export function checkLooks({ looks }: Rotor, c: Checks): void {
  for (const [key, of] of Object.entries(looks ?? {})) {
    const step = asking(key, c.model);
    const question = step?.ask?.find((q) => q.key === key);
    if (!step || !question) unasked(key, ['looks', key], c);
    else
      for (const value of Object.keys(of)) {
        const path = ['looks', key, value];
        if (question.kind === 'series')
          known(
            question.options.map((o) => o.value),
            value,
            'value',
            path,
            c,
          );
        else c.readable(step, key, value, path);
      }
  }
}

const asking = (key: string, model: Model): Step | undefined =>
  model.procedure.steps.find((s) => s.ask?.some((q) => q.key === key));

const unasked = (key: string, path: Path, { complain, model }: Checks): void =>
  complain(
    'question-unknown',
    path,
    `Nothing asks “${quoted(key)}”.`,
    near(key, [...model.keys.keys()]) || 'Name a question of the procedure.',
  );

/** @param whole with the readings that it takes over */
export function checkPlan(plan: PracticePlan, path: Path, whole: Rotor, c: Checks): void {
  const { model, judge } = c;
  for (const [key, list] of Object.entries(plan.ways ?? {})) {
    const ways = whole.readings.flatMap((r) => (r.key === key ? (r.ways ?? []) : [])).map((w) => w.way);
    list.forEach((way, i) => void known(ways, way, 'way', [...path, 'ways', key, i], c));
  }
  for (const [name, text] of Object.entries(plan.answers ?? {})) {
    const [key = '', place] = name.split('@');
    const step = asking(key, model);
    if (step) judge.expression(text, step.at, undefined, [...path, 'answers', name]);
    else unasked(key, [...path, 'answers', name], c);
    if (place !== undefined) c.placeAt(place, [...path, 'answers', name]);
  }
  const gates = model.procedure.steps.flatMap((s) => (s.gates ?? []).map((g) => g.id));
  for (const [gate, how] of Object.entries(plan.gates ?? {})) {
    known(gates, gate, 'gate', [...path, 'gates', gate], c);
    if (typeof how === 'object' && 'raise' in how)
      known(branches(model), how.raise, 'branch', [...path, 'gates', gate, 'raise'], c);
  }
  plan.raise?.forEach((r, i) => {
    const kind = c.placeAt(r.at, [...path, 'raise', i, 'at']);
    known(branches(model), r.branch, 'branch', [...path, 'raise', i, 'branch'], c);
    if (kind !== undefined) judge.expression(r.when, kind, 'bool', [...path, 'raise', i, 'when']);
  });
  judge.expression(plan.ends, 'job', 'bool', [...path, 'ends']);
}

/** Each reading that can be drawn is one that the guide takes, with the least and the most of each range. */
export function checkDraw(draw: NonNullable<Rotor['draw']>, c: Checks): void {
  const names = namesDrawn(draw);
  draw.own?.forEach((step, i) => void known([...c.model.steps.keys()], step, 'step', ['draw', 'own', i], c));
  type At = readonly [r: RotorReading, path: Path];
  const sets = (draw.one_of ?? []).flatMap((list, i) =>
    list.flatMap((set, j) => set.map((r, k): At => [r, ['draw', 'one_of', i, j, k]])),
  );
  for (const [r, path] of [...sets, ...draw.readings.map((r, i): At => [r, ['draw', 'readings', i]])]) {
    const step = c.stepAt(r.step, r.at, path);
    if (!step) continue;
    for (const [key, typed] of Object.entries(r.shows ?? {})) {
      const at = [...path, 'shows', key];
      const lost = [...JSON.stringify(typed).matchAll(/\{(\w+)\}/g)].map((m) => m[1] ?? '').find((n) => !names.has(n));
      if (lost !== undefined)
        c.complain(
          'name-not-drawn',
          at,
          `Nothing draws “${quoted(lost)}”.`,
          near(lost, [...names]) || 'Name it in “draw”.',
        );
      else
        for (const one of new Set(filledAtEnds(draw, typed).map((t) => JSON.stringify(t))))
          c.readable(step, key, JSON.parse(one) as Typed, at);
    }
    for (const [key, text] of Object.entries(r.works_out ?? {})) {
      c.readable(step, key, undefined, [...path, 'works_out', key]);
      c.judge.expression(String(filledAtEnds(draw, text)[0]), step.at, 'double', [...path, 'works_out', key]);
    }
  }
}
