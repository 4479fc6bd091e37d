/** What a value of unknown shape is. Every room may know this one. */

/** Array.isArray, which also narrows lists that are only read. */
export const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);

/** An object that is no list. */
export const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The system's name of a fault, such as ENOENT. */
export const codeOf = (fault: unknown): string | undefined =>
  isRecord(fault) && typeof fault.code === 'string' ? fault.code : undefined;

export const isOneOf = <const T extends string>(words: readonly T[], value: unknown): value is T =>
  words.some((word) => word === value);
