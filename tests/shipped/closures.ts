/** The good job with its first bearing closed in another way: what is not needed drops out, what comes in is added. */
import type { ReplayItem, StepItem } from '../../src/engine/replay/replay-file.js';
import { Job } from './good-job.js';

type Kind = 'none' | 'gap' | 'contact' | 'shield' | 'shield-ring';
const rubber = (kind: Kind): boolean => kind === 'gap' || kind === 'contact';

export interface Closure {
  readonly front: Kind;
  readonly back: Kind;
  readonly caps?: StepItem['answers'];
  /** Dose, and the syringe after the first bearing and after the second, g; else those of the good job. */
  readonly dosed?: readonly [dose: string, after: string, last: string];
}

export function closed({ front, back, caps, dosed }: Closure): Job {
  const job = new Job();
  for (const [side, kind] of [
    ['a.front', front],
    ['a.back', back],
  ] as const) {
    const step = job.step('seal-make', side);
    step.answers = { seal_kind: kind, ...(rubber(kind) ? { seal_rubber: 'nbr' } : {}) };
    if (kind === 'shield' && side === 'a.front') step.answers = { ...step.answers, shield_out: 'no' };
    if (kind === 'none' || kind === 'shield') {
      job.drop((x) => x.at === side && ['seal-log', 'seal-solvent', 'seal-clean', 'refit'].includes(x.step));
      const gone = side === 'a.front' ? ['open-front'] : ['open-back', 'refit-back'];
      job.drop((x) => x.at === 'a' && gone.includes(x.step));
    }
  }
  const off = (kind: Kind): boolean => kind !== 'none' && kind !== 'shield';
  if (!off(front) && !off(back)) job.drop((x) => x.at === 'a' && x.step === 'seals-seated');
  if (caps) {
    job.answer('caps', 'a', caps);
    job.after('dry', 'a', { step: 'caps-clean', at: 'a', answers: { caps_clean: 'clean' } });
    job.after('dose-check', 'b', { step: 'caps-fill', at: 'a' });
    if (caps.nipple === 'with-drain') job.before('guard-back', 'job', { step: 'nipple-tag', at: 'a' });
    if (caps.nipple === 'no-drain') job.before('guard-back', 'job', { step: 'nipple-plug', at: 'a' });
  }
  if (dosed) dose(job, dosed);
  if (front === 'shield' && back === 'shield') topUp(job);
  // Each doubt halves the hours: water inside, a cover that stays.
  return job.answer('next-inspection', 'job', { inspect_set: '100' });
}

function dose(job: Job, [volume, after, last]: NonNullable<Closure['dosed']>): void {
  job.answer('dose', 'a', { dose_set: volume }).answer('dose-check', 'a', { weigh_after: after });
  job.answer('weigh-first', 'b', { weigh_before: after }).answer('dose-check', 'b', { weigh_after: last });
}

/** Both covers stay: nothing is washed, looked at or proven, and a quarter of a dose goes in through the gap. */
function topUp(job: Job): void {
  const inside = [
    ...['count-open', 'prove-leads', 'prove-ring', 'probe-balls', 'magnet', 'residue-amount', 'bearing-solvent'],
    ...[
      'wash',
      'rinse-bearing',
      'dry',
      'white-cloth',
      'balls-count',
      'raceway-look',
      'second-verdict',
      'share',
      'gap-fill',
      'weigh-half',
      'race-fill',
    ],
  ];
  job.drop((x) => x.at === 'a' && [...inside, 'defect-tones'].includes(x.step));
  job.step('white-cloth', 'b').after = '40 min';
  // Nothing is proven of its balls, so it has to be fast enough with steel ones.
  job.answer('make', 'a', { open_limit: '18000' });
  const verdict = job.step('ball-verdict', 'a');
  verdict.answers = { ball_material: 'not-proven' };
  job.answer('residue-look', 'a', { residue_granules: 'no' });
  job.answer('grease-kind', 'job', { new_thickener: 'lithium' });
  job.before('grease-fit', 'a', { step: 'grease-same', at: 'a', answers: { same_product: 'no' } });
  const top: ReplayItem = {
    step: 'top-up',
    at: 'a',
    after: '10 min',
    answers: { needle_goes: 'goes', quarters: '4' },
  };
  job.step('weigh-first', 'a').answers = { weigh_before_top: '14.10 g' };
  job.before('dose-check', 'a', top);
  // 0.69 mL x 0.90 g/mL = 0.62 g; then 1.25 g into the other one.
  dose(job, ['0.69 mL', '13.48 g', '12.23 g']);
}
