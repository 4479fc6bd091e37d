/**
 * A file with small slips, mended by guess so that the rest of it can be checked in the same run. The result is for
 * checking alone: nothing is ever worked by it.
 */
import { closest } from 'fastest-levenshtein';
import type * as z from 'zod';
import { type Issue, issuesOf } from './explain-issue.js';
import { near } from './near.js';
import type { Path } from './problem.js';
import { namesAt } from './schema-names.js';

type Block = Record<string | number, unknown>;
const texts = ['title', 'do', 'why', 'otherwise', 'tell', 'label', 'name', 'help', 'note', 'say', 'self_check', 'mark'];
const fillers = [...texts, 'summary', 'notice', 'remedy', 'source', 'heading'];

/** The mended value, or undefined when a slip is too deep to guess. */
export function repair<T>(plain: unknown, schema: z.ZodType<T>): T | undefined {
  let value: unknown;
  try {
    value = structuredClone(plain);
  } catch {
    return undefined;
  }
  for (let round = 0; round < 4; round++) {
    const parsed = schema.safeParse(value);
    if (parsed.success) return parsed.data;
    const issues = issuesOf(parsed.error);
    if (!issues.every((issue) => mend(value, issue, schema))) return undefined;
  }
  return undefined;
}

function mend(root: unknown, issue: Issue, schema: unknown): boolean {
  const path = issue.path.filter((p): p is string | number => typeof p !== 'symbol');
  if (issue.code === 'unrecognized_keys') {
    const block = blockAt(root, path);
    if (!block) return false;
    const free = namesAt(schema, path, block).filter((n) => !(n in block));
    for (const key of issue.keys ?? []) {
      if (near(key, free)) {
        const meant = closest(key, free);
        block[meant] = block[key];
      }
      delete block[key];
    }
    return true;
  }
  const last = path.at(-1);
  const block = blockAt(root, path.slice(0, -1));
  if (!block || last === undefined) return false;
  const value = block[last];
  const choices = (issue.values ?? issue.options ?? []).map(String);
  if (choices.length && typeof value === 'string' && near(value, choices)) {
    block[last] = closest(value, choices);
    return true;
  }
  if (issue.code === 'invalid_type' && issue.expected === 'array' && typeof value === 'string') {
    block[last] = [value];
    return true;
  }
  if (fillers.includes(String(last))) {
    block[last] = 'x';
    return true;
  }
  if (last === 'tag' || last === 'version' || last === 'overrule') {
    block[last] = last === 'tag' ? 'CP' : last === 'version' ? '0.0.0' : 'never';
    return true;
  }
  return false;
}

function blockAt(root: unknown, path: Path): Block | undefined {
  let v = root;
  for (const p of path) v = typeof v === 'object' && v !== null ? (v as Block)[p] : undefined;
  return typeof v === 'object' && v !== null ? (v as Block) : undefined;
}
