/** The table rows that an expression reads, as sources. */
import type { Source } from '../calc/types.js';
import type { State } from '../engine/state.js';
import { type CelNode, isNode, walk } from '../procedure/expression.js';

export interface TableRead extends Source {
  readonly table: string;
}

/** Rows looked up with number_in and text_in at a place; a branch of the rule that was not taken is left out. */
export function tableRowsOf(state: State, text: string, place: string): TableRead[] {
  const out: TableRead[] = [];
  const parsed = state.model.environment.parse(text) as unknown as { ast: unknown };
  const taken = (n: unknown): unknown => {
    if (!isNode(n) || n.op !== '?:' || !Array.isArray(n.args)) return n;
    const [condition, yes, no] = n.args as [CelNode, CelNode, CelNode];
    const holds = state.values.holds(text.slice(condition.start, condition.end), place);
    return holds === undefined ? n : taken(holds ? yes : no);
  };
  walk(taken(parsed.ast), (n) => {
    if (n.op !== 'call' || !Array.isArray(n.args)) return;
    const [name, args] = n.args as [unknown, unknown];
    if ((name !== 'number_in' && name !== 'text_in') || !Array.isArray(args)) return;
    const [table, row] = args as CelNode[];
    if (!table || !row || typeof table.args !== 'string') return;
    const id = state.values.evaluate(text.slice(row.start, row.end), place);
    const hit = id.known ? state.model.tables[table.args]?.rows.find((r) => r.id === id.value) : undefined;
    if (hit) out.push({ table: table.args, tag: hit.tag, text: hit.source });
  });
  return out;
}
