/** What a command prints and how it ends. */
export interface Ended {
  readonly out?: string;
  readonly err?: string;
  readonly code: number;
}
