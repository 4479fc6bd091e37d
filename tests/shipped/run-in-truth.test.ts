/** The log of the run-in can't hide heat: not with a dead sensor, a wrong limit or a stage that was not open. */
import { describe, expect, it } from 'vitest';
import type { ReplayItem } from '../../src/engine/replay/replay-file.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { finished, inspectionJob, Job, refused } from './good-job.js';

type Row = Record<string, string>;
const never = /can’t be overruled/;
const rowsOf = (job: Job): Row[] => job.step('run-in-log').rows as unknown as Row[];
const because = (gate: string) => ({ gate, reason: 'seen and accepted', initials: 'MN' });
const sheet = (job: Job): string => toMarkdown(sheetOf(job.run().state)).replaceAll('\\', '');

describe('a sensor that reads colder than the room', () => {
  // The room of the good job has 21 °C.
  it('needs a reason for each reading, and is told on the sheet', () => {
    const job = new Job();
    for (const row of rowsOf(job)) row.temp_a = '-20 C';
    const said = refused(job.run());
    expect(said).toMatch(/-20.* is more than 5 K colder than the room/);
    expect(said).not.toMatch(never);
    const one = new Job();
    rowsOf(one)[0]!.temp_b = '15.5 C';
    one.step('run-in-log').overrule = [because('probe-reads')];
    expect(finished(one.run())).toBe(true);
    expect(sheet(one)).toMatch(/44 readings, of these 0 at a stage that came too early and 1 colder than the room/);
    const two = new Job();
    rowsOf(two)[0]!.temp_b = '15.5 C';
    rowsOf(two)[1]!.temp_b = '15.5 C';
    two.step('run-in-log').overrule = [because('probe-reads')];
    expect(refused(two.run())).toMatch(/colder than the room/);
  });
  it('is believed down to 5 K below the room', () => {
    const job = new Job();
    rowsOf(job)[0]!.temp_a = '21 C';
    rowsOf(job)[0]!.temp_b = '16 C';
    expect(finished(job.run())).toBe(true);
  });
});

describe('the limit', () => {
  it('is never above what the grease stands', () => {
    const job = new Job()
      .answer('duty', 'job', { run_temp: '40 C' })
      .answer('grease-figures', 'job', { grease_max: '66 C' })
      .answer('run-in-plan', 'job', { temp_limit: '70 C' });
    expect(refused(job.run())).toMatch(/The grease is good to 66 °C at most.*can’t be overruled/);
    expect(finished(job.answer('run-in-plan', 'job', { temp_limit: '66 C' }).run())).toBe(true);
  });
});

describe('a stage that was not open', () => {
  const jumped = (from: number): Job => {
    const job = new Job();
    for (const row of rowsOf(job).slice(from)) row.log_stage = '10';
    return job;
  };
  it('stops a jump to the top speed at minute 6', () => {
    const job = jumped(2);
    rowsOf(job)[2]!.temp_a = '65 C';
    const said = refused(job.run());
    expect(said).toMatch(/it was too early for stage 10/);
    expect(said).not.toMatch(never);
  });
  it('stops going on from the first reading', () => {
    expect(refused(jumped(0).run())).toMatch(/Go back now to stage 1: it was too early for stage 10\./);
  });
  it('needs a reason for each reading at it, and is counted on the sheet', () => {
    const job = new Job();
    const rows = rowsOf(job);
    // Stage 2 at minute 6 instead of 16, for two readings; then the good log from its first reading on.
    const early: Row[] = [2, 2].map((stage) => ({
      after: '5 min',
      log_stage: String(stage),
      temp_a: '23 C',
      temp_b: '23 C',
      sound: 'smooth',
    }));
    rows.splice(2, 0, ...early);
    job.step('run-in-log').overrule = [because('stage-open')];
    expect(refused(job.run())).toMatch(/it was too early for stage 2/);
    job.step('run-in-log').overrule = [because('stage-open'), because('stage-open')];
    rows.splice(4, 0, { ...early[0]!, log_stage: '1' }, { ...early[0]!, log_stage: '1' });
    expect(finished(job.run())).toBe(true);
    expect(sheet(job)).toMatch(/48 readings, of these 2 at a stage that came too early and 0 colder/);
  });
  it('stops whoever stays there after a rapid rise', () => {
    // From 25.2 to 48 °C in 5 min: more than the 20 K that are rapid by the table of rules.
    const job = new Job();
    rowsOf(job)[9]!.temp_a = '48 C';
    const said = refused(job.run());
    expect(said).toMatch(/Switch off now, let it cool, then run it at stage 2: it was too early for stage 3\./);
  });
});

