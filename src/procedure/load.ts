/** Procedure and table texts to what the engine uses, or to a list of mistakes. Pure: texts in, no file read. */
import { lacksOfSource } from '../calc/published.js';
import { untested } from '../calc/table.js';
import type { Calculator, Table, Tables } from '../calc/types.js';
import { kindsOfUnit } from '../units/unit-names.js';
import { checkProcedure } from './check.js';
import { checkFollows } from './check-follows.js';
import { checkFigures, checkNeeds } from './check-needs.js';
import { complainOf, parsePlain, readDocument, readSource } from './document.js';
import { near } from './near.js';
import { expand, type Parts, type UsedPart, usedParts } from './parts.js';
import { type Complain, listed, type Path, type Problem, quoted } from './problem.js';
import { type Need, type Procedure, procedureSchema, type TableFile, tableSchema } from './schema.js';

export interface LoadedProcedure {
  readonly procedure: Procedure | undefined;
  /** What can be made of it in spite of mistakes. */
  readonly guess?: Procedure | undefined;
  readonly problems: readonly Problem[];
  /** In the order in which the procedure names them. */
  readonly parts: readonly UsedPart[];
  /** What its parts need and nothing here gives. */
  readonly missing: readonly Need[];
}

/** What lies around a procedure when it is read. */
export interface Around {
  readonly tables: Tables;
  readonly calculators: Readonly<Record<string, Calculator>>;
  /** Others that it may follow; when left out, what it follows is not looked at. */
  readonly known?: readonly Procedure[];
  readonly parts?: Parts;
}

const sameRow = (a: object, b: object): boolean =>
  JSON.stringify(Object.entries(a).sort()) === JSON.stringify(Object.entries(b).sort());

/**
 * `under`: given for a file of a shop's own folder, with the tables that its rows are laid over. Such rows may claim no
 * other evidence than the shop's, and replace a shipped row only after a test.
 */
export function loadTable(
  text: string,
  file: string,
  under?: ReadonlyMap<string, Table>,
): { table: Table | undefined; problems: readonly Problem[] } {
  const read = readDocument(text, file, tableSchema);
  const t = read.guess;
  if (!t) return { table: undefined, problems: read.problems };
  const columns = Object.keys(t.columns);
  checkUnits(t, under?.get(t.table), read.complain);
  const seen = new Set<string>();
  t.rows.forEach((row, i) => {
    if (seen.has(row.id))
      read.complain(
        'name-twice',
        ['rows', i, 'id'],
        `The row “${quoted(row.id)}” stands here a second time.`,
        'Give it an id of its own.',
      );
    seen.add(row.id);
    const missing = under ? [] : lacksOfSource({ tag: row.tag, text: row.source });
    if (missing.length > 0)
      read.complain(
        'source-incomplete',
        ['rows', i, 'source'],
        `The source of the row “${quoted(row.id)}” is tagged P but does not name ${missing.join(', nor ')}.`,
        'Name document, edition and place, or tag it M (from memory) or CP (common practice).',
      );
    const shipped = under?.get(t.table)?.rows.find((r) => r.id === row.id);
    // A row that is copied as it is is still the shipped one.
    if (under && shipped && sameRow(shipped, row)) return;
    if (under && row.tag !== 'shop')
      read.complain(
        'row-tag',
        ['rows', i, 'tag'],
        `The row “${quoted(row.id)}” of the shop's own folder is tagged “${row.tag}”.`,
        'Write “tag: shop”.',
      );
    else if (shipped && shipped.tag !== 'shop' && untested(row))
      read.complain(
        'row-untested',
        ['rows', i, 'source'],
        `The row “${quoted(row.id)}” replaces a shipped one without a test.`,
        'Test it, then begin its source with “tested”, “measured” or “weighed”, the date and how - or take the row out.',
      );
    for (const [column, value] of Object.entries(row)) {
      if (['id', 'tag', 'source'].includes(column)) continue;
      const spec = Object.hasOwn(t.columns, column) ? t.columns[column] : undefined;
      if (!spec)
        read.complain(
          'column-unknown',
          ['rows', i, column],
          `The row has a value for “${quoted(column)}”, which is no column of the table.`,
          near(column, columns) || `Its columns are: ${listed(columns)}.`,
          -1,
        );
      else if (spec.type === 'number' && value !== null && typeof value !== 'number')
        read.complain(
          'number-needed',
          ['rows', i, column],
          `“${quoted(column)}” should be a number.`,
          'Write it with a point and no unit.',
        );
    }
  });
  const problems = inOrder(read.problems);
  const units = Object.fromEntries(Object.entries(t.columns).flatMap(([c, { unit }]) => (unit ? [[c, unit]] : [])));
  const rows = t.rows as Table['rows'];
  return { table: read.value && { id: t.table, title: t.title, units, rows }, problems };
}

