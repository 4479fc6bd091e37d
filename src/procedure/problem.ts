/** A mistake in a procedure or table file: where it is, what is wrong, how to mend it. */
export interface Problem {
  readonly file: string;
  /** 1-based; 1 when the whole file is meant. */
  readonly line: number;
  readonly column: number;
  readonly message: string;
  readonly cure: string;
}

export const showProblem = (p: Problem): string => `${p.file}:${p.line}:${p.column}: ${p.message} ${p.cure}`;

export type Path = readonly (string | number)[];
/** Reports a mistake at a path of the document, `offset` characters into that value. */
export type Complain = (path: Path, message: string, cure: string, offset?: number) => void;