describe('the inspection', () => {
  it('does not believe a bearing colder than its room', () => {
    const job = inspectionJob();
    for (const row of job.step('warmth', 'a').rows as unknown as Row[]) row.ring_temp = '-20 C';
    const said = refused(job.run());
    expect(said).toMatch(/-20.* is colder than the room/);
    expect(said).not.toMatch(never);
  });
});

describe('heat at the lowest stage', () => {
  const spiked = (spike_cause: string, ...more: ReplayItem[]): Job => {
    const job = new Job();
    const rest = rowsOf(job).splice(1);
    rowsOf(job).push({ after: '3 min', log_stage: '1', temp_a: '76 C', temp_b: '31 C', sound: 'smooth' });
    return job.after(
      'run-in-log',
      'job',
      { raise: 'temperature-spike', at: 'job' },
      { step: 'spike', answers: { spike_temp: '77 C', spike_cause } },
      ...more,
      { step: 'run-in-log', after: '45 min', rows: rest },
    );
  };
  it('leaves no lower stage to run it in to: the bearing is opened', () => {
    const said = refused(spiked('churning').run());
    expect(said).toMatch(/No lower stage is left\. Report "Noise or heat in the run-in"/);
    expect(said).toMatch(never);
    expect(said).not.toMatch(/limited run-in/i);
    const limited = spiked(
      'churning',
      { raise: 'limited-run-in', at: 'job' },
      { step: 'limit-run-in', answers: { limited_to: '9', limited_why: 'hot' } },
    );
    expect(refused(limited.run())).toMatch(/Limited run-in/);
  });
  it('says how cool it must be, and where it stands already does not say to stop it', () => {
    const hot = (...more: Row[]): Job => {
      const job = new Job();
      rowsOf(job).splice(9);
      rowsOf(job).push({ after: '5 min', log_stage: '3', temp_a: '48 C', temp_b: '25 C', sound: 'smooth' }, ...more);
      return job;
    };
    const of = (job: Job, key: string): unknown => {
      const v = job.run().state.values.get(key, 'job');
      return v.known ? v.value : undefined;
    };
    // The room is at 21 °C, and 5 K more is cool.
    expect(of(hot(), 'cool_to')).toBe(26);
    expect(of(hot(), 'run_in_lead')).toBe('Stop it, stage 0, until both are cool. Then run it at stage');
    const stands = { after: '10 min', log_stage: '0', temp_a: '40 C', temp_b: '25 C', sound: 'smooth' };
    expect(of(hot(stands), 'run_in_lead')).toBe('Leave it off, stage 0, until both are cool. Then run it at stage');
    const cold = { ...stands, temp_a: '26 C' };
    expect(of(hot(stands, cold), 'run_in_lead')).toBe('Run it at stage');
    expect(of(hot(stands, cold), 'cool_to')).toBeUndefined();
  });
  it('of which nobody knows the cause, too', () => {
    expect(refused(spiked('unknown').run())).toMatch(
      /nobody knows the cause.*Report "Noise or heat in the run-in".*can’t be/,
    );
  });
});

it.each([
  [2, /^Drive end nothing to tell yet\. Non-drive end nothing to tell yet$/],
  [3, /^Drive end will reach \d/],
])('of %i readings the outlook is told as it is', (count, told) => {
  const job = new Job();
  rowsOf(job).splice(count);
  const v = job.run().state.values.get('run_in_outlook', 'job');
  expect(v.known && v.value).toMatch(told);
});
