/**
 * Every figure's source, gathered by how far it can be trusted: what is published, what is usual, and what nobody else
 * said. Tables, the calculators' own formulas and the figures of procedures alike.
 */
import type { Calculator, Source, SourceTag, Table, TableRow } from '../calc/types.js';
import type { Procedure } from '../procedure/schema.js';

/** One source and what stands on it. */
interface Cited {
  readonly source: string;
  readonly rows: readonly string[];
}
interface Group {
  readonly title: string;
  readonly cited: readonly Cited[];
}
export interface SourcesOf {
  readonly tag: SourceTag;
  /** What the tag means, in a few words. */
  readonly means: string;
  readonly count: number;
  readonly groups: readonly Group[];
}

export const tags: readonly SourceTag[] = ['P', 'M', 'CP', 'A', 'shop'];
const means: Readonly<Record<SourceTag, string>> = {
  P: 'published: document, edition and place are named',
  M: 'usual, but from memory or from a document that is not named: verify',
  CP: "common practice or this guide's own caution: no source",
  A: 'arithmetic: nothing to look up',
  shop: "the shop's own",
};

interface One {
  readonly title: string;
  readonly row: string;
  readonly source: Source;
}

/** A row as one line: its id and what stands in it. */
function rowWords(row: TableRow): string {
  const { id, tag: _tag, source: _source, ...values } = row;
  const said = Object.entries(values)
    .filter(([, v]) => v !== null && v !== id)
    .map(([k, v]) => `${k.replace(/_/g, ' ')} ${String(v)}`);
  return said.length === 0 ? id : `${id}: ${said.join(', ')}`;
}

export function sourcesOf(
  tables: readonly Table[],
  calculators: readonly Calculator[],
  procedures: readonly Procedure[],
): readonly SourcesOf[] {
  const all: One[] = [
    ...tables.flatMap((t) =>
      t.rows.map((row) => ({
        title: t.title ?? t.id,
        row: rowWords(row),
        source: { tag: row.tag, text: row.source },
      })),
    ),
    ...calculators.flatMap((c) =>
      [c.source, ...Object.values(c.constants ?? {})].map((source) => ({
        title: 'Calculators',
        row: `${c.name}: ${c.title}`,
        source,
      })),
    ),
    ...procedures.flatMap((p) =>
      (p.facts ?? []).flatMap((f) =>
        'source' in f && f.source ? [{ title: `Figures of “${p.title}”`, row: f.label, source: f.source }] : [],
      ),
    ),
  ];
  return tags.map((tag) => {
    const mine = all.filter((o) => o.source.tag === tag);
    const titles = [...new Set(mine.map((o) => o.title))];
    return {
      tag,
      means: means[tag],
      count: mine.length,
      groups: titles.map((title) => {
        const here = mine.filter((o) => o.title === title);
        const texts = [...new Set(here.map((o) => o.source.text))];
        return {
          title,
          cited: texts.map((text) => ({
            source: text,
            rows: here.filter((o) => o.source.text === text).map((o) => o.row),
          })),
        };
      }),
    };
  });
}

/** How many stand on each tag, a line each. */
export const summaryLines = (found: readonly SourcesOf[]): readonly string[] =>
  found.filter((s) => s.count > 0).map((s) => `${s.tag.padEnd(5)}${String(s.count).padStart(4)}  ${s.means}`);

/** All of one tag, as plain lines. */
export function tagLines(found: SourcesOf): readonly string[] {
  if (found.count === 0) return ['none'];
  return found.groups.flatMap((g) => [
    g.title,
    ...g.cited.flatMap((c) => [`  ${c.source}`, ...c.rows.map((r) => `    ${r}`)]),
    '',
  ]);
}
