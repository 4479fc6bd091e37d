/** The property names that a zod schema allows at a path, as far as they can be told. */
import { isList, isRecord } from '../guards/guards.js';
import type { Path } from './problem.js';

interface Def {
  readonly type?: string;
  readonly shape?: Record<string, unknown>;
  readonly element?: unknown;
  readonly innerType?: unknown;
  readonly options?: unknown[];
  readonly discriminator?: string;
  readonly valueType?: unknown;
  readonly values?: unknown[];
}

const defOf = (schema: unknown): Def | undefined => (schema as { _zod?: { def: Def } } | undefined)?._zod?.def;

export function namesAt(schema: unknown, path: Path, value: unknown): string[] {
  const def = defOf(schema);
  if (!def) return [];
  if (def.innerType) return namesAt(def.innerType, path, value);
  if (def.options) return [...new Set(pick(def, value).flatMap((o) => namesAt(o, path, value)))];
  if (path.length === 0) return Object.keys(def.shape ?? {});
  const [head, ...rest] = path;
  const name = String(head);
  const below = isRecord(value) ? value[name] : isList(value) ? value[Number(head)] : undefined;
  return namesAt(def.element ?? def.valueType ?? def.shape?.[name], rest, below);
}

/** The branches of a union that the value can be meant for. */
function pick(def: Def, value: unknown): unknown[] {
  const by = def.discriminator;
  const all = def.options ?? [];
  if (!by || !isRecord(value)) return all;
  const wanted = value[by];
  const hit = all.filter((o) => defOf(defOf(o)?.shape?.[by])?.values?.includes(wanted));
  return hit.length ? hit : all;
}
