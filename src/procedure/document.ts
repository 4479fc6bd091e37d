/** A YAML text read with the position of each part kept, and checked against a schema. */
import { closest, distance } from 'fastest-levenshtein';
import { type Document, isMap, isNode, isScalar, LineCounter, type Node, parseDocument } from 'yaml';
import type { z } from 'zod';
import type { Complain, Path, Problem } from './problem.js';

const MOST_CHARACTERS = 1_000_000;

export interface Read<T> {
  readonly value: T | undefined;
  readonly problems: Problem[];
  readonly complain: Complain;
}

/** "; did you mean X?" when one of the names is near. */
export function near(word: string, names: readonly string[]): string {
  if (!names.length) return '';
  const best = closest(word, [...names]);
  return distance(word, best) <= Math.max(2, Math.floor(word.length / 3)) ? `Did you mean “${best}”?` : '';
}

interface Issue {
  readonly code?: string;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly keys?: readonly string[];
  readonly expected?: string;
  readonly values?: readonly unknown[];
  readonly errors?: readonly (readonly Issue[])[];
  readonly note?: string;
  readonly discriminator?: string;
}

const typeWords: Record<string, string> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list (lines that begin with “- ”)',
  object: 'a block of “name: value” lines',
  record: 'a block of “name: value” lines',
  tuple: 'two numbers such as [1, 10]',
};

/** Of a union the branch that comes closest speaks. */
function flatten(issue: Issue): Issue[] {
  if (issue.code !== 'invalid_union' || !issue.errors?.length) return [issue];
  const best = [...issue.errors].sort((a, b) => weight(a) - weight(b))[0] ?? [];
  return best.flatMap((i) => flatten({ ...i, path: [...issue.path, ...i.path] }));
}
const weight = (issues: readonly Issue[]): number =>
  issues.reduce(
    (n, i) => n + (i.code === 'unrecognized_keys' ? (i.keys?.length ?? 1) * 2 : 1) - i.path.length * 0.1,
    0,
  );

/** An issue of the schema as what is wrong and how to mend it. */
function sentence(
  issue: Issue,
  present: boolean,
  allowed: readonly string[],
): { message: string; cure: string; key?: string }[] {
  const name = String(issue.path.at(-1) ?? 'the file');
  switch (issue.code) {
    case 'unrecognized_keys':
      return (issue.keys ?? []).map((key) => ({
        key,
        message: `“${key}” is not a name that is known here.`,
        cure: near(key, allowed) || `Use one of: ${allowed.join(', ')}.`,
      }));
    case 'invalid_type': {
      const expected = typeWords[issue.expected ?? ''] ?? issue.expected ?? 'another value';
      return present
        ? [{ message: `“${name}” should be ${expected}.`, cure: 'Mend the value.' }]
        : [{ message: `“${name}” is missing.`, cure: `Add “${name}:” with ${expected}.` }];
    }
    case 'invalid_value':
      return present
        ? [
            {
              message: `“${name}” has a value that is not known.`,
              cure: `Use one of: ${(issue.values ?? []).join(', ')}.`,
            },
          ]
        : [
            {
              message: `“${name}” is missing.`,
              cure: `Add “${name}:” with one of: ${(issue.values ?? []).join(', ')}.`,
            },
          ];
    case 'invalid_union':
      return [
        {
          message: `“${issue.discriminator ?? name}” is missing or not known.`,
          cure: issue.note ?? 'Compare it with a shipped procedure.',
        },
      ];
    case 'too_small':
      return [{ message: `“${name}” is empty or too short.`, cure: 'Write it out.' }];
    default:
      return [
        {
          message: `“${name}”: ${issue.message.replace(/^Invalid string: must match pattern.*$/, 'has a form that is not allowed')}.`,
          cure: 'Mend the value.',
        },
      ];
  }
}

/** The property names of the schema at a path, as far as they can be told. */
function namesAt(schema: unknown, path: Path, value: unknown): string[] {
  type Def = {
    type?: string;
    shape?: Record<string, unknown>;
    element?: unknown;
    innerType?: unknown;
    options?: unknown[];
    discriminator?: string;
    valueType?: unknown;
  };
  const def = (schema as { def?: Def; _zod?: { def: Def } })?._zod?.def ?? (schema as { def?: Def })?.def;
  if (!def) return [];
  if (def.innerType) return namesAt(def.innerType, path, value);
  if (def.options) return [...new Set(pickOption(def, value).flatMap((o) => namesAt(o, path, value)))];
  if (path.length === 0) return Object.keys(def.shape ?? {});
  const [head, ...rest] = path;
  const below =
    typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[head as string] : undefined;
  if (def.element) return namesAt(def.element, rest, below);
  if (def.valueType) return namesAt(def.valueType, rest, below);
  return namesAt(def.shape?.[head as string], rest, below);
}

