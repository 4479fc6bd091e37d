/** What a command prints and how it ends. */
// @ts-nocheck

export interface Ended {
  readonly out?: string;
  readonly err?: string;
  readonly code: number;
}
