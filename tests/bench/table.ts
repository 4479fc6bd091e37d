export interface Row {
  readonly what: string;
  readonly unit: string;
  readonly value: number;
  readonly against?: string | undefined;
  readonly ratio: number | undefined;
  readonly goal?: string | undefined;
}

export const quantile = (values: readonly number[], q: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? Number.NaN;
};
export const median = (values: readonly number[]): number => quantile(values, 0.5);

/** The table as Markdown. */
export function show(rows: readonly Row[], runs: number): string {
  const lines = rows.map(
    (r) =>
      `| ${r.what} | ${r.value.toFixed(r.value < 10 ? 2 : 0)} ${r.unit} | ${r.ratio ? r.ratio.toFixed(2) : ''} | ${r.against ?? ''} | ${r.goal ?? ''} |`,
  );
  return [
    `Medians of ${runs} runs, node ${process.version}.`,
    '',
    '| what | median | ratio | to | goal |',
    '|---|---|---|---|---|',
    ...lines,
  ].join('\n');
}