/** Units that no question measures and only calculators read. */
const forCalculators = ['g/mol', 'mmHg'];

/** A unit that nobody knows is no unit; in a shop's rows over shipped ones the shipped unit stays. */
function checkUnits(t: TableFile, beneath: Table | undefined, complain: Complain): void {
  for (const [column, { type, unit }] of Object.entries(t.columns)) {
    const path: Path = ['columns', column, 'unit'];
    const shipped = beneath?.units?.[column];
    if (shipped !== undefined && unit !== undefined && unit !== shipped)
      complain(
        'unit-other',
        path,
        `The column “${quoted(column)}” of the shipped table is in ${shipped}, not in ${quoted(unit)}.`,
        `Write its figures in ${shipped}, and “unit: ${shipped}”.`,
      );
    else if (
      type === 'number' &&
      unit &&
      unit !== shipped &&
      !forCalculators.includes(unit) &&
      kindsOfUnit(unit).length === 0
    )
      complain(
        'unit-unknown',
        path,
        `“${quoted(unit)}” is no unit that is known here.`,
        'Use one such as mm, mL, g, degC, N·m or min, or take “unit” out.',
      );
  }
}

export function loadProcedure(text: string, file: string, around: Around): LoadedProcedure {
  const other = otherFile(text, file);
  if (other) return { procedure: undefined, problems: [other], parts: [], missing: [] };
  const { source, problems } = readSource(text, file);
  if (!source) return { procedure: undefined, problems, parts: [], missing: [] };
  const expanded = expand(source, around.parts ?? new Map(), problems);
  const { complain } = expanded;
  const { value, guess } = parsePlain(expanded.plain, procedureSchema, complain);
  const missing: Need[] = [];
  if (guess) {
    missing.push(...checkNeeds(guess, expanded, around, complainOf(source, problems)));
    checkProcedure(guess, around, complain);
    checkFigures(guess, around, complain);
    if (around.known) checkFollows(guess, around.known, around.calculators, complain);
  }
  const told = inOrder(problems);
  return {
    procedure: told.length ? undefined : value,
    guess,
    problems: told,
    parts: usedParts(expanded.uses),
    missing,
  };
}

/** A file of another kind is told in one sentence, not by all that it lacks. */
function otherFile(text: string, file: string): Problem | undefined {
  const kind = /^(replay|table|rotor|part)\s*:/m.exec(text)?.[1];
  const words: Record<string, [string, string]> = {
    replay: ['This is a file of readings, not a procedure.', 'Run it with rotorside replay.'],
    table: ['This is a table, not a procedure.', 'Put it into the folder “tables”.'],
    part: ['This is a part, not a procedure.', 'Put it into the folder “parts”.'],
    rotor: ['This is a practice rotor, not a procedure.', 'Put it into the folder “practice”.'],
  };
  const said = kind === undefined ? undefined : words[kind];
  return said && { file, line: 1, column: 1, code: 'file-of-another-kind', message: said[0], cure: said[1] };
}

/** By place, each said once. */
function inOrder(problems: readonly Problem[]): Problem[] {
  const seen = new Set<string>();
  return [...problems]
    .sort(
      (a, b) =>
        Number(!!a.usedBy) - Number(!!b.usedBy) ||
        (a.file < b.file ? -1 : a.file > b.file ? 1 : 0) ||
        a.line - b.line ||
        a.column - b.column,
    )
    .filter((p) => {
      const id = `${p.file}:${p.line}:${p.column}:${p.message}`;
      return !seen.has(id) && seen.add(id);
    });
}
