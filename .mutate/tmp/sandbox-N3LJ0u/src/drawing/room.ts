/** Room for a drawing in columns and lines. `ascii`: no character beyond ASCII. */
// @ts-nocheck

export interface Room {
  readonly width: number;
  readonly height: number;
  readonly ascii: boolean;
}
