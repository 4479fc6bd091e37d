/** What a schema can't see: names, expressions, calculators, texts and order of a procedure. */
import type { Calculator, Tables } from '../calc/types.js';
import { parseQuantity } from '../units/parse.js';
import { checkCalcs } from './check-calcs.js';
import { checkCircles } from './check-circles.js';
import { near } from './document.js';
import { environmentFor } from './expression.js';
import { type Judge, judgeFor } from './judge.js';
import { keysOf, placesOf } from './model.js';
import type { Complain, Path } from './problem.js';
import type { Procedure, Question, Step } from './schema.js';

export interface Surroundings {
  readonly tables: Tables;
  readonly calculators: Readonly<Record<string, Calculator>>;
}

function duplicates(
  list: readonly { readonly name: string; readonly path: Path }[],
  what: string,
  complain: Complain,
): void {
  const seen = new Set<string>();
  for (const { name, path } of list) {
    if (seen.has(name))
      complain(path, `The ${what} “${name}” stands here a second time.`, 'Give it a name of its own.');
    seen.add(name);
  }
}

export function checkProcedure(p: Procedure, around: Surroundings, complain: Complain): void {
  const kinds = ['job', ...p.places.map((k) => k.id)];
  const phases = p.phases.map((f) => f.id);
  const branches = (p.branches ?? []).map((b) => b.id);
  const steps = p.steps.map((s) => s.id);
  duplicates(
    p.steps.map((s, i) => ({ name: s.id, path: ['steps', i, 'id'] })),
    'step',
    complain,
  );
  duplicates(
    p.phases.map((s, i) => ({ name: s.id, path: ['phases', i, 'id'] })),
    'phase',
    complain,
  );
  duplicates(
    (p.branches ?? []).map((s, i) => ({ name: s.id, path: ['branches', i, 'id'] })),
    'branch',
    complain,
  );
  duplicates(
    p.places.map((s, i) => ({ name: s.id, path: ['places', i, 'id'] })),
    'kind of place',
    complain,
  );

  const one = (path: Path, name: string | undefined, names: readonly string[], what: string): boolean => {
    if (name === undefined || names.includes(name)) return true;
    complain(path, `There is no ${what} “${name}”.`, near(name, names) || `Known are: ${names.join(', ') || 'none'}.`);
    return false;
  };
  p.places.forEach((k, i) => {
    one(['places', i, 'within'], k.within, kinds.slice(0, i + 1), 'kind of place before this one called');
  });
  const infos = keysOf(p, around.calculators);
  const where = keyPaths(p);
  duplicates(where, 'key', complain);
  const keys = new Map(infos.map((k) => [k.key, k]));
  const env = environmentFor(new Map(infos.map((k) => [k.key, k.type])), around.tables);
  const judge = judgeFor(p, keys, env, around.tables, complain);

  p.places.forEach((k, i) =>
    k.instances.forEach((x, j) => {
      judge.expression(x.when, k.within ?? 'job', 'bool', ['places', i, 'instances', j, 'when']);
      judge.name(x.label_from, 'job', ['places', i, 'instances', j, 'label_from']);
    }),
  );
  p.steps.forEach((s, i) => {
    const path: Path = ['steps', i];
    one([...path, 'phase'], s.phase, phases, 'phase');
    if (!one([...path, 'at'], s.at, kinds, 'kind of place')) return;
    one([...path, 'branch'], s.branch, branches, 'branch');
    for (const [j, n] of (s.not_after ?? []).entries()) one([...path, 'not_after', j], n, steps, 'step');
    checkStep(s, path, judge, complain);
  });
  p.phases.forEach((f, i) => {
    if (!p.steps.some((s) => s.phase === f.id))
      complain(['phases', i], `The phase “${f.id}” has no step.`, 'Give it one or take it out.');
  });
  (p.branches ?? []).forEach((b, i) => {
    const path: Path = ['branches', i];
    if (!one([...path, 'at'], b.at, kinds, 'kind of place')) return;
    judge.expression(b.when, b.at, 'bool', [...path, 'when']);
    for (const [j, n] of (b.reopens ?? []).entries()) one([...path, 'reopens', j], n, steps, 'step');
    if (!p.steps.some((s) => s.branch === b.id))
      complain(path, `The branch “${b.id}” has no step.`, 'Add a step with this branch.');
  });
  (p.facts ?? []).forEach((f, i) => {
    const path: Path = ['facts', i];
    if (!one([...path, 'at'], f.at, kinds, 'kind of place')) return;
    if ('over' in f) {
      if (!one([...path, 'over'], f.over, kinds.slice(1), 'kind of place')) return;
      const given = (['all', 'any', 'count', 'list'] as const).filter((k) => f[k] !== undefined);
      if (given.length !== 1)
        complain(path, `The fact “${f.key}” needs just one of all, any, count, list.`, 'Keep one of them.');
      for (const k of given) judge.expression(f[k], f.over, k === 'list' ? undefined : 'bool', [...path, k]);
    } else {
      judge.expression(f.is, f.at, keys.get(f.key)?.type, [...path, 'is']);
      judge.expression(f.when, f.at, 'bool', [...path, 'when']);
    }
  });
  checkCalcs(p, around.calculators, keys, kinds, judge, complain);
  for (const [i, f] of (p.sheet?.figures ?? []).entries())
    if (!keys.has(f.key)) judge.noKey(f.key, ['sheet', 'figures', i, 'key']);
  for (const [i, d] of (p.sheet?.decisions ?? []).entries()) one(['sheet', 'decisions', i], d, steps, 'step');
  for (const [i, k] of (p.sheet?.headline ?? []).entries()) if (!keys.has(k)) judge.noKey(k, ['sheet', 'headline', i]);
  checkCircles(p, keys, env, complain);
  placesOf(p);
}

