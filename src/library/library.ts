/** The procedures and tables that this program works with: shipped ones, and a shop's own over them. */
import type { Table, Tables } from '../calc/types.js';
import type { UsedPart } from '../procedure/parts.js';
import type { Procedure } from '../procedure/schema.js';
import type { Trees } from '../procedure/tree.js';
import type { Rotor } from '../training/rotor-file.js';

export interface LibraryProcedure {
  readonly procedure: Procedure;
  /** Hash of procedure and tables together: what a job was done by. */
  readonly hash: string;
  readonly shop: boolean;
  readonly file: string;
  /** Parts that it names; they stand in it expanded. */
  readonly parts?: readonly UsedPart[];
}

/** As compiled at build time. */
export interface Shipped {
  readonly tables: readonly Table[];
  readonly procedures: readonly LibraryProcedure[];
}

export interface Library {
  readonly tables: Tables;
  readonly procedures: ReadonlyMap<string, LibraryProcedure>;
  /** Practice rotors by id. */
  readonly rotors: ReadonlyMap<string, Rotor>;
  /** Expressions as the build read them, by their text: they need not be read again. */
  readonly trees?: Trees;
}

export const tablesOf = (list: readonly Table[]): Tables => Object.fromEntries(list.map((t) => [t.id, t]));
