/** DrawingSize for a drawing in columns and lines. `ascii`: no character beyond ASCII. */
export interface DrawingSize {
  readonly width: number;
  readonly height: number;
  readonly ascii: boolean;
}
