/**
 * Parts: pieces that several procedures name by one line, `- part: run-in`. A procedure is expanded before anything
 * looks at it, so the engine, a kept job and the hash know nothing of parts; only mistakes are told where they stand.
 */
import { isRecord } from '../guards/guards.js';
import { complainOf, type SourceText } from './document.js';
import { near } from './near.js';
import { type Complain, listed, type Path, type Problem, quoted } from './problem.js';
import type { Need, Part } from './schema.js';
import { givenBy, standIns, without } from './unmet-needs.js';

/** A part as read and checked by itself. */
export interface PartFile {
  readonly id: string;
  readonly source: SourceText;
  /** Undefined when it has mistakes of its own. */
  readonly part: Part | undefined;
  readonly problems: readonly Problem[];
  /** Needs that it has and does not name, as far as they can be told from the part alone. */
  readonly missing: readonly Need[];
}
/** By id. Reading one may take a while, so it may be read only when it is asked for. */
export interface Parts {
  get(id: string): PartFile | undefined;
  keys(): Iterable<string>;
}

/** A part as a procedure has it. */
export interface UsedPart {
  readonly part: string;
  readonly version: string;
  /** Ids of the steps that came from it. */
  readonly steps: readonly string[];
}

/** Lists of a procedure that a part can carry something for. */
export const carried = ['steps', 'facts', 'calcs', 'branches'] as const;
type List = (typeof carried)[number];
type Plain = Readonly<Record<string, unknown>>;

export interface Expanded {
  readonly plain: Plain;
  /** Complains where the thing stands: in the procedure, or in the part that it came from. */
  readonly complain: Complain;
  /** Path of the line that names it, by part. */
  readonly uses: ReadonlyMap<PartFile, Path>;
  /** Parts of whose inside no complaint is passed on. */
  readonly silent: Set<PartFile>;
}

interface Origin {
  readonly source: SourceText;
  readonly index: number;
  readonly from?: PartFile;
  /** Where in the part it stands, when that is another list. */
  readonly list?: 'needs';
}

const itemsOf = (plain: Plain, list: List): readonly unknown[] => (Array.isArray(plain[list]) ? plain[list] : []);

export const isPartLine = (item: unknown): boolean => partOf(item) !== undefined;

/** Id of the part that an item names, if it is such a line. */
function partOf(item: unknown): string | undefined {
  if (!isRecord(item)) return undefined;
  if ('part' in item) return String(item.part);
  const [name, ...more] = Object.keys(item);
  return name !== undefined && !more.length && near(name, ['part']) ? '' : undefined;
}