function keyPaths(p: Procedure): { name: string; path: Path }[] {
  const out: { name: string; path: Path }[] = [];
  p.steps.forEach((s, i) =>
    (s.ask ?? []).forEach((q, j) => {
      out.push({ name: q.key, path: ['steps', i, 'ask', j, 'key'] });
      if (q.kind === 'dimensions')
        q.parts.forEach((k, n) => {
          out.push({ name: k, path: ['steps', i, 'ask', j, 'parts', n] });
        });
    }),
  );
  (p.facts ?? []).forEach((f, i) => {
    out.push({ name: f.key, path: ['facts', i, 'key'] });
  });
  (p.calcs ?? []).forEach((c, i) => {
    for (const [result, key] of Object.entries(c.gives)) out.push({ name: key, path: ['calcs', i, 'gives', result] });
  });
  return out;
}

function checkStep(s: Step, path: Path, judge: Judge, complain: Complain): void {
  judge.expression(s.when, s.at, 'bool', [...path, 'when']);
  judge.constant(
    s.when,
    false,
    [...path, 'when'],
    `The step “${s.id}” can never be reached: its condition is never true.`,
  );
  for (const name of ['title', 'do', 'why', 'otherwise', 'tell', 'remedy', 'mark'] as const)
    judge.text(s[name], s.at, [...path, name]);
  (s.caution ?? []).forEach((c, j) => {
    judge.text(c, s.at, [...path, 'caution', j]);
  });
  if (s.hazard && !s.caution?.length)
    complain(
      path,
      `The step “${s.id}” is marked as hazardous but has no caution.`,
      'Add “caution:” with what can hurt and how to prevent it.',
    );
  for (const list of ['show', 'predict', 'rests_on'] as const)
    (s[list] ?? []).forEach((k, j) => {
      judge.name(k, s.at, [...path, list, j]);
    });
  if (s.physical && s.rests_on?.length && !s.remedy)
    complain(
      path,
      `The step “${s.id}” rests on figures but has no remedy.`,
      'Add “remedy:” with what to do when a figure changes after the work.',
    );
  if (s.decision && !s.rests_on?.length)
    complain(path, `The decision “${s.id}” does not say what it rests on.`, 'Add “rests_on:” with the keys.');
  if (s.repeat) judge.expression(s.repeat.until, s.at, 'bool', [...path, 'repeat', 'until']);
  if (s.repeat && !s.ask?.length)
    complain([...path, 'repeat'], 'A log needs questions.', 'Add “ask:” or take “repeat” out.');
  judge.expression(s.wait?.minutes, s.at, 'double', [...path, 'wait', 'minutes']);
  for (const [k, e] of Object.entries(s.draw?.with ?? {}))
    judge.expression(e, s.at, undefined, [...path, 'draw', 'with', k]);
  duplicates(
    (s.gates ?? []).map((g, j) => ({ name: g.id, path: [...path, 'gates', j, 'id'] })),
    'gate',
    complain,
  );
  (s.gates ?? []).forEach((g, j) => {
    const at = [...path, 'gates', j];
    judge.expression(g.when, s.at, 'bool', [...at, 'when']);
    judge.expression(g.must, s.at, 'bool', [...at, 'must']);
    judge.constant(
      g.must,
      false,
      [...at, 'must'],
      `The gate “${g.id}” can never open: what it asks for is never true.`,
    );
    judge.text(g.say, s.at, [...at, 'say']);
  });
  (s.ask ?? []).forEach((q, j) => {
    checkQuestion(q, s, [...path, 'ask', j], judge, complain);
  });
}

function checkQuestion(q: Question, s: Step, path: Path, judge: Judge, complain: Complain): void {
  judge.expression(q.when, s.at, 'bool', [...path, 'when']);
  if ('limits' in q) {
    if (q.limits[0] >= q.limits[1])
      complain([...path, 'limits'], `The limits of “${q.key}” are in the wrong order.`, 'Write the lower one first.');
    if (
      q.plausible &&
      (q.plausible[0] < q.limits[0] || q.plausible[1] > q.limits[1] || q.plausible[0] >= q.plausible[1])
    )
      complain(
        [...path, 'plausible'],
        `The plausible range of “${q.key}” does not lie inside its limits.`,
        'Narrow it.',
      );
  }
  if (q.kind === 'quantity' || q.kind === 'dimensions') {
    const kind = q.kind === 'quantity' ? q.quantity : 'length';
    if (q.unit !== '' && !parseQuantity(`1 ${q.unit}`, kind).ok)
      complain([...path, 'unit'], `“${q.unit}” is no unit of ${kind}.`, 'Use a unit of that kind.');
  }
  if (q.kind === 'choice-from-table') judge.table(q.table, [...path, 'table'], q.show, [...path, 'show']);
  if (q.kind === 'counter') judge.expression(q.to, s.at, 'double', [...path, 'to']);
  if ('options' in q && q.options)
    duplicates(
      q.options.map((o, n) => ({ name: o.value, path: [...path, 'options', n, 'value'] })),
      'choice',
      complain,
    );
}