function pickOption(def: { options?: unknown[]; discriminator?: string }, value: unknown): unknown[] {
  if (!def.discriminator || typeof value !== 'object' || value === null) return def.options ?? [];
  const wanted = (value as Record<string, unknown>)[def.discriminator];
  const hit = (def.options ?? []).filter((o) => {
    const shape = (o as { _zod?: { def?: { shape?: Record<string, { _zod?: { def?: { values?: unknown[] } } }> } } })
      ._zod?.def?.shape;
    return shape?.[def.discriminator as string]?._zod?.def?.values?.includes(wanted);
  });
  return hit.length ? hit : (def.options ?? []);
}

function valueAt(root: unknown, path: Path): unknown {
  let v = root;
  for (const p of path)
    v = typeof v === 'object' && v !== null ? (v as Record<string | number, unknown>)[p] : undefined;
  return v;
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
    problems.push({ file, ...spot(startOf(doc, path, offset)), message, cure });
  };

  if (text.length > MOST_CHARACTERS) {
    problems.push({
      file,
      line: 1,
      column: 1,
      message: 'The file is too large.',
      cure: 'A procedure has at most a million characters.',
    });
    return { value: undefined, problems, complain };
  }
  if (/[\0\uFFFD]/.test(text)) {
    problems.push({ file, line: 1, column: 1, message: 'The file is not text.', cure: 'Give a YAML file in UTF-8.' });
    return { value: undefined, problems, complain };
  }
  doc = parseDocument(text, { lineCounter: lines, prettyErrors: false, strict: true });
  for (const e of doc.errors.slice(0, 20))
    problems.push({
      file,
      ...spot(e.pos[0]),
      message: `This is not YAML: ${(e.message.split('\n')[0] ?? '').replace(/\.$/, '')}.`,
      cure: 'Look at the indents, quotes and colons here.',
    });
  if (problems.length) return { value: undefined, problems, complain };
  let plain: unknown;
  try {
    plain = doc.toJS({ maxAliasCount: 100 });
  } catch {
    problems.push({
      file,
      line: 1,
      column: 1,
      message: 'The file has too many or broken references (*name).',
      cure: 'Write the parts out.',
    });
    return { value: undefined, problems, complain };
  }
  if (plain === null || plain === undefined || typeof plain !== 'object' || Array.isArray(plain)) {
    const empty = plain === null || plain === undefined;
    problems.push({
      file,
      line: 1,
      column: 1,
      message: empty ? 'The file is empty.' : 'The file holds no “name: value” lines at its outer level.',
      cure: 'Begin with a line such as “procedure: my-procedure”.',
    });
    return { value: undefined, problems, complain };
  }
  const parsed = schema.safeParse(plain);
  if (parsed.success) return { value: parsed.data, problems, complain };
  for (const issue of (parsed.error.issues as readonly Issue[]).flatMap(flatten)) {
    const path = issue.path.filter((p): p is string | number => typeof p !== 'symbol');
    const present = valueAt(plain, path) !== undefined;
    for (const s of sentence(issue, present, namesAt(schema, path, plain)))
      complain(
        s.key === undefined ? (present ? path : path.slice(0, -1)) : [...path, s.key],
        s.message,
        s.cure,
        s.key === undefined ? undefined : -1,
      );
  }
  return { value: undefined, problems, complain };
}

/** Offset of the value at a path, or of its nearest enclosing part; -1 asks for the name instead of the value. */
function startOf(doc: Document.Parsed | undefined, path: Path, into?: number): number {
  if (!doc) return 0;
  for (let n = path.length; n >= 0; n--) {
    const here = path.slice(0, n);
    if (into === -1 && n === path.length && n > 0) {
      const parent = n === 1 ? doc.contents : doc.getIn(here.slice(0, -1), true);
      if (isMap(parent)) {
        const pair = parent.items.find((p) => isScalar(p.key) && String(p.key.value) === String(here.at(-1)));
        if (pair && isNode(pair.key) && pair.key.range) return pair.key.range[0];
      }
    }
    const node = (n === 0 ? doc.contents : doc.getIn(here, true)) as Node | undefined;
    if (isNode(node) && node.range) {
      const quoted = isScalar(node) && (node.type === 'QUOTE_DOUBLE' || node.type === 'QUOTE_SINGLE');
      const within =
        n === path.length &&
        into !== undefined &&
        into > 0 &&
        isScalar(node) &&
        node.type !== 'BLOCK_FOLDED' &&
        node.type !== 'BLOCK_LITERAL';
      return node.range[0] + (within ? (into ?? 0) + (quoted ? 1 : 0) : 0);
    }
  }
  return 0;
}