export function expand(source: SourceText, parts: Parts, problems: Problem[]): Expanded {
  const own = complainOf(source, problems);
  const uses = new Map<PartFile, Path>();

  /** The part that a line names; complains when it can't be had. */
  const named = (item: unknown, path: Path): PartFile | undefined => {
    const id = partOf(item);
    if (!isRecord(item) || id === undefined) return undefined;
    const others = Object.keys(item).filter((k) => k !== 'part');
    if (!('part' in item))
      own('part-line', path, `“${quoted(others[0])}” is not a name that is known here.`, 'Did you mean “part”?');
    else if (others.length)
      own(
        'part-line',
        path,
        `Beside “part: ${quoted(id)}” stands “${quoted(others[0])}”.`,
        'A part stands whole: take that out, or write the step here instead of the part.',
      );
    else {
      const part = parts.get(id);
      if (part) return part;
      const ids = [...parts.keys()];
      own(
        'part-unknown',
        [...path, 'part'],
        `There is no part “${quoted(id)}”.`,
        near(id, ids) || `Known are: ${listed(ids)}.`,
      );
    }
    return undefined;
  };

  const plain: Record<string, unknown> = { ...source.plain };
  const origins = new Map<List, readonly Origin[]>();
  const placed = new Map<List, Set<PartFile>>();
  for (const list of carried) {
    const here = new Set<PartFile>();
    placed.set(list, here);
    if (!Array.isArray(source.plain[list])) continue;
    const items: unknown[] = [];
    const from: Origin[] = [];
    itemsOf(source.plain, list).forEach((item, index) => {
      if (partOf(item) === undefined) {
        items.push(item);
        from.push({ source, index });
        return;
      }
      const path: Path = [list, index];
      const part = named(item, path);
      if (!part) return;
      const content = itemsOf(part.source.plain, list);
      if (here.has(part))
        return own(
          'part-twice',
          path,
          `The part “${part.id}” stands here a second time.`,
          'Keep one of the two lines.',
        );
      if (!content.length)
        return own('part-without-list', path, `The part “${part.id}” has no ${list}.`, 'Take the line out.');
      here.add(part);
      if (!uses.has(part)) uses.set(part, path);
      items.push(...content);
      from.push(...content.map((_, n) => ({ source: part.source, index: n, from: part })));
    });
    plain[list] = items;
    origins.set(list, from);
  }
  for (const part of uses.keys())
    for (const list of carried) {
      const content = itemsOf(part.source.plain, list);
      if (!content.length || placed.get(list)?.has(part)) continue;
      if (list === 'steps') {
        own(
          'part-without-line',
          uses.get(part) ?? [],
          `The part “${part.id}” has steps, and no line in “steps” says where they stand.`,
          `Write “- part: ${part.id}” where they belong.`,
        );
        continue;
      }
      // Nothing says where they stand: behind the procedure's own.
      plain[list] = [...itemsOf(plain, list), ...content];
      origins.set(list, [
        ...(origins.get(list) ?? []),
        ...content.map((_, n) => ({ source: part.source, index: n, from: part })),
      ]);
    }

  // What parts can do without: known only now that all is in its place.
  const given = givenBy(plain);
  for (const { part, source: at } of uses.keys()) {
    const file = part && parts.get(part.part);
    if (!part || !file) continue;
    for (const list of carried)
      plain[list] &&= itemsOf(plain, list).map((item, n) =>
        origins.get(list)?.[n]?.from === file ? without(item, part, given) : item,
      );
    const added = standIns(part, given);
    if (!added.length) continue;
    origins.set('facts', [
      ...(origins.get('facts') ?? []),
      ...added.map(({ need }) => ({ source: at, index: need, from: file, list: 'needs' as const })),
    ]);
    plain.facts = [...itemsOf(plain, 'facts'), ...added.map((a) => a.fact)];
    for (const { fact } of added) given.keys.add(String(fact.key));
  }

  const usersOf = (part: PartFile): string[] => {
    const line = uses.get(part);
    return line ? [`${source.file}:${source.spot(line).line}`] : [];
  };
  // What is wrong with a part by itself is said once, as it was found there.
  const silent = new Set([...uses.keys()].filter((part) => !part.part));
  for (const part of silent) problems.push(...part.problems.map((x) => ({ ...x, usedBy: usersOf(part) })));

  /** Where a path of the whole stands. */
  const locate = (path: Path): { at: SourceText; path: Path; from?: PartFile } => {
    const [list, n, ...rest] = path;
    const origin = typeof n === 'number' ? origins.get(list as List)?.[n] : undefined;
    if (!origin) return { at: source, path };
    return {
      at: origin.source,
      path: [origin.list ?? String(list), origin.index, ...rest],
      ...(origin.from ? { from: origin.from } : {}),
    };
  };
  const complain: Complain = (code, path, message, cure, offset, first) => {
    const { at, path: there, from } = locate(path);
    if (from && silent.has(from)) return;
    const other = first && locate(first);
    const also =
      other && other.at !== at ? ` It stands in ${other.at.file}:${other.at.spot(other.path).line} too.` : '';
    problems.push({
      file: at.file,
      ...at.spot(there, offset),
      code,
      message: message + also,
      cure,
      ...(from ? { usedBy: usersOf(from) } : {}),
    });
  };
  return { plain, complain, uses, silent };
}

/** Parts as the procedure has them, in the order of their lines. */
export const usedParts = (uses: Expanded['uses']): UsedPart[] =>
  [...uses.keys()].flatMap(({ part }) =>
    part ? [{ part: part.part, version: part.version, steps: (part.steps ?? []).map((s) => s.id) }] : [],
  );
