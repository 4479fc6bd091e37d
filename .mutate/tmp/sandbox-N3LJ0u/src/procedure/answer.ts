/** A plain recorded value in canonical units (src/units/kinds.ts). */
// @ts-nocheck

export type Answer = number | string | boolean | readonly number[] | readonly string[] | readonly boolean[];
