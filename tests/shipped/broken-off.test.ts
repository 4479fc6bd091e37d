/** A bearing that got hot in the run-in stays on the record, whatever way of running in is chosen afterwards. */
import { describe, expect, it } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { finished, Job, refused } from './good-job.js';

const row = (after: string, stage: string, a: string, b: string): Record<string, string> => ({
  after,
  log_stage: stage,
  temp_a: `${a} C`,
  temp_b: `${b} C`,
  sound: 'smooth',
});
const byHand = { correct: { step: 'run-in-plan', key: 'drive_way', value: 'by-hand', reason: 'drive tripped' } };

/** The drive end leaps from 27 to 41 °C at the first stage. */
function hot(): Job {
  const job = new Job();
  job.step('run-in-log').rows = [row('1 min', '1', '27', '26'), row('20 s', '1', '41', '27')] as never;
  return job;
}
/** It is limited and cools, then the drive trips. */
const left = (): Job =>
  hot().after(
    'run-in-log',
    'job',
    { raise: 'limited-run-in', at: 'job' },
    { step: 'limit-run-in', answers: { limited_to: '1', limited_why: 'no time for more' } },
    { step: 'run-in-log', rows: [row('60 min', '0', '23', '22')] } as never,
    byHand,
  );

describe('a run-in that was stopped by heat', () => {
  it('names the end that got hot, and stands when the way of driving is corrected', () => {
    const job = hot().after('run-in-log', 'job', byHand);
    job.step('run-in-log').held = 'no-further';
    job.items.length = job.items.indexOf(byHand);
    const { state } = job.run();
    const stop = state.view('run-in-log', 'job')!;
    expect(stop.status).toBe('stopped');
    const p = propose(state, { do: 'correct', place: 'job', ...byHand.correct, text: 'by-hand' }, 'AP');
    expect(p.ok ? 'taken' : p.message).toMatch(/“Run in and log” stops the work.*Drive end: it heads for/);
  });

  it('is not accepted by hand before somebody says why it was broken off', () => {
    expect(refused(left().run())).toMatch(/The run-in was (stopped for heat|left)|It was driven, 3 readings/);
  });

  it('is locked out again before anybody feels round its bearings', () => {
    expect(left().run().state.view('standstill', 'job')?.status).toBe('done');
    const state = left()
      .drop((x) => x.step === 'standstill' || x.step === 'run-in-accept')
      .run().state;
    expect(state.available().map((v) => v.step.id)).toContain('standstill');
  });

  it('stands on the first page and on the tag with its end and temperature', () => {
    const job = left();
    const accept = job.step('run-in-accept');
    accept.overrule = { gate: 'run-in-left', reason: 'too much grease, wiped out, seen by MN', initials: 'MN' };
    expect(finished(job.run())).toBe(true);
    const sheet = sheetOf(job.run().state);
    const told = sheet.front.unusual.map((l) => `${l.where}: ${l.text}`).join('\n');
    expect(told).toMatch(/Drive end: DRIVEN AND BROKEN OFF: hottest reading 41 °C \(room 21 ± 1 °C\)/);
    expect(told).not.toMatch(/reached 0 rpm|To stage 1 of 10/);
    expect(sheet.front.tag.map((r) => `${r.heading}, ${r.where}: ${r.text}`).join('\n')).toMatch(
      /Driven and broken off, Drive end: hottest reading 41 °C/,
    );
    expect(sheet.verdict).toMatch(/driven and broken off, not run in/);
    expect(toMarkdown(sheet)).toMatch(/Find why the driven run-in was broken off/);
  });

  it('says nothing of it where nothing was driven, or it was run in to the end', () => {
    for (const job of [new Job(), new Job().answer('run-in-plan', 'job', { drive_way: 'by-hand' })]) {
      if (job.step('run-in-plan').answers?.drive_way === 'by-hand')
        job.drop((x) => x.step === 'run-in-log' || x.step === 'standstill');
      const { fit_to_drive: _, ...rest } = job.step('run-in-plan').answers!;
      if (rest.drive_way === 'by-hand') job.step('run-in-plan').answers = rest;
      expect(finished(job.run())).toBe(true);
      expect(toMarkdown(sheetOf(job.run().state))).not.toMatch(/broken off/i);
    }
  });
});
