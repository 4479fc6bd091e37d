/** A YAML text read with the position of each part kept, and checked against a schema. */
import { type Document, isMap, isNode, isScalar, LineCounter, type Node, parseDocument } from 'yaml';
import type * as z from 'zod';
import { explain, flatten, type Issue } from './explain-issue.js';
import type { Complain, Path, Problem } from './problem.js';
import { repair } from './repair.js';
import { namesAt } from './schema-names.js';
import { tellingSlips, unreadable, yamlTrouble } from './yaml-trouble.js';

export interface Read<T> {
  readonly value: T | undefined;
  /** With small slips mended by guess, to find further mistakes in the same run. */
  readonly guess: T | undefined;
  /** Grows as complain is called. */
  readonly problems: Problem[];
  readonly complain: Complain;
}

/** Read and check. `file` is only named in complaints. */
export function readDocument<T>(text: string, file: string, schema: z.ZodType<T>): Read<T> {
  const problems: Problem[] = [];
  const lines = new LineCounter();
  let doc: Document.Parsed | undefined;
  const spot = (offset: number) => {
    const p = lines.linePos(offset);
    return { line: Math.max(1, p.line), column: Math.max(1, p.col) };
  };
  const complain: Complain = (path, message, cure, offset) => {
    problems.push({ file, ...spot(startOf(doc, text, path, offset)), message, cure });
  };
  const failed = { value: undefined, guess: undefined, problems, complain };

  const refused = unreadable(text);
  if (refused) {
    const before = text.slice(0, refused.at).split('\n');
    problems.push({
      file,
      line: before.length,
      column: (before.at(-1)?.length ?? 0) + 1,
      message: refused.message,
      cure: refused.cure,
    });
    return failed;
  }
  doc = parseDocument(text, { lineCounter: lines, prettyErrors: false, strict: true, logLevel: 'error' });
  for (const e of tellingSlips([...doc.errors, ...doc.warnings], (offset) => spot(offset).line))
    problems.push({ file, ...spot(e.pos[0]), ...yamlTrouble(e.code) });
  if (problems.length) return failed;
  const plain = plainOf(doc, (name) => {
    const at = Math.max(0, name === undefined ? 0 : text.search(new RegExp(`\\*${name}(?![\\w-])`)));
    problems.push({ file, ...spot(at), ...yamlTrouble('BAD_ALIAS') });
  });
  if (problems.length) return failed;
  if (plain === null || typeof plain !== 'object' || Array.isArray(plain)) {
    complain(
      [],
      plain === null ? 'The file is empty.' : 'The file holds no “name: value” lines at its outer level.',
      'Begin with a line such as “procedure: my-procedure”.',
    );
    return failed;
  }
  const parsed = schema.safeParse(plain);
  if (parsed.success) return { value: parsed.data, guess: parsed.data, problems, complain };
  for (const issue of (parsed.error.issues as readonly Issue[]).flatMap(flatten)) {
    const path = issue.path.filter((p): p is string | number => typeof p !== 'symbol');
    const value = valueAt(plain, path);
    for (const s of explain(issue, plain, value, namesAt(schema, path, plain))) {
      if (s.key === undefined) complain(value === undefined ? path.slice(0, -1) : path, s.message, s.cure);
      else complain(s.key === '' ? path : [...path, s.key], s.message, s.cure, -1);
    }
  }
  return { ...failed, guess: repair(plain, schema) };
}

/** Null for an empty file; says the name of a reference that is broken. */
function plainOf(doc: Document.Parsed, broken: (name: string | undefined) => void): unknown {
  try {
    return doc.toJS({ maxAliasCount: 100 }) ?? null;
  } catch (e) {
    broken(/set before the alias\): ([\w-]+)$/.exec(e instanceof Error ? e.message : '')?.[1]);
    return null;
  }
}

function valueAt(root: unknown, path: Path): unknown {
  let v = root;
  for (const p of path)
    v = typeof v === 'object' && v !== null ? (v as Record<string | number, unknown>)[p] : undefined;
  return v;
}

/** Offset of the value at a path, or of its nearest enclosing part; -1 asks for the name instead of the value. */
function startOf(doc: Document.Parsed | undefined, text: string, path: Path, into?: number): number {
  if (!doc) return 0;
  for (let n = path.length; n >= 0; n--) {
    const here = path.slice(0, n);
    if (into === -1 && n === path.length && n > 0) {
      const name = nameAt(doc, here);
      if (name !== undefined) return name;
    }
    const node = (n === 0 ? doc.contents : doc.getIn(here, true)) as Node | undefined;
    if (isNode(node) && node.range)
      return n === path.length && into !== undefined && into > 0 && isScalar(node)
        ? inside(text, node.range, String(node.value), into)
        : node.range[0];
  }
  return 0;
}

function nameAt(doc: Document.Parsed, path: Path): number | undefined {
  const parent = path.length === 1 ? doc.contents : doc.getIn(path.slice(0, -1), true);
  if (!isMap(parent)) return undefined;
  const pair = parent.items.find((p) => isScalar(p.key) && String(p.key.value) === String(path.at(-1)));
  return pair && isNode(pair.key) && pair.key.range ? pair.key.range[0] : undefined;
}

/**
 * Where the character `into` of a value stands in the file: folding and quotes move characters, so the word there is
 * looked for in the source as often as it came before in the value.
 */
function inside(text: string, range: readonly number[], value: string, into: number): number {
  const [start = 0, end = 0] = range;
  const source = text.slice(start, end);
  const word = /^(?:\w+|\S)/.exec(value.slice(into))?.[0];
  if (!word) return Math.min(start + into, Math.max(start, end - 1));
  let count = 0;
  for (let i = value.indexOf(word); i >= 0 && i < into; i = value.indexOf(word, i + 1)) count += 1;
  let at = source.indexOf(word);
  for (; count > 0 && at >= 0; count--) at = source.indexOf(word, at + 1);
  return at < 0 ? start : start + at;
}
