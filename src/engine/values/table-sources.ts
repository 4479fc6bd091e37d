/** The table rows that an expression looks up, as sources. */
import type { Source } from '../../calc/types.js';
import { type CelNode, callOf, isNode, nodesOf, walk } from '../../procedure/expression.js';
import type { Values } from './values.js';

/** A table row that was read, with its source. */
export interface RowRead {
  readonly table: string;
  readonly row: string;
  readonly source: Source;
}

/** Rows read with number_in and text_in at a place; the side of a choice that was not taken is left out. */
export function rowsReadBy(values: Values, text: string, place: string): RowRead[] {
  if (!text.includes('_in(')) return [];
  const out: RowRead[] = [];
  const { ast } = values.model.environment.parse(text);
  const part = (n: CelNode): string => text.slice(n.start, n.end);
  const look = (n: CelNode): void => {
    const { name, given: [table, row] = [] } = callOf(n) ?? {};
    if (name !== 'number_in' && name !== 'text_in') return;
    if (!table || !row || typeof table.args !== 'string') return;
    const id = values.evaluate(part(row), place);
    const hit = id.known ? values.model.tables[table.args]?.rows.find((r) => r.id === id.value) : undefined;
    if (hit && !out.some((o) => o.table === table.args && o.row === hit.id))
      out.push({ table: table.args, row: hit.id, source: { tag: hit.tag, text: hit.source } });
  };
  const visit = (n: unknown): void => {
    if (Array.isArray(n)) for (const x of n) visit(x);
    if (!isNode(n)) return;
    const [condition, yes, no] = n.op === '?:' ? nodesOf(n) : [];
    if (condition) {
      walk(condition, look);
      const holds = values.holds(part(condition), place);
      if (holds !== false) visit(yes);
      if (holds !== true) visit(no);
      return;
    }
    look(n);
    visit(n.args);
  };
  visit(ast);
  return out;
}
