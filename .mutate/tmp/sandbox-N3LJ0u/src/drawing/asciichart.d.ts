/** Types of the part of asciichart that is used. */
// @ts-nocheck

declare module 'asciichart' {
  interface PlotConfig {
    /** Rows less one. */
    height?: number;
    min?: number;
    max?: number;
    /** Columns left of the curve, for the scale. */
    offset?: number;
    format?: (value: number, index: number) => string;
    symbols?: readonly string[];
  }
  const asciichart: { plot(series: readonly number[], config?: PlotConfig): string };
  export default asciichart;
}
