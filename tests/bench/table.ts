/** What was measured, and the table of it. */
import type { Spent } from './measure.js';

export interface Row {
  readonly what: string;
  readonly unit: 'ms' | 'MB';
  /** Median, and the value that 99 in 100 stay below; the largest where there are fewer than 100. */
  readonly p50: number;
  readonly p99: number;
  /** Median of the processor time, where it was taken. */
  readonly cpu?: number | undefined;
  /** The row that it is compared with. */
  readonly against?: string | undefined;
  readonly ratio?: number | undefined;
  readonly cpuRatio?: number | undefined;
  readonly goal?: Goal | undefined;
}

/** Largest ratio, or largest value at p50 or p99. */
export interface Goal {
  readonly of: 'ratio' | 'p50' | 'p99';
  readonly most: number;
}

const quantile = (values: readonly number[], q: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? Number.NaN;
};
const median = (values: readonly number[]): number => quantile(values, 0.5);

/** Median of the ratios of runs that came in the same round: what slowed the machine down slowed both. */
function ratioOf(own: readonly number[], base: readonly number[] | undefined): number | undefined {
  if (!base?.length || own.length === 0) return undefined;
  if (own.length !== base.length) return median(own) / median(base);
  return median(own.map((x, i) => x / (base[i] ?? Number.NaN)));
}

interface Measured {
  readonly walls: readonly number[];
  readonly cpus: readonly number[];
}

/** The rows so far, to which each new one may be compared. */
export class Results {
  readonly rows: Row[] = [];
  private readonly all = new Map<string, Measured>();

  add(what: string, all: readonly (Spent | number)[], more: { against?: string; goal?: Goal; unit?: 'MB' } = {}): void {
    const base = this.all.get(more.against ?? '');
    const walls = all.map((s) => (typeof s === 'number' ? s : s.wall));
    const cpus = all.flatMap((s) => (typeof s === 'number' || Number.isNaN(s.cpu) ? [] : [s.cpu]));
    this.all.set(what, { walls, cpus });
    this.rows.push({
      what,
      unit: more.unit ?? 'ms',
      p50: median(walls),
      p99: quantile(walls, 0.99),
      cpu: cpus.length ? median(cpus) : undefined,
      against: more.against,
      ratio: ratioOf(walls, base?.walls),
      cpuRatio: ratioOf(cpus, base?.cpus),
      goal: more.goal,
    });
  }
}

function met({ goal, ratio, p50, p99 }: Row): string {
  if (!goal) return '';
  const value = { ratio, p50, p99 }[goal.of];
  return value === undefined ? '?' : value <= goal.most ? 'yes' : 'no';
}

const number = (x: number | undefined, unit = ''): string =>
  x === undefined || Number.isNaN(x) ? '' : `${x.toFixed(x < 10 ? 1 : 0)}${unit && ` ${unit}`}`;
const factor = (x: number | undefined): string => (x === undefined ? '' : x.toFixed(2));
const goalWords = ({ goal, unit }: Row): string =>
  goal ? `${goal.of === 'ratio' ? '' : `${goal.of} `}≤ ${goal.most}${goal.of === 'ratio' ? ' x' : ` ${unit}`}` : '';

/** The table as Markdown. */
export function show(rows: readonly Row[], runs: number): string {
  const head = ['what', 'p50', 'p99', 'CPU', 'x', 'x CPU', 'of', 'goal', 'met'];
  const lines = rows.map((r) => [
    r.what,
    number(r.p50, r.unit),
    number(r.p99),
    number(r.cpu),
    factor(r.ratio),
    factor(r.cpuRatio),
    r.against ?? '',
    goalWords(r),
    met(r),
  ]);
  const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [
    `${runs} runs each, in turn, node ${process.version}. p50 and p99 by the clock; CPU is the median of all threads' processor time; x is the median ratio to a run of the same round.`,
    '',
    row(head),
    row(head.map(() => '---')),
    ...lines.map(row),
  ].join('\n');
}
