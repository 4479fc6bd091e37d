/** A job left at one person and gone on with by another, or the next day: nobody lays a hand on it by what was proven before. */
import { describe, expect, it } from 'vitest';
import type { ReplayItem, StepItem } from '../../src/engine/replay/replay-file.js';
import { finished, inspectionJob, Job, refused } from './good-job.js';

const ownLock = (answers: StepItem['answers'] = {}): ReplayItem => ({
  step: 'own-lock',
  answers: { own_lock: 'hangs', dead_today: 'proven', ...answers },
});
const comeNear = (comes_near = 'comes'): ReplayItem => ({ step: 'come-near', answers: { comes_near } });
/** The good job in its machine: locked out, proven dead, its magnets inside the stator. It goes on the next day with the wash. */
const inMachine = (): Job => {
  const job = new Job()
    .answer('isolate', 'job', { isolated: 'locked' })
    .answer('magnets', 'job', { in_stator: 'yes', magnets_found: 'found' })
    .drop((x) => x.step === 'hold-rotor' || x.step === 'machine-dead')
    .after('isolate', 'job', { step: 'prove-dead', answers: { dead: 'proven' } })
    .after(
      'magnets',
      'job',
      { step: 'part-leads', answers: { leads_apart: 'yes' } },
      { step: 'open-machine', answers: { rings_cool: 'yes' } },
    )
    .before('wash', 'a', { ...ownLock(), after: '22 h' } as ReplayItem);
  delete job.step('wash', 'a').after;
  return job;
};
/** From the washing of the first bearing on by another person. */
const goneOn = (job: Job, by: string, ...first: ReplayItem[]): Job => {
  const items = first.map((x, i) => (i === 0 ? { ...x, by } : x)) as ReplayItem[];
  job.before('wash', 'a', ...items);
  if (items.length === 0) job.step('wash', 'a').by = by;
  return job;
};

describe('another person', () => {
  it('does not wash before an own lock hangs, zero is proven today and the magnets are known', () => {
    expect(finished(inMachine().run())).toBe(true);
    expect(refused(goneOn(inMachine(), 'BX').run())).toMatch(
      /is not next: “Your own lock, no voltage today” comes first/,
    );
    expect(refused(goneOn(inMachine(), 'BX', ownLock()).run())).toMatch(/“Who comes near the magnets” comes first/);
    expect(finished(goneOn(inMachine(), 'BX', ownLock(), comeNear()).run())).toBe(true);
  });
  it.each([
    [[ownLock({ own_lock: 'not-yet', dead_today: 'proven' })], /before your own lock hangs.*can’t be overruled/],
    [[ownLock({ dead_today: 'zero-only' })], /not proven dead today.*can’t be overruled/],
    [[ownLock({ dead_today: 'one-kind' })], /not proven dead today.*can’t be overruled/],
    [[ownLock({ dead_today: 'live' })], /Voltage found: step back.*can’t be overruled/],
    [[ownLock(), comeNear('stays-away')], /another person works on this rotor.*can’t be overruled/],
  ] as const)('is stopped whoever asks: %#', (items, sentence) => {
    const answers = items.map((x) => {
      const said = structuredClone(x) as StepItem;
      if (said.answers?.own_lock === 'not-yet') delete said.answers.dead_today;
      return said;
    });
    expect(refused(goneOn(inMachine(), 'BX', ...answers).run())).toMatch(sentence);
  });
  it('at a rotor on the bench is asked of the magnets only', () => {
    expect(refused(goneOn(new Job(), 'BX').run())).toMatch(/“Who comes near the magnets” comes first/);
    expect(finished(goneOn(new Job(), 'BX', comeNear()).run())).toBe(true);
  });
  it('is not asked for a lock at a machine that runs, and is once it stands', () => {
    const log = inMachine();
    log.step('run-in-log').by = 'BX';
    expect(refused(log.run())).toMatch(/“Who comes near the magnets” comes first/);
    const standing = inMachine();
    standing.step('run-in-accept').by = 'BX';
    expect(refused(standing.run())).toMatch(/“Your own lock, no voltage today” comes first/);
    // The guard is open until it was closed again.
    const open = inMachine();
    open.step('guard-back').by = 'BX';
    expect(refused(open.run())).toMatch(/“Your own lock, no voltage today” comes first/);
  });
});

