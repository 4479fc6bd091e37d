import { type Scored, score } from './score.js';

const [sim, from, n, only] = [
  process.argv[2] as 'first',
  Number(process.argv[3]),
  Number(process.argv[4]),
  process.argv[5],
];
const all: Record<'old' | 'new', Scored[]> = { old: [], new: [] };
const t0 = Date.now();
for (let s = from; s < from + n; s++) {
  const a = score(sim, s, 'new');
  all.new.push(a);
  if (only === 'both') all.old.push(score(sim, s, 'old', a.best));
}
const med = (x: number[]) => x.sort((a, b) => a - b)[Math.floor(x.length / 2)] ?? NaN;
for (const g of ['old', 'new'] as const) {
  const A = all[g];
  if (!A.length) continue;
  const kinds = ['healthy', 'spiky', 'hard spike', 'borderline', 'bad'] as const;
  for (const k of kinds) {
    const K = A.filter((x) => x.kind === k);
    const r = K.filter((x) => x.best.minutes && x.ended.how === 'accepted').map(
      (x) => x.ended.minutes / x.best.minutes!,
    );
    console.log(
      g,
      k,
      K.length,
      'acc',
      K.filter((x) => x.ended.how === 'accepted').length,
      'badacc',
      K.filter((x) => x.ended.how === 'accepted' && x.ended.later > 70).length,
      'rej',
      K.filter((x) => x.ended.how === 'rejected').length,
      'never',
      K.filter((x) => x.ended.how === 'never').length,
      'sentback',
      K.filter((x) => x.ended.sentBack > 0).length,
      '>75',
      K.filter((x) => x.ended.hottest > 75).length,
      'maxT',
      Math.max(...K.map((x) => x.ended.hottest)).toFixed(1),
      'ratio',
      med(r).toFixed(2),
      'readings',
      med(K.map((x) => x.ended.readings)),
      'best',
      med(K.map((x) => x.best.minutes ?? NaN)),
      'got',
      med(K.map((x) => x.ended.minutes)),
    );
  }
}
if (n === 1)
  for (const r of all.new[0]!.ended.rows)
    console.log(r.minutes, r.stage, r.temps.join(' '), (r as { why?: string }).why);
const rates = all.new
  .filter((x) => x.ended.how === 'accepted')
  .map((x) => x.ended.rateThen)
  .sort((a, b) => a - b);
console.log(
  'true K/h at acceptance: median',
  med(rates),
  '90 %',
  rates[Math.floor(rates.length * 0.9)],
  'max',
  rates.at(-1),
);
for (const due of [true, false])
  for (const [lo, hi] of [
    [1, 5],
    [5, 10],
    [10, 15],
  ] as [number, number][]) {
    const K = all.new.filter(
      (x) =>
        x.kind === 'healthy' &&
        x.case.habit.asDue === due &&
        x.case.habit.every >= lo &&
        x.case.habit.every < hi &&
        x.ended.how === 'accepted',
    );
    const top = (x: Scored) => x.ended.rows.find((r) => r.stage === 10)!.minutes;
    console.log(
      due ? 'due' : 'own',
      lo,
      hi,
      K.length,
      'ratio',
      med(K.map((x) => x.ended.minutes / x.best.minutes!)).toFixed(2),
      'to top',
      med(K.map(top)).toFixed(0),
      'at top',
      med(K.map((x) => x.ended.minutes - top(x))).toFixed(0),
      'best at top',
      med(K.map((x) => x.best.minutes! - 135)).toFixed(0),
    );
  }
for (const x of all.new) {
  const bad =
    (x.ended.how === 'accepted' && x.ended.later > 70) ||
    x.ended.hottest > 75 ||
    ((x.kind === 'healthy' || x.kind === 'spiky') && (x.ended.how !== 'accepted' || x.ended.sentBack > 0));
  if (bad)
    console.log(
      x.case.seed,
      x.kind,
      x.case.fault,
      'every',
      x.case.habit.every.toFixed(1),
      x.case.habit.asDue ? 'due' : 'own',
      'slow',
      x.case.slow.toFixed(0),
      'end',
      x.best.end.toFixed(1),
      'spike',
      x.best.spike.toFixed(1),
      'peak',
      x.best.hottest.toFixed(1),
      '->',
      x.ended.how,
      x.ended.minutes.toFixed(0),
      'hottest',
      x.ended.hottest.toFixed(1),
      'later',
      x.ended.later.toFixed(1),
      'back',
      x.ended.sentBack,
      (x.ended.last as { why?: string }).why ?? '',
      JSON.stringify(x.ended.rows.at(-1)),
    );
}
console.log((Date.now() - t0) / 1000, 's');
