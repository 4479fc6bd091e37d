/** What the parts of a procedure need and do not find, or find only later, said at the line that names the part. */
import type { Calculator, Tables } from '../calc/types.js';
import { isList } from '../guards/guards.js';
import { environmentFor, isNode } from './expression.js';
import { type KeyInfo, keysOf } from './model.js';
import { near } from './near.js';
import type { Expanded, PartFile } from './parts.js';
import { type Complain, listed, quoted } from './problem.js';
import type { Need, Procedure, Step } from './schema.js';
import { typeOf } from './unmet-needs.js';

interface Around {
  readonly tables: Tables;
  readonly calculators: Readonly<Record<string, Calculator>>;
}

/** Gives the values that are missing, for whoever wants to write them. */
export function checkNeeds(
  p: Procedure,
  { uses, silent }: Pick<Expanded, 'uses' | 'silent'>,
  around: Around,
  complain: Complain,
): Need[] {
  const keys = new Map(keysOf(p, around.calculators).map((k) => [k.key, k]));
  const missing: Need[] = [];
  for (const [file, line] of uses)
    for (const n of file.part?.needs ?? []) {
      const lack = lacks(n, p, keys);
      if (!lack) continue;
      // One sentence here is enough: what follows from it inside the part is not said as well.
      silent.add(file);
      if (!('key' in n && keys.has(n.key))) missing.push(n);
      complain('need-not-given', line, `The part “${file.id}” needs ${lack.message}`, lack.cure);
    }
  const late = lateIn(p, keys, around);
  for (const [file, line] of uses) {
    if (silent.has(file)) continue;
    const found = firstLate(file, p, late);
    if (!found) continue;
    silent.add(file);
    const from = [...uses.keys()].find((f) => f.part?.steps?.some((s) => s.id === found.asked.id));
    complain(
      'need-given-later',
      line,
      `The part “${file.id}” needs “${found.key}” in its step “${found.step.id}”, and it is asked only later, in “${found.asked.id}”.`,
      `Move the line behind ${from ? `“- part: ${from.id}”` : `“${found.asked.id}”`}.`,
    );
  }
  return missing;
}

/** A question that something hangs on, and the step in which it is asked. */
interface Asked {
  readonly key: string;
  readonly asked: Step;
}
type Late = (key: string, step: Step) => Asked | undefined;

/** The first value that a step of a part reads before it can be known. */
function firstLate(file: PartFile, p: Procedure, late: Late): (Asked & { readonly step: Step }) | undefined {
  const own = new Set((file.part?.steps ?? []).map((s) => s.id));
  for (const step of p.steps)
    if (own.has(step.id) && !step.branch)
      for (const key of readBy(step)) {
        const found = late(key, step);
        if (found && !own.has(found.asked.id)) return { ...found, step };
      }
  return undefined;
}

/** Names in the conditions, lists and figures of a step. */
function readBy(step: Step): Set<string> {
  const figures = (text: string | undefined): string[] => (text ?? '').match(/\{[^}]*\}/g) ?? [];
  const texts = JSON.stringify([
    step.when,
    step.show,
    step.rests_on,
    step.predict,
    step.wait?.minutes,
    step.fresh?.minutes,
    step.repeat?.until,
    step.repeat?.pause,
    Object.values(step.draw?.with ?? {}),
    (step.ask ?? []).map((q) => [q.when, q.suggest]),
    (step.gates ?? []).map((g) => [g.when, g.must]),
    [step.do, step.brief, step.title, step.tell].flatMap(figures),
  ]);
  return new Set(texts.match(/[a-z][a-z0-9_]*/g));
}