describe('the next day', () => {
  it('the same person proves it dead anew at a machine, and not on the bench', () => {
    expect(finished(new Job().run())).toBe(true);
    expect(finished(inMachine().run())).toBe(true);
    const without = inMachine().drop((x) => x.step === 'own-lock');
    without.step('wash', 'a').after = '22 h';
    expect(refused(without.run())).toMatch(/“Your own lock, no voltage today” comes first/);
  });
  it('who puts a rotor from the bench into its machine proves that dead anew, after a night between the two', () => {
    const night = (step: string, ...first: ReplayItem[]): Job => {
      const job = first.length ? new Job().before(step, 'job', ...first) : new Job();
      if (!first.length) job.step(step).after = '14 h';
      return job;
    };
    expect(refused(night('reassemble').run())).toMatch(/“Your own lock, no voltage today” comes first/);
    expect(finished(night('reassemble', { ...ownLock(), after: '14 h' } as ReplayItem).run())).toBe(true);
    // It still lies on the bench then, and goes into that machine next: "on the bench" is no answer.
    const bench = { step: 'own-lock', answers: { own_lock: 'bench' }, after: '14 h' } as ReplayItem;
    expect(refused(night('reassemble', bench).run())).toMatch(/does not know|not one of|is not a choice|Your own lock/);
    // Whoever comes back while it runs is not asked in the midst of locking it out.
    expect(finished(night('standstill').run())).toBe(true);
  });
  it('once accepted, the papers are signed without a lock', () => {
    const job = inMachine();
    job.step('next-inspection').after = '14 h';
    expect(finished(job.run())).toBe(true);
  });
});

describe('the inspection', () => {
  it('asks the same between its stop and its decision, and not afterwards', () => {
    const turn = inspectionJob();
    turn.step('turn', 'a').after = '14 h';
    expect(refused(turn.run())).toMatch(/“Your own lock, no voltage today” comes first/);
    const closing = inspectionJob().drop((x) => x.step === 'out-of-service' || x.step === 'bring');
    closing
      .answer('seal-outside', 'a.back', { outside: 'dry' })
      .answer('listen', 'b', { heard: 'smooth', tone: 'none' });
    for (const place of ['a', 'b']) closing.answer('verdict', place, { fate: 'run-on' });
    closing.step('warmth', 'b').rows = [0, 10, 10].map((after) => ({ after: `${after} min`, ring_temp: '40 C' }));
    closing.before('statement', 'job', {
      step: 'close-up',
      answers: { closed_up: 'yes' },
      after: '14 h',
    } as ReplayItem);
    expect(refused(closing.run())).toMatch(/“Your own lock, no voltage today” comes first/);
    const out = inspectionJob();
    out.step('out-of-service').after = '14 h';
    expect(refused(out.run())).toMatch(/“Your own lock, no voltage today” comes first/);
    const signed = inspectionJob();
    signed.step('statement').after = '14 h';
    expect(finished(signed.run())).toBe(true);
  });
});

describe('magnets', () => {
  it('cannot be ruled out by a clip inside the stator, and count where nobody can tell', () => {
    const said = (found: string) => inMachine().answer('magnets', 'job', { magnets_found: found });
    expect(refused(said('clip-still').run())).toMatch(/no clip can be tried round the body.*can’t be overruled/);
    expect(finished(said('cannot-tell').run())).toBe(true);
    const v = said('cannot-tell').run().state.values.get('has_magnets', 'job');
    expect(v.known && v.value).toBe(true);
  });
  it('turn nothing in a stator before the ends of the leads are apart', () => {
    const bare = inMachine().answer('part-leads', 'job', { leads_apart: 'no' });
    expect(refused(bare.run())).toMatch(/Nothing turns before.*can’t be overruled/);
    const skipped = inMachine().drop((x) => x.step === 'part-leads');
    expect(refused(skipped.run())).toMatch(/is not next: “Motor leads apart”/);
  });
  it('a machine above 1000 V is handed over', () => {
    const high = new Job().answer('isolate', 'job', { isolated: 'high-voltage' });
    expect(refused(high.run())).toMatch(/earthed and shorted.*can’t be overruled/);
  });
});
