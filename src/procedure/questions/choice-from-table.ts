/** One row of a table, or one of a few further choices. */
import type { Table, Tables } from '../../calc/types.js';
import type { Asked } from './base.js';
import { kindOfQuestion, type Option } from './kind.js';
import { printedSize } from './printed-size.js';
import { isPick, noPick, pick } from './reading.js';

export interface ChoiceFromTable extends Asked {
  kind: 'choice-from-table';
  table: string;
  show?: string | undefined;
  options?: Option[] | undefined;
  suffixes?: Option[] | undefined;
  printed?: string | undefined;
}

const made = new WeakMap<ChoiceFromTable, { readonly table: Table | undefined; readonly options: readonly Option[] }>();

function optionsOf(q: ChoiceFromTable, tables: Tables): readonly Option[] {
  const table = tables[q.table];
  const known = made.get(q);
  if (known && known.table === table) return known.options;
  const options = [
    ...(q.options ?? []),
    ...(table?.rows ?? []).map((r) => {
      const shown = q.show ? r[q.show] : undefined;
      const label = shown === undefined || shown === null ? r.id : `${r.id}  ${shown}`;
      return { value: r.id, label: r.tag === 'shop' ? `${label} (the shop’s own)` : label };
    }),
  ];
  made.set(q, { table, options });
  return options;
}

const rowsOf = (q: ChoiceFromTable, tables: Tables): string[] => (tables[q.table]?.rows ?? []).map((r) => r.id);

export const choiceFromTable = kindOfQuestion<ChoiceFromTable>({
  schema: ({ z, asked, option, id, key, words }) =>
    z.strictObject({
      ...asked,
      kind: z.literal('choice-from-table'),
      table: id,
      show: words.describe('column shown beside the row id').optional(),
      /** Further choices before the rows, such as "none of these". */
      options: z.array(option).optional(),
      suffixes: z
        .array(option)
        .optional()
        .describe('letters that may stand behind the row as it is printed, with what they mean; others are kept'),
      printed: key.describe('key of the list of those letters that were typed').optional(),
    }),
  type: 'string',
  control: 'row',
  read: (q, text, tables) => {
    const printed = q.suffixes && printedSize(text, rowsOf(q, tables), q.suffixes);
    return printed ? { ok: true, value: printed.row, typed: text.trim() } : pick(text, optionsOf(q, tables), q.label);
  },
  unfit: (q, value, tables) => (isPick(value, optionsOf(q, tables)) ? undefined : noPick),
  words: (q) => [...(q.options ?? []).map((o) => o.label), `a row of the table ${q.table}`].join(' / '),
  options: optionsOf,
  all: (q, tables) => optionsOf(q, tables).map((o) => o.value),
  tried: true,
  parts: (q) => (q.printed === undefined ? [] : [q.printed]),
  partType: 'list<string>',
  partWords: (q) => (q.suffixes ?? []).map((s) => s.value),
  partOf: (q, typed, tables) =>
    printedSize(typed, rowsOf(q, tables), q.suffixes ?? [])?.known.map((s) => s.value) ?? [],
  check: (q, { table, path }) => table(q.table, [...path, 'table'], q.show, [...path, 'show']),
});