/** Tells of a value the step in which what it surely needs is asked only after the step that reads it. */
function lateIn(p: Procedure, keys: ReadonlyMap<string, KeyInfo>, { tables, calculators }: Around): Late {
  const env = environmentFor(new Map([...keys].map(([name, k]) => [name, k.type])), tables);
  const required = (calc: string, input: string): boolean =>
    Object.hasOwn(calculators, calc) && calculators[calc]?.inputs[input]?.optional !== true;
  const at = new Map(p.steps.map((s, i) => [s.id, i]));
  return (key, step) => {
    const open = new Set<string>();
    const here = at.get(step.id) ?? 0;
    const text = (source: string | undefined): Asked | undefined => {
      if (source === undefined) return undefined;
      try {
        return node(env.parse(source).ast);
      } catch {
        return undefined;
      }
    };
    /** Only where every way through the expression has to wait. */
    const both = (a: unknown, b: unknown): Asked | undefined => node(a) && node(b);
    const any = (list: readonly unknown[]): Asked | undefined => {
      for (const n of list) {
        const found = Array.isArray(n) ? any(n) : node(n);
        if (found) return found;
      }
      return undefined;
    };
    const anyText = (list: readonly (string | undefined)[]): Asked | undefined => {
      for (const t of list) {
        const found = text(t);
        if (found) return found;
      }
      return undefined;
    };
    const node = (n: unknown): Asked | undefined => {
      if (!isNode(n)) return undefined;
      const args: readonly unknown[] = isList(n.args) ? n.args : [n.args];
      if (n.op === 'id') return known(String(n.args));
      if (n.op === '?:') return node(args[0]) ?? both(args[1], args[2]);
      if (n.op === '&&' || n.op === '||') return both(args[0], args[1]);
      return any(args);
    };
    const known = (name: string): Asked | undefined => {
      const info = keys.get(name);
      if (!info || open.has(name)) return undefined;
      const { from } = info;
      if (from.by === 'question') {
        const asked = from.step;
        const waits = !asked.branch && !asked.not_after?.includes(step.id) && (at.get(asked.id) ?? 0) > here;
        return waits && from.question.otherwise === undefined ? { key: name, asked } : undefined;
      }
      open.add(name);
      const found =
        from.by === 'fact'
          ? 'over' in from.fact
            ? anyText([from.fact.all, from.fact.any, from.fact.count, from.fact.list])
            : text(from.fact.is)
          : from.by === 'calc'
            ? anyText(Object.entries(from.use.with).flatMap(([k, t]) => (required(from.use.calc, k) ? [t] : [])))
            : undefined;
      open.delete(name);
      return found;
    };
    return known(key);
  };
}

/** Figures in what a step says that are asked only after it: nobody could read them there. */
export function checkFigures(p: Procedure, around: Around, complain: Complain): void {
  const late = lateIn(p, new Map(keysOf(p, around.calculators).map((k) => [k.key, k])), around);
  p.steps.forEach((step, i) => {
    if (step.branch) return;
    for (const field of ['title', 'do', 'why', 'otherwise', 'tell', 'remedy', 'mark'] as const)
      for (const m of (step[field] ?? '').matchAll(/\{([a-z][a-z0-9_]*)(?:\.\w+)?\}/g)) {
        const found = late(m[1] ?? '', step);
        if (found)
          complain(
            'figure-asked-later',
            ['steps', i, field],
            `“{${m[1]}}” needs “${found.key}”, asked only later, in “${found.asked.id}”.`,
            'Ask it earlier, or take the figure out here.',
            m.index + 1,
          );
      }
  });
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
  if ('step' in n) {
    const step = p.steps.find((s) => s.id === n.step);
    if (step && n.at !== undefined && step.at !== n.at)
      return {
        message: `the step “${n.step}” at ${n.at}, but it is done at ${step.at}.`,
        cure: 'Do it at that place.',
      };
    return n.optional
      ? undefined
      : one(
          'step',
          n.step,
          p.steps.map((s) => s.id),
        );
  }
  if ('branch' in n) {
    const branch = p.branches?.find((b) => b.id === n.branch);
    if (branch && branch.at !== n.at)
      return {
        message: `the branch “${n.branch}” at ${n.at}, but it belongs to ${branch.at}.`,
        cure: `Write “at: ${n.at}” there.`,
      };
    return n.optional
      ? undefined
      : one(
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
