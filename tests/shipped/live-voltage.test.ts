/** The run-in puts the power back: no hand goes near after it before the supply is locked and proven dead anew. */
import { describe, expect, it } from 'vitest';
import type { ReplayItem } from '../../src/engine/replay/replay-file.js';
import { modelFor } from '../procedure/library.js';
import { finished, inspectionJob, Job, outAgain, refused } from './good-job.js';

const dead = (key: string) => ({ [`${key}_locked`]: 'locked', [`${key}_dead`]: 'proven' });
const short = (rows: number): Job => {
  const job = new Job();
  const log = job.step('run-in-log');
  log.rows = (log.rows ?? []).slice(0, rows);
  return job;
};
const loud = (...after: ReplayItem[]): Job => {
  const job = short(5);
  job
    .step('run-in-log')
    .rows?.push({ after: '5 min', log_stage: '2', temp_a: '24 C', temp_b: '24 C', sound: 'grinding' });
  return job.after('run-in-log', 'job', { raise: 'run-in-noise', at: 'a' }, ...after);
};
const popped = (...after: ReplayItem[]): Job =>
  short(5).after('run-in-log', 'job', { raise: 'seal-popped-off', at: 'a.front' }, ...after);

describe('a noise in the run-in', () => {
  it('lets nobody look or wash before it was proven dead again, even on a rotor that came from the bench', () => {
    const look: ReplayItem = { step: 'noise-what', at: 'a', answers: { noise_cause: 'dirt' } };
    expect(refused(loud(look).run())).toMatch(
      /“Noise or heat in the run-in”.*is not next: “Stop it and prove it dead again”/,
    );
    expect(refused(loud({ step: 'wash', at: 'a' }).run())).toMatch(/is not next/);
  });
  it('is where a hiss of half an hour sends, and nobody reaches in while the power is on', () => {
    const job = short(5);
    const row = (after: string, sound: string) => ({ after, log_stage: '2', temp_a: '24 C', temp_b: '24 C', sound });
    job.step('run-in-log').rows?.push(...['1 min', '15 min', '16 min'].map((after) => row(after, 'hiss')));
    job.step('run-in-log').rows?.push({ ...row('5 min', 'smooth'), log_stage: '0' });
    const said = refused(job.run());
    expect(said).toMatch(/Keep your hands away, the power is still on.*Report "Noise or heat in the run-in"/);
    const { steps } = modelFor('regrease-in-place').procedure;
    for (const id of ['too-much-out', 'cause-found', 'hot-again', 'hiss-lasts'])
      expect(steps.flatMap((s) => s.gates ?? []).find((g) => g.id === id)?.say).toMatch(
        /the power is still on.*There it is locked out and proven dead before it is opened/,
      );
  });
  it('goes on with the truth in its log where it hissed so before this job too, until it is opened', () => {
    const job = short(5);
    const row = (after: string) => ({ after, log_stage: '2', temp_a: '24 C', temp_b: '24 C', sound: 'hiss' });
    job.step('run-in-log').rows?.push(...['1 min', '15 min', '16 min'].map(row));
    job.upTo('standstill');
    const stopped = job.run().state;
    expect(stopped.view('run-in-log', 'job')?.gates.map((g) => g.gate.id)).toEqual(['hiss-lasts']);
    job.items.push(
      { raise: 'always-hissed', at: 'job' },
      { step: 'hissed-before', answers: { hissed_by: 'AP, at the last look' } },
      { step: 'run-in-log', rows: [row('5 min')] },
    );
    const { values, ...state } = job.run().state;
    expect(job.run().state.view('run-in-log', 'job')).toMatchObject({ wants: 'question', gates: [] });
    expect(values.get('run_in_says', 'job')).not.toMatchObject({ value: 'stop' });
    expect(state.entries.filter((e) => e.kind === 'answer' && e.value === 'smooth').length).toBe(
      stopped.entries.filter((e) => e.kind === 'answer' && e.value === 'smooth').length,
    );
    const reopens = modelFor('regrease-in-place').procedure.branches?.find((b) => b.id === 'run-in-noise')?.reopens;
    expect(reopens).toContain('hissed-before');
  });
  it.each([
    [{ noise_locked: 'not-yet', noise_dead: 'proven' }, /locked out again/],
    [{ noise_locked: 'locked', noise_dead: 'zero-only' }, /not proven dead again/],
    [{ noise_locked: 'locked', noise_dead: 'live' }, /Voltage found: step back\. Touch nothing/],
  ])('stops at %o', (answers, sentence) => {
    const said = refused(loud({ step: 'noise-stop', at: 'a', answers }).run());
    expect(said).toMatch(sentence);
    expect(said).toMatch(/can’t be overruled/);
  });
});

