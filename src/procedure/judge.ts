/** Judges expressions, names and texts of a procedure against its keys. */
import type { Environment } from '@marcbachmann/cel-js';
import type { Tables } from '../calc/types.js';
import type { QuantityKind } from '../units/kinds.js';
import { isMacro, misfit, strangeCall, typeWord, unreadableExpression, type Words } from './cel-words.js';
import { checkColumns } from './column-units.js';
import { wordsOf } from './domain.js';
import { type CelNode, type CelType, callOf, nodesOf, walk } from './expression.js';
import { quantityKindOf } from './judge-kinds.js';
import type { KeyInfo } from './model.js';
import { near } from './near.js';
import { type Complain, listed, type Path, quoted } from './problem.js';
import type { Procedure } from './schema.js';

/** Told of a part that is checked what it names. */
export interface Notice {
  /** A key, and the kind of place from which it is read. */
  readonly seen: (key: string, at: string) => void;
  /** A phase, kind of place, step or branch, and where it is named. */
  readonly named: (what: string, name: string, path: Path) => void;
}

/** What to do about a name that nobody knows: in a part it may just as well be a need that was not written down. */
export const cureOf = (name: string, names: readonly string[], otherwise: string, part: Notice | undefined): string => {
  const nearest = near(name, names);
  return part ? `${nearest ? `${nearest} If not, name` : 'Name'} it under “needs”.` : nearest || otherwise;
};

export interface Judge {
  /** An expression at a kind of place, of a type and a kind of quantity; undefined texts pass. */
  expression: (
    text: string | undefined,
    at: string,
    type: CelType | undefined,
    path: Path,
    quantity?: QuantityKind,
  ) => void;
  /** False when an expression with these words was complained of. */
  sound: (text: string) => boolean;
  /** A key that must exist and be visible at a kind of place. */
  name: (key: string | undefined, at: string, path: Path) => void;
  noKey: (key: string, path: Path) => void;
  /** {key}s in a text; `changes` where {key.old} and {key.change} are filled in too. */
  text: (text: string | undefined, at: string, path: Path, changes?: boolean) => void;
  table: (table: string, path: Path, column?: string, columnPath?: Path) => void;
}

const LONGEST = 2000;

