/** Tells from the lines of the screen alone what stands there: which step, at which place, what it wants. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Tables } from '../../src/calc/types.js';
import type { Procedure, Question, Step } from '../../src/procedure/schema.js';
import { cli } from './program.js';

export interface Moment {
  readonly kind: 'step';
  readonly step: Step;
  readonly place: string;
  readonly wants: 'gate' | 'caution' | 'predict' | 'question' | 'confirm' | 'sign';
  readonly question?: Question;
  /** The figure that is to be predicted. */
  readonly figure?: string;
  /** Something is typed and only the key named here confirms it. */
  readonly safety?: string;
  /** It asks again because the value is unusual. */
  readonly unusual: boolean;
}
export type Stands =
  | Moment
  | { readonly kind: 'home' | 'notice' | 'glance' | 'elsewhere' | 'waiting' | 'finished' | 'other' };

/** The words of the screens by which they are told apart. */
const says = {
  caution: 'I have read this and will keep to it',
  predict: /what do you expect/i,
  sign: 'HOLD ',
  ready: 'I sign this as',
  gate: 'STOP ',
  confirm: 'done',
  unusual: 'record it all the same',
  home: /Start a job/,
  notice: /^ ?Before you begin/,
  glance: /l leave this job/,
  elsewhere: /nothing more to do here now/,
  waiting: /Nothing to do but wait|[┃|] Wait\. /,
  finished: /This job is finished/,
} as const;

export interface Shipped {
  readonly procedure: Procedure;
  readonly hash: string;
  readonly tables: Tables;
}

/** A procedure that comes with the program under test. */
export function shipped(id: string): Shipped {
  const all = JSON.parse(readFileSync(join(dirname(cli), 'shipped.json'), 'utf8')) as {
    procedures: { procedure: Procedure; hash: string }[];
    tables: Tables[string][];
  };
  const found = all.procedures.find((p) => p.procedure.procedure === id);
  if (!found) throw new Error(`There is no procedure ${id}`);
  return { ...found, tables: Object.fromEntries(all.tables.map((t) => [t.id, t])) };
}

const bare = (text: string): string => text.replace(/\s+/g, ' ').trim();
/** A text of the procedure with any figure where it has a {key}. */
function pattern(text: string): RegExp {
  const parts = bare(text)
    .split(/\{[a-z][a-z0-9_.]*\}/)
    .map((p) => p.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  // A figure may say nothing, as a lead that belongs to some jobs only.
  return new RegExp(`^${parts.join('.*')}$`);
}

export interface Reader {
  read(screen: string): Stands;
  placeOf(words: string): string | undefined;
}

/** @param names of the positions, where the job gives them others than the procedure's */
export function screenReader(procedure: Procedure, names: Readonly<Record<string, string>> = {}): Reader {
  const places = new Map<string, string>([['Whole job', 'job']]);
  for (const kind of procedure.places)
    for (const { id, label } of kind.instances)
      if (!kind.within) places.set(names[id] ?? label, id);
      else
        for (const parent of procedure.places.find((p) => p.id === kind.within)?.instances ?? [])
          places.set(`${names[parent.id] ?? parent.label}, ${label}`, `${parent.id}.${id}`);
  /** A label may name a position, as a reading of each in one row does. */
  const named = (label: string): string =>
    procedure.places
      .flatMap((p) => (p.within ? [] : p.instances))
      .reduce((text, { id, label: own }) => text.replaceAll(`{name_${id}}`, names[id] ?? own), label);
  // An instruction that is nothing but a figure fits every text: the ones with most words of their own are tried first.
  const own = (text: string): number => text.replace(/\{[^}]*\}/g, '').length;
  const steps = procedure.steps
    .map((step) => ({ step, does: pattern(step.do) }))
    .sort((a, b) => own(b.step.do) - own(a.step.do));

  let last: { readonly screen: string; readonly stands: Stands } | undefined;
  /** Whoever waits looks at the same screen again and again. */
  const read = (screen: string): Stands => {
    if (last?.screen !== screen) last = { screen, stands: readAnew(screen) };
    return last.stands;
  };
  const readAnew = (screen: string): Stands => {
    const lines = screen.split('\n').map((l) => l.trim());
    const flat = bare(screen);
    for (const kind of ['elsewhere', 'waiting', 'finished'] as const)
      if (says[kind].test(flat)) return { kind: says.glance.test(flat) ? 'glance' : kind };
    if (says.glance.test(flat)) return { kind: 'glance' };
    if (says.notice.test(flat)) return { kind: 'notice' };
    const place = places.get((lines[0] ?? '').split(' · ')[0]?.split(' - ')[0] ?? '');
    const said = bare(
      lines
        .filter((l) => /^[┃|]/.test(l))
        .map((l) => l.slice(1))
        .join(' '),
    );
    const holds = lines.some((l) => /^[▲!] HOLD /.test(l));
    // Who finds something without looking is not told to do the step: its title stands there.
    const titled = ({ hold, title }: Step): boolean =>
      holds && hold?.own !== undefined && (lines.includes(title) || lines[0]?.includes(title) === true);
    const step = procedure.steps.find(titled) ?? steps.find(({ does }) => does.test(said))?.step;
    if (!step || place === undefined) return { kind: says.home.test(flat) ? 'home' : 'other' };
    const safety = /Press (\S) (?:I have read|done\b|I sign|record it)/.exec(flat)?.[1];
    const at = { kind: 'step', step, place, unusual: flat.includes(`${safety} ${says.unusual}`), safety } as const;
    const body = flat.slice(0, flat.lastIndexOf('───') + 1 || undefined);
    if (lines.some((l) => /^[▲!] STOP /.test(l))) return { ...at, wants: 'gate' };
    if (body.includes(says.caution)) return { ...at, wants: 'caution' };
    if (says.predict.test(flat)) return { ...at, wants: 'predict', figure: step.predict?.[0] };
    if (holds) return { ...at, wants: 'sign' };
    const question = asked(step, lines, named);
    if (question) return { ...at, wants: 'question', question };
    return body.includes(says.confirm) ? { ...at, wants: 'confirm' } : { kind: 'other' };
  };
  return { read, placeOf: (words) => places.get(words) };
}

const picked: ReadonlySet<Question['kind']> = new Set(['choice', 'yes-no', 'series', 'counter']);

/** The question whose label stands as a line, or folded in several; the first, as the rows of a log stand below. */
function asked(step: Step, lines: readonly string[], named: (label: string) => string): Question | undefined {
  // Two may have the same label: one is picked from a list, the other is typed.
  const typed = lines.some((l) => /^> /.test(l));
  const found = (step.ask ?? []).flatMap((q) => {
    if (picked.has(q.kind) === typed) return [];
    const label = pattern(named(q.label));
    const at = lines.findIndex((_, i) => [1, 2, 3].some((n) => label.test(bare(lines.slice(i, i + n).join(' ')))));
    return at < 0 ? [] : [{ q, at }];
  });
  return found.reduce<(typeof found)[number] | undefined>((a, b) => (a && a.at <= b.at ? a : b), undefined)?.q;
}

/** Tells two moments apart. */
export const nameOf = (s: Stands): string =>
  s.kind === 'step'
    ? `${s.step.id}@${s.place}:${s.wants}:${s.question?.key ?? s.figure ?? ''}${s.unusual ? ':unusual' : ''}${s.wants === 'sign' && s.safety ? ':ready' : ''}`
    : s.kind;
