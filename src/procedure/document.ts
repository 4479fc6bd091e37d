/** A YAML text read with the position of each part kept, and checked against a schema. */
import { CORE_SCHEMA, load } from 'js-yaml';
import { type Document, isMap, isNode, isScalar, LineCounter, parseDocument } from 'yaml';
import type * as z from 'zod';
import { isList, isRecord } from '../guards/guards.js';
import { explain, issuesOf } from './explain-issue.js';
import type { Complain, Path, Problem } from './problem.js';
import { repair } from './repair.js';
import { namesAt } from './schema-names.js';
import { tellingSlips, unevenLine, unreadable, yamlTrouble } from './yaml-trouble.js';

export interface ReadDocument<T> {
  readonly value: T | undefined;
  /** With small slips mended by guess, to find further mistakes in the same run. */
  readonly guess: T | undefined;
  /** Grows as complain is called. */
  readonly problems: Problem[];
  readonly complain: Complain;
}

/** A file before any schema: what it says, and where each part of it stands. */
export interface SourceText {
  readonly file: string;
  readonly plain: Readonly<Record<string, unknown>>;
  /** Line and column, 1-based, of a path, `offset` characters into that value; -1 means its name. */
  readonly spot: (path: Path, offset?: number) => { line: number; column: number };
}

/** What the two readers may take differently: references, type marks, names that are nothing. */
const delicate = /[&*!?~]|null|\s:\s/i;

/** What a text says, by a reader that keeps no positions and takes a third of the time; undefined where anything is wrong or delicate. */
function quickly(text: string): Readonly<Record<string, unknown>> | undefined {
  if (delicate.test(text) || unreadable(text)) return undefined;
  try {
    const plain = load(text, { schema: CORE_SCHEMA });
    return isRecord(plain) ? plain : undefined;
  } catch {
    return undefined;
  }
}

/** The text as YAML whose outer level is a block of names, or what is wrong with it. */
export function readSource(text: string, file: string): { source?: SourceText; problems: Problem[] } {
  const plain = quickly(text);
  if (!plain) return readWithPlaces(text, file);
  let whole: SourceText | undefined;
  const spot: SourceText['spot'] = (path, offset) => {
    whole ??= readWithPlaces(text, file).source;
    return whole?.spot(path, offset) ?? { line: 1, column: 1 };
  };
  return { source: { file, plain, spot }, problems: [] };
}

/** The same with the place of each part. */
export function readWithPlaces(text: string, file: string): { source?: SourceText; problems: Problem[] } {
  const problems: Problem[] = [];
  const lines = new LineCounter();
  const at = (offset: number) => {
    const p = lines.linePos(offset);
    return { line: Math.max(1, p.line), column: Math.max(1, p.col) };
  };
  const refused = unreadable(text);
  if (refused) {
    const before = text.slice(0, refused.at).split('\n');
    problems.push({
      file,
      line: before.length,
      column: (before.at(-1)?.length ?? 0) + 1,
      code: 'yaml',
      message: refused.message,
      cure: refused.cure,
    });
    return { problems };
  }
  const doc = parseDocument(text, { lineCounter: lines, prettyErrors: false, strict: true, logLevel: 'error' });
  const [first] = doc.errors;
  const uneven = first && unevenLine(text, at(first.pos[0]).line);
  if (uneven && !doc.errors.some((e) => e.code === 'TAB_AS_INDENT')) {
    problems.push({ file, column: 1, code: 'yaml', ...uneven });
    return { problems };
  }
  for (const e of tellingSlips([...doc.errors, ...doc.warnings], (offset) => at(offset).line))
    problems.push({ file, ...at(e.pos[0]), code: 'yaml', ...yamlTrouble(e.code) });
  if (problems.length) return { problems };
  const plain = plainOf(doc, (name) => {
    const offset = Math.max(0, name === undefined ? 0 : text.search(new RegExp(`\\*${name}(?![\\w-])`)));
    problems.push({ file, ...at(offset), code: 'yaml', ...yamlTrouble('BAD_ALIAS') });
  });
  if (problems.length) return { problems };
  const spot = (path: Path, offset?: number) => at(startOf(doc, text, path, offset));
  if (!isRecord(plain)) {
    problems.push({
      file,
      ...spot([]),
      code: 'file-empty',
      message: plain === null ? 'The file is empty.' : 'The file holds no “name: value” lines at its outer level.',
      cure: 'Begin with a line such as “procedure: my-procedure”.',
    });
    return { problems };
  }
  return { source: { file, plain, spot }, problems };
}

/** Adds what is complained of in a file to a list. */
export const complainOf =
  ({ file, spot }: SourceText, problems: Problem[]): Complain =>
  (code, path, message, cure, offset) => {
    problems.push({ file, ...spot(path, offset), code, message, cure });
  };

/** What a plain value says by a schema; each slip is complained of. */
export function parsePlain<T>(
  plain: unknown,
  schema: z.ZodType<T>,
  complain: Complain,
): { readonly value: T | undefined; readonly guess: T | undefined } {
  // A file is read once: to compile its schema first takes longer than to walk it.
  const parsed = schema.safeParse(plain, { jitless: true });
  if (parsed.success) return { value: parsed.data, guess: parsed.data };
  for (const issue of issuesOf(parsed.error)) {
    const path = issue.path.filter((p): p is string | number => typeof p !== 'symbol');
    const value = valueAt(plain, path);
    for (const s of explain(issue, plain, value, namesAt(schema, path, plain))) {
      if (s.key === undefined) complain(s.code, value === undefined ? path.slice(0, -1) : path, s.message, s.cure);
      else complain(s.code, s.key === '' ? path : [...path, s.key], s.message, s.cure, -1);
    }
  }
  return { value: undefined, guess: repair(plain, schema) };
}

/** Read and check. `file` is only named in complaints. */
export function readDocument<T>(text: string, file: string, schema: z.ZodType<T>): ReadDocument<T> {
  return readSurely(
    text,
    file,
    (_): _ is T => false,
    () => schema,
  );
}

/** The same where `surely` knows much of what the schema lets pass as it stands: that is asked for only of the rest. */
export function readSurely<T>(
  text: string,
  file: string,
  surely: (plain: unknown) => plain is T,
  schema: () => z.ZodType<T>,
): ReadDocument<T> {
  const { source, problems } = readSource(text, file);
  if (!source) return { value: undefined, guess: undefined, problems, complain: () => undefined };
  const complain = complainOf(source, problems);
  const { plain } = source;
  if (surely(plain)) return { value: plain, guess: plain, problems, complain };
  return { ...parsePlain(plain, schema(), complain), problems, complain };
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
  for (const p of path) v = isRecord(v) ? v[p] : isList(v) ? v[Number(p)] : undefined;
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
    const node = n === 0 ? doc.contents : doc.getIn(here, true);
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