describe('a rotor that still lies on the bench', () => {
  const raised = (branch: string, at: string, step: string, place: string): string => {
    const job = new Job().upTo(step, place);
    job.items.push({ raise: branch, at });
    return job.run().state.available()[0]?.step.id ?? 'nothing';
  };
  it('has no supply to lock, and one that is to go in next has', () => {
    expect(raised('run-in-noise', 'a', 'hand-turns', 'job')).toBe('noise-what');
    expect(raised('seal-popped-off', 'a.front', 'hand-turns', 'job')).toBe('popped');
    expect(raised('run-in-noise', 'a', 'reassemble', 'job')).toBe('noise-stop');
    expect(raised('seal-popped-off', 'a.front', 'reassemble', 'job')).toBe('popped-stop');
  });
  it('is no answer of any lock: nobody talks a machine dead with it', () => {
    for (const name of ['regrease-in-place', 'inspect-after-run'])
      for (const s of modelFor(name).procedure.steps)
        for (const q of s.ask ?? [])
          if (s.id !== 'isolate' && 'options' in q && q.kind === 'choice')
            for (const o of q.options) expect(o.label, `${s.id}: ${q.key}`).not.toMatch(/on the bench/i);
  });
  it('counts as in its machine once that was proven dead, whatever is answered of it later', () => {
    const lies = (job: Job): unknown => job.run().state.values.holds('lies_out', 'job');
    expect(lies(new Job().upTo('machine-dead'))).toBe(true);
    expect(lies(new Job().upTo('reassemble'))).toBe(false);
    const misread = { correct: { step: 'machine-dead', key: 'machine_dead', value: 'live', reason: 'misread' } };
    expect(lies(new Job().upTo('run-in-plan').after('reassemble', 'job', misread as never))).toBe(false);
  });
});

describe('a seal that popped off', () => {
  it('is not reached for before it was proven dead again', () => {
    const why: ReplayItem = { step: 'popped', at: 'a.front', answers: { popped_why: 'not-seated' } };
    expect(refused(popped(why).run())).toMatch(/is not next: “Stop it and prove it dead again”/);
    const refit: ReplayItem = { step: 'refit', at: 'a.front', answers: { seated: 'all-round' } };
    expect(refused(popped(refit).run())).toMatch(/is not next/);
    const live: ReplayItem = {
      step: 'popped-stop',
      at: 'a.front',
      answers: { popped_locked: 'locked', popped_dead: 'live' },
    };
    expect(refused(popped(live).run())).toMatch(/Voltage found: step back.*can’t be overruled/);
  });
  it('is not simply pressed in again when it is damaged', () => {
    const job = popped({ step: 'popped-stop', at: 'a.front', answers: dead('popped') }, ...outAgain, {
      step: 'popped',
      at: 'a.front',
      answers: { popped_why: 'damaged' },
    });
    expect(refused(job.run())).toMatch(/Report "Seal torn, bent or swollen"/);
  });
});

describe('the acceptance', () => {
  it('lets nobody feel the seals of a rotor that is not proven dead', () => {
    const skipped = new Job().drop((x) => x.step === 'standstill');
    expect(refused(skipped.run())).toMatch(/is not next: “Coast down and lock out”/);
    const live = new Job().answer('standstill', 'job', { stop_dead: 'live' });
    expect(refused(live.run())).toMatch(/Voltage found: step back.*can’t be overruled/);
  });
});

describe('what needs an open bearing', () => {
  it.each(['cage-popped-out', 'ball-on-floor'])('can’t come up in a running rotor: %s', (branch) => {
    expect(refused(short(5).after('run-in-log', 'job', { raise: branch, at: 'a' }).run())).toMatch(/can’t happen here/);
  });
  it('has the seal pressed in anew when it is torn after it was seated', () => {
    const torn: ReplayItem[] = [
      { raise: 'seal-torn', at: 'a.front' },
      { step: 'torn-what', at: 'a.front', answers: { torn_where: 'lip', repair: 'replace' } },
    ];
    expect(refused(new Job().before('hand-turns', 'job', ...torn).run())).toMatch(/is not next: “Rotor-side seal in”/);
    const job = new Job();
    const again = job.again(['refit-back', 'a'], ['refit', 'a.front'], ['seals-seated', 'a']);
    expect(finished(job.before('hand-turns', 'job', ...torn, ...again).run())).toBe(true);
  });
});

describe('the inspection', () => {
  it('touches nothing before the power is proven dead', () => {
    expect(finished(inspectionJob().run())).toBe(true);
    for (const [found, said] of [
      ['zero-only', /not proven dead.*can’t be overruled/],
      ['live', /Voltage found: step back.*can’t be overruled/],
    ] as const)
      expect(refused(inspectionJob().answer('switch-off', 'job', { dead: found }).run())).toMatch(said);
  });
  it('lets nobody reach for a seal that came off while it runs', () => {
    const gone: ReplayItem[] = [
      { raise: 'seal-off', at: 'a.front' },
      { step: 'seal-gone', at: 'a.front', answers: { parts_found: 'yes' } },
    ];
    expect(
      refused(
        inspectionJob()
          .before('listen', 'a', ...gone)
          .run(),
      ),
    ).toMatch(/is not next: “Stop it and prove/);
    expect(
      refused(
        inspectionJob()
          .before('verdict', 'a', ...gone)
          .run(),
      ),
    ).not.toMatch(/Stop it and prove/);
  });
});
