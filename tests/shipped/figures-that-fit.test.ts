/** Counts, temperatures, leaks and doubts that can't be, or that nobody answered for, stop the job with their true reason. */
import { describe, expect, it } from 'vitest';
import type { ReplayItem } from '../../src/engine/replay/replay-file.js';
import { finished, Job, refused } from './good-job.js';

const never = /can’t be overruled/;

describe('grease outside a seal', () => {
  it('is accepted only with a reason', () => {
    const said = refused(new Job().answer('run-in-accept', 'job', { leak: 'yes' }).run());
    expect(said).toMatch(/Grease outside is missing inside/);
    expect(said).not.toMatch(never);
  });
});

describe('the balls', () => {
  const counted = (balls: string, size: string | undefined): Job =>
    new Job()
      .answer('count-open', 'a', { balls_seen: balls })
      .answer('balls-count', 'a', {
        balls,
        ball_by: size ? 'measured' : 'unknown',
        ...(size ? { ball_size: size } : {}),
      })
      .answer('gap-fill', 'a', { gaps: balls });
  // A 6207 has its pitch circle at (35 + 72) / 2 = 53.5 mm; pi x 53.5 / 11.1 = 15.1 balls of 11.1 mm go round. Arithmetic.
  it('are no more than go round', () => {
    const said = refused(counted('60', '11.1 mm').run());
    expect(said).toMatch(/do not go round.*At most 15 balls of 11.1 mm.*can’t be overruled/);
    expect(refused(counted('16', '11.1 mm').run())).toMatch(/do not go round/);
    expect(finished(counted('15', '11.1 mm').run())).toBe(true);
  });
  it('are no more than go round where none could be measured', () => {
    const job = counted('60', undefined);
    delete job.step('balls-count', 'a').answers?.ball_size;
    expect(refused(job.run())).toMatch(/So many balls do not go round in a bearing of this size.*can’t be overruled/);
  });
  it('fit between the rings', () => {
    // Half of 72 - 35 mm is 18.5 mm. Arithmetic.
    expect(refused(counted('7', '18.5 mm').run())).toMatch(/no room between these rings.*can’t be overruled/);
  });
  it('are asked about when most of the way round is empty', () => {
    const said = refused(counted('5', '11.1 mm').run());
    expect(said).toMatch(/A ball may be missing/);
    expect(said).not.toMatch(never);
  });
  it('are not recorded as ceramic in silence after steel was raised', () => {
    const steel: ReplayItem[] = [
      { raise: 'balls-are-steel', at: 'a' },
      { step: 'steel-what', at: 'a', answers: { steel_speed: 'yes' } },
    ];
    const job = new Job();
    job.before('ball-verdict', 'a', ...steel, ...job.again(['first-verdict', 'a']));
    expect(refused(job.run())).toMatch(/"Balls are steel" was reported/);
  });
});

describe('metal in the grease', () => {
  it('from the bearing itself is not saved in silence', () => {
    const job = new Job().answer('residue-look', 'b', { residue_glitter: 'yes' });
    job.before(
      'residue-look',
      'b',
      { raise: 'grease-glitters', at: 'b' },
      { step: 'glitter-what', at: 'b', answers: { glitter: 'steel' } },
      ...job.again(['first-verdict', 'b']),
    );
    expect(refused(job.run())).toMatch(/came from a ring, a ball or the cage/);
  });
});

describe('temperatures', () => {
  it('with the wrong sign are asked about at once', () => {
    const said = refused(new Job().answer('duty', 'job', { run_temp: '-15 C' }).run());
    expect(said).toMatch(/“How fast, how hot”: The bearing \(-15/);
  });
  it('that the grease can’t be judged at are named as such, not as a clash of thickeners', () => {
    const job = new Job().answer('duty', 'job', { run_temp: '-5 C', ambient: '-5 C', coldest_start: '-20 C' });
    const said = refused(job.run());
    expect(said).toMatch(/the grease cannot be judged/);
    expect(said).not.toMatch(/thickener/);
  });
});