export function judgeFor(
  p: Procedure,
  keys: ReadonlyMap<string, KeyInfo>,
  env: Environment,
  { tables, part }: { readonly tables: Tables; readonly part?: Notice },
  report: Complain,
): Judge {
  let complaints = 0;
  const complain: Complain = (...args) => {
    complaints += 1;
    report(...args);
  };
  const names = [...keys.keys()];
  const unsound = new Set<string>();
  const within = new Map(p.places.map((k) => [k.id, k.within ?? 'job']));
  const sees = (at: string, of: string): boolean => {
    for (let k: string | undefined = at, n = 0; k && n < 9; k = within.get(k), n++) if (k === of) return true;
    return of === 'job';
  };
  const noKey = (key: string, path: Path, offset?: number, at?: string): void => {
    // What can't be seen from there was not meant.
    const usable = at === undefined ? names : names.filter((k) => sees(at, keys.get(k)?.at ?? 'job'));
    complain(
      'value-unknown',
      path,
      `There is no value “${quoted(key)}”.`,
      cureOf(key, usable, 'Use the key of a question, fact or calculation.', part),
      offset,
    );
  };
  const kinds = ['job', ...within.keys()];
  const visible = (key: string, at: string, path: Path, offset?: number): void => {
    const info = keys.get(key);
    part?.seen(key, at);
    if (!info) noKey(key, path, offset, at);
    if (!info || sees(at, info.at) || !kinds.includes(info.at)) return;
    const kind = p.places.find((k) => k.id === info.at);
    complain(
      'value-not-visible',
      path,
      `“${key}” belongs to a ${info.at} and can’t be seen from ${at === 'job' ? 'the whole job' : `a ${at}`}.`,
      kind && sees(info.at, at)
        ? `Gather it with a fact that has “at: ${at}” and “over: ${info.at}”.`
        : 'Use a value of this place or of one around it.',
      offset,
    );
  };

  const table: (id: string, path: Path, column?: string, columnPath?: Path, offset?: number) => void = (
    id,
    path,
    column,
    columnPath,
    offset,
  ) => {
    const t = Object.hasOwn(tables, id) ? tables[id] : undefined;
    if (!t) {
      const known = Object.keys(tables);
      return complain(
        'table-unknown',
        path,
        `There is no table “${quoted(id)}”.`,
        near(id, known) || `Known are: ${listed(known)}.`,
        offset,
      );
    }
    const columns = [...new Set(t.rows.flatMap((r) => Object.keys(r)))];
    if (column && !columns.includes(column))
      complain(
        'column-unknown',
        columnPath ?? path,
        `The table “${id}” has no column “${quoted(column)}”.`,
        near(column, columns) || `Its columns are: ${listed(columns)}.`,
        offset,
      );
  };

  /** A word that the value at its other side can never be. */
  const literal = (n: CelNode, other: CelNode, path: Path, lambda: ReadonlyMap<string, string>): void => {
    if (n.op !== 'id' || other.op !== 'value' || typeof other.args !== 'string') return;
    const name = String(n.args);
    const values = wordsOf(lambda.get(name) ?? name, keys, tables, (text) => env.parse(text).ast);
    if (values && !values.includes(other.args))
      complain(
        'word-impossible',
        path,
        `“${String(n.args)}” can never be “${quoted(other.args)}”.`,
        near(other.args, values) || `It can be: ${listed(values)}.`,
        other.start,
      );
  };

  const lookup = (name: string, args: readonly CelNode[], path: Path): void => {
    const [t, row, column] = args;
    const word = (n: CelNode | undefined) => (n?.op === 'value' && typeof n.args === 'string' ? n.args : undefined);
    const id = word(t);
    if (id === undefined) {
      if (t)
        complain(
          'table-not-written',
          path,
          `The table of ${name}() has to be written out.`,
          'Write its name in single quotes.',
          t.start,
        );
      return;
    }
    table(id, path, word(column), undefined, (tables[id] ? column : t)?.start);
    const rows = tables[id]?.rows.map((r) => r.id);
    const fixed = word(row);
    if (rows && fixed !== undefined && !rows.includes(fixed))
      complain(
        'row-unknown',
        path,
        `The table “${id}” has no row “${quoted(fixed)}”.`,
        near(fixed, rows) || `Its rows are: ${listed(rows)}.`,
        row?.start,
      );
  };

  const divided = (n: CelNode, path: Path): void => {
    const by = n.op === '/' || n.op === '%' ? nodesOf(n)[1] : undefined;
    if (by?.op !== 'value' || Number(by.args) !== 0) return;
    complain('divided-by-nought', path, 'Nothing can be divided by nought.', 'Write by what it is divided.', by.start);
  };

  /** Names, calls and words of an expression; true when nothing was wrong. */
  const parts = (ast: unknown, at: string, path: Path): boolean => {
    let sound = true;
    const lambda = boundNames(ast);
    let macros = 0;
    walk(ast, (n) => {
      const call = callOf(n);
      divided(n, path);
      if (n.op === 'id' && typeof n.args === 'string' && !lambda.has(n.args)) {
        if (!keys.has(n.args)) sound = false;
        visible(n.args, at, path, n.start);
      } else if (n.op === '==' || n.op === '!=') {
        const [a, b] = nodesOf(n);
        if (a && b) {
          literal(a, b, path, lambda);
          literal(b, a, path, lambda);
        }
      } else if (n.op === 'in') {
        const [a, list] = nodesOf(n);
        if (a && list?.op === 'list') for (const item of nodesOf(list)) literal(a, item, path, lambda);
        if (a && list) literal(list, a, path, lambda);
      } else if (call) {
        const { name } = call;
        const strange = strangeCall(name);
        if (strange) {
          sound = false;
          complain('expression-call', path, strange.message, strange.cure, n.start);
        }
        if (isMacro(name) && ++macros > 1) {
          sound = false;
          complain(
            'expression-two-searches',
            path,
            'Two searches through lists stand in one condition.',
            'Make one of them a fact.',
            n.start,
          );
        }
        if (name === 'number_in' || name === 'text_in') lookup(name, call.given, path);
      }
    });
    return sound;
  };

  const say = (w: Words, path: Path): false => {
    complain('expression-unreadable', path, w.message, w.cure, w.offset);
    return false;
  };

  const judged = (
    text: string,
    at: string,
    type: CelType | undefined,
    path: Path,
    quantity?: QuantityKind,
  ): boolean => {
    if (text.length > LONGEST)
      return say({ message: 'The condition is too long.', cure: 'Break it up into facts.' }, path);
    let ast: unknown;
    try {
      ast = env.parse(text).ast;
    } catch (e) {
      return say(unreadableExpression(text, e), path);
    }
    if (!parts(ast, at, path)) return false;
    const checked = env.check(text);
    if (!checked.valid) return say(misfit(checked.error), path);
    const found = String(checked.type).replace(/^dyn<(.*)>$/, '$1');
    const fits = !type || found === type || found.includes('dyn') || (type === 'double' && found === 'int');
    if (!fits) {
      const cure = cureOfType(found, type, path);
      complain('expression-type', path, `This gives ${typeWord(found)}, but ${typeWord(type)} is needed here.`, cure);
      return false;
    }
    checkColumns(ast, quantity, path, tables, complain);
    let clashed = false;
    const kind = quantityKindOf(ast, keys, tables, (a, b, node) => {
      clashed = true;
      complain(
        'quantity-clash',
        path,
        `A ${a} and a ${b} stand together here.`,
        'Add and compare only quantities of one kind.',
        node.start,
      );
    });
    if (!clashed && quantity && kind && kind !== quantity) {
      complain(
        'quantity-other',
        path,
        `This gives a ${kind}, but a ${quantity} is needed here.`,
        'Give a value of that kind.',
      );
      return false;
    }
    return !clashed;
  };

  const expression: Judge['expression'] = (text, at, type, path, quantity) => {
    if (text === undefined) return;
    const before = complaints;
    if (!judged(text, at, type, path, quantity) || complaints > before) unsound.add(text);
  };

  return {
    expression,
    sound: (text) => !unsound.has(text),
    name: (key, at, path) => {
      if (key !== undefined) visible(key, at, path);
    },
    noKey: (key, path) => noKey(key, path),
    text: (text, at, path, changes = false) => {
      for (const m of (text ?? '').matchAll(/\{([^{}]*)\}/g)) {
        const [, key = '', part] = /^(.*?)(?:\.(\w+))?$/s.exec(m[1] ?? '') ?? [];
        if (part !== undefined && !(changes && ['old', 'change'].includes(part)))
          complain(
            'text-figure',
            path,
            `“{${quoted(m[1])}}” can’t be filled in.`,
            changes
              ? 'Write {key}, {key.old} or {key.change}.'
              : 'Write {key} alone; .old and .change belong to a remedy.',
            m.index + 1,
          );
        visible(key, at, path, m.index + 1);
      }
    },
    table: (id, path, column, columnPath) => table(id, path, column, columnPath),
  };
}

/** Of a fact its own type may be the slip; what is asked of each place below has to be a condition. */
function cureOfType(found: string, type: CelType | undefined, path: Path): string {
  const one = found === 'int' ? 'double' : found;
  const own = path[0] === 'facts' ? { is: one, list: `list<${one}>` }[String(path.at(-1))] : undefined;
  if (own !== undefined) return `Change the expression, or write “type: ${own}” in the fact.`;
  return type === 'bool' ? "Compare it with something, such as x > 1.0 or x == 'value'." : 'Change the expression.';
}

/** Names bound by macros such as list.all(x, …), each with the list that it runs through. */
function boundNames(ast: unknown): Map<string, string> {
  const out = new Map<string, string>();
  walk(ast, (n) => {
    const call = callOf(n);
    const [first] = call?.given ?? [];
    if (call?.on && isMacro(call.name) && first?.op === 'id')
      out.set(String(first.args), call.on.op === 'id' ? String(call.on.args) : '');
  });
  return out;
}
