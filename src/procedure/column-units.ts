/** Units of table columns: numbers of a table are worked with as they stand, so they stand in the canonical unit. */
import type { Tables } from '../calc/types.js';
import { canonicalUnit, type QuantityKind } from '../units/kinds.js';
import { findUnit, kindsOfUnit } from '../units/unit-names.js';
import { callOf, walk } from './expression.js';
import { type Complain, type Path, quoted } from './problem.js';

const isCanonical = (unit: string, kind: QuantityKind): boolean => {
  const found = findUnit(unit, kind);
  return found !== undefined && found.to(1) === 1 && found.to(0) === 0;
};

export const unitOf = (tables: Tables, table: string, column: string): string | undefined =>
  Object.hasOwn(tables, table) ? tables[table]?.units?.[column] : undefined;

/** The kind of a column, where its unit leaves no choice. */
export function kindOfUnit(unit: string): QuantityKind | undefined {
  const [kind, ...more] = kindsOfUnit(unit);
  return kind && more.length === 0 && isCanonical(unit, kind) ? kind : undefined;
}

/** The unit in which such a column has to stand instead; undefined where it is right, or where nobody can tell. */
function shouldBe(unit: string, wanted: QuantityKind | undefined): string | undefined {
  const kinds = wanted === undefined ? kindsOfUnit(unit) : findUnit(unit, wanted) ? [wanted] : [];
  const [first] = kinds;
  return first === undefined || kinds.some((k) => isCanonical(unit, k)) ? undefined : canonicalUnit[first];
}

/** Complains of each column that an expression reads in another unit than it is worked with in. */
export function checkColumns(
  ast: unknown,
  wanted: QuantityKind | undefined,
  path: Path,
  tables: Tables,
  complain: Complain,
): void {
  walk(ast, (n) => {
    const call = callOf(n);
    if (call?.name !== 'number_in') return;
    const [table = '', , column = ''] = call.given.map((x) => String(x.args));
    const unit = unitOf(tables, table, column);
    const right = unit && shouldBe(unit, wanted);
    if (right)
      complain(
        'unit-other',
        path,
        `The column “${quoted(column)}” of the table “${quoted(table)}” is in ${quoted(unit)}, but numbers are worked with in ${right}.`,
        `Write its figures in ${right}, and “unit: ${right}”.`,
        call.given[2]?.start,
      );
  });
}
