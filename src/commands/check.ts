/** `rotorside check`: every mistake of procedure and table files, with its place and cure. */
import { statSync } from 'node:fs';
import { dirname } from 'node:path';
import { calculators } from '../calc/index.js';
import { replaySchema } from '../engine/replay/replay-file.js';
import { type Library, tablesOf } from '../library/library.js';
import { openLibrary } from '../library/open-library.js';
import { openParts, partsFor } from '../library/open-parts.js';
import { readFolder, tablesBeside, textsBeside } from '../library/read-folder.js';
import { readRotors } from '../library/read-rotors.js';
import { readText } from '../library/read-text.js';
import type { Surroundings } from '../procedure/check.js';
import { loadPart } from '../procedure/check-part.js';
import { readDocument } from '../procedure/document.js';
import { loadProcedure, loadTable } from '../procedure/load.js';
import { keysOf, modelOf } from '../procedure/model.js';
import { asFacts, asNeeds } from '../procedure/paste-needs.js';
import { type Problem, said, showProblem } from '../procedure/problem.js';
import type { Need, Procedure } from '../procedure/schema.js';
import { safeText } from '../text/safe-text.js';
import { loadRotors } from '../training/load-rotor.js';
import type { Options } from './arguments.js';
import { checkTheWords } from './check-words.js';
import type { Ended } from './ended.js';

const isFolder = (path: string): boolean => {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
};

/** Exit code 0 without mistakes, 1 with some, 2 when a file can't be read. */
export async function check(o: Options): Promise<Ended> {
  if (o.words) return checkTheWords(o);
  const { library, problems: shop } = await openLibrary(o.procedures);
  const known = [...library.procedures.values()].map((p) => p.procedure);
  const tables = Object.values(library.tables);
  if (o.rest.length === 0) {
    // The shipped ones were checked when the program was built; a shop's were read just now.
    const own = [...library.procedures.values()].filter((p) => p.shop).length;
    const what = o.procedures
      ? `${own} of the shop's own and ${known.length - own} shipped`
      : `${known.length} shipped`;
    const also = `${tables.length} tables and ${library.rotors.size} practice rotors`;
    return told(shop, `${what} procedures, ${also} checked, no mistakes.`, o.json);
  }
  const problems: Problem[] = [...shop];
  const paste: string[] = [];
  let files = 0;
  for (const file of o.rest) {
    if (isFolder(file)) {
      const under = { tables, procedures: [...library.procedures.values()], parts: openParts(o.procedures) };
      const content = readFolder(file, under);
      files += content.procedures.length + content.parts.length + (content.tables.length - tables.length);
      const procedures = new Map(library.procedures);
      for (const p of content.procedures) procedures.set(p.procedure.procedure, p);
      const practice = readRotors(file, { procedures, tables: tablesOf(content.tables) }, [...library.rotors.values()]);
      files += practice.rotors.length;
      problems.push(...content.problems, ...practice.problems);
      continue;
    }
    const read = readText(file);
    if ('problem' in read) return { err: safeText(read.problem), code: 2 };
    files += 1;
    const kind = /^(table|replay|rotor|part)\s*:/m.exec(read.text)?.[1];
    const folder = kind === 'part' ? dirname(dirname(file)) : dirname(file);
    const around = { tables: tablesBeside(folder, library.tables), calculators };
    const loaded: { readonly problems: readonly Problem[]; readonly missing?: readonly Need[] } =
      kind === 'table'
        ? loadTable(read.text, file)
        : kind === 'replay'
          ? readDocument(read.text, file, replaySchema)
          : kind === 'rotor'
            ? checkRotor(file, read.text, library)
            : kind === 'part'
              ? loadPart(read.text, file, around)
              : loadProcedure(read.text, file, { ...around, known, parts: partsFor(file, around, o.procedures) });
    problems.push(...loaded.problems);
    if (loaded.missing?.length)
      paste.push(
        ...toPaste(loaded.missing, kind === 'part', [
          ...[...library.procedures.values()].map((p) => p.procedure),
          ...(kind === 'part' ? procedures(folder, around, o.procedures) : []),
        ]),
      );
  }
  return told(said(problems), files === 1 ? 'No mistakes.' : `${files} files checked, no mistakes.`, o.json, paste);
}

/** Procedures beside a part as far as they can be read: they know what its values are, though they lack the part. */
function procedures(folder: string, around: Surroundings, shop: string | undefined): Procedure[] {
  return [folder, ...(shop ? [shop] : [])].flatMap((f) =>
    textsBeside(f).flatMap(({ text, file }) => {
      const { guess } = loadProcedure(text, file, { ...around, parts: partsFor(file, around, shop) });
      return guess ?? [];
    }),
  );
}

/** What is missing for a part, as it could be written. */
function toPaste(missing: readonly Need[], part: boolean, known: readonly Procedure[]): string[] {
  if (!part) {
    const facts = asFacts(missing);
    return facts.length
      ? ['', 'To paste under “facts:”, each with what is true here in “is” - or ask it under this key:', ...facts]
      : [];
  }
  const keys = new Map(known.flatMap((p) => keysOf(p, calculators).map((k) => [k.key, k] as const)));
  return ['', 'To paste under “needs:”:', ...asNeeds(missing, keys)];
}

/** A rotor by itself: those that it names are looked for among the ones that are here. */
function checkRotor(file: string, text: string, library: Library): { readonly problems: readonly Problem[] } {
  const models = new Map(
    [...library.procedures].map(([id, p]) => [id, modelOf(p.procedure, p.hash, library.tables, calculators, p.shop)]),
  );
  return loadRotors([{ file, text }], models, [...library.rotors.values()]);
}

/** As JSON each mistake has its code, which stays when the sentence is reworded. */
function told(problems: readonly Problem[], fine: string, json: boolean, paste: readonly string[] = []): Ended {
  if (json) return { out: JSON.stringify(problems, null, 2), code: problems.length ? 1 : 0 };
  if (problems.length === 0) return { out: fine, code: 0 };
  const count = problems.length === 1 ? '1 mistake.' : `${problems.length} mistakes.`;
  return { err: [...problems.map(showProblem), count, ...paste].join('\n'), code: 1 };
}
