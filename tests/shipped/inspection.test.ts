/** A look that decides: against its own base at like speed and load, the other bearing, what came out, and what people saw. */
import { describe, expect, it } from 'vitest';
import { earlierValues, followed } from '../../src/engine/state/earlier.js';
import { finished, inspectionJob, type Job, refused } from './good-job.js';

const known = (job: Job, key: string, place: string): unknown => {
  const v = job.run().state.values.get(key, place);
  return v.known ? v.value : undefined;
};
/** The look with nothing found at either bearing, up to the verdict. */
function quiet(temp = '41 C', other = temp): Job {
  const job = inspectionJob();
  const rows = (t: string) => [{ ring_temp: t }, { after: '10 min', ring_temp: t }, { after: '10 min', ring_temp: t }];
  job.step('warmth', 'a').rows = rows(temp);
  job.step('warmth', 'b').rows = rows(other);
  job.answer('listen', 'b', { heard: 'smooth', tone: 'none' }).answer('seal-outside', 'a.back', { outside: 'dry' });
  job.items.length = job.items.findIndex((x) => 'step' in x && x.step === 'verdict');
  return job;
}

describe('a look at a healthy machine', () => {
  it('at its declared temperature runs on', () => {
    // Declared 62 °C in a room of 21 °C; 62 °C in 22 °C is 1 K less. Arithmetic.
    const job = quiet('62 C');
    expect(known(job, 'warmer_by', 'a')).toBeCloseTo(-1, 6);
    expect(known(job, 'advice', 'a')).toBe('run on');
    expect(known(job, 'advice_why', 'a')).toBe('nothing was found');
  });
  it('watches from 5 K and opens from 15 K above it', () => {
    expect(known(quiet('68 C'), 'advice', 'a')).toBe('watch');
    // The limit of 70 °C stops the log before 15 K are reached, so the room is colder here: 62 - 21 + 15 = 56 K over 10 °C.
    const cold = quiet('66.5 C').answer('since-then', 'job', { room_now: '10 C' });
    expect(known(cold, 'warmer_by', 'a')).toBeCloseTo(15.5, 6);
    expect(known(cold, 'advice', 'a')).toBe('open');
  });
  it('at another speed or load is not compared', () => {
    for (const [key, value] of Object.entries({ speed_now: '3000 rpm', load_now: '20 %' }))
      expect(known(quiet('43 C').answer('working-speed', 'job', { [key]: value }), 'advice', 'a')).toBe('watch');
  });
  it('is judged against the other bearing', () => {
    // Both have a base of 62 °C, so 52 against 43 °C is 9 K more than it was. Arithmetic.
    const job = quiet('52 C', '43 C');
    expect(known(job, 'twin_by', 'a')).toBeCloseTo(9, 6);
    expect([known(job, 'advice', 'a'), known(job, 'advice', 'b')]).toEqual(['watch', 'run on']);
  });
  it('believes no ring colder than the room, and no three readings within a minute', () => {
    expect(refused(quiet('21 C').run())).toMatch(/is colder than the room/);
    const fast = quiet();
    fast.step('warmth', 'a').rows = [{ ring_temp: '41 C' }, { ring_temp: '41 C' }, { ring_temp: '41 C' }];
    expect(refused(fast.run())).toMatch(/Temperature/);
  });
});

it('shows of the last look only what was heard and measured then, and no word of the file', () => {
  const state = quiet().run().state;
  const shown = state.model.steps.get('listen')!.show ?? [];
  expect(
    shown.filter((key) => ['not-heard', 0].includes((state.values.get(key, 'a') as { value?: never }).value ?? '')),
  ).toEqual([]);
});

it('has a side that cannot be seen recorded as unseen, and asks of no seal there whether it sits', () => {
  const job = quiet();
  job.step('seal-outside', 'a.back').answers = { outside: 'hidden' };
  const { state } = job.run();
  expect(state.values.get('outside', 'a.back')).toMatchObject({ value: 'hidden' });
  expect(state.entries.some((e) => e.kind === 'answer' && e.place === 'a.back' && e.key === 'sits')).toBe(false);
});

it('has a mentor sign once it is locked out for what can be done then: nothing runs to be listened to', () => {
  const signed = inspectionJob().model.procedure.steps.filter((s) => s.phase === 'decide' && s.hold);
  expect(signed.map((s) => s.id)).toEqual(['verdict']);
  for (const s of signed) expect(s.hold?.say).not.toMatch(/listen/i);
});

describe('what came out', () => {
  const out = (answers: Record<string, string | string[]>): Job => {
    const job = quiet();
    return job.answer('seal-outside', 'a.back', {
      outside: 'grease',
      came_out: '0.1 g',
      looks: ['nothing'],
      ...answers,
    });
  };
  it('is weighed against the dose: a tenth is watched, a third opens', () => {
    // Dose 2.3 mL x 0.90 g/mL = 2.07 g: 0.1 g is 4.8 %, 0.3 g 14.5 %, 0.8 g 39 %. Arithmetic.
    expect(known(out({ came_out: '0.3 g' }), 'lost_share', 'a')).toBeCloseTo(14.49, 1);
    expect(known(out({ came_out: '0.3 g' }), 'advice', 'a')).toBe('watch');
    expect(known(out({ came_out: '0.8 g' }), 'advice', 'a')).toBe('open');
  });
  it.each(['grains', 'water'])('with %s in it opens', (looks) => {
    expect(known(out({ looks: [looks] }), 'advice', 'a')).toBe('open');
  });
  it('opens where it is oil that runs', () => {
    expect(known(out({ outside: 'oil' }), 'advice', 'a')).toBe('open');
  });
});

describe('what was thrown', () => {
  it('is looked for from outside the guard, while nothing was stopped, touched or wiped yet', () => {
    const stopped = quiet().drop((x) => x.step === 'thrown');
    expect(refused(stopped.run())).toMatch(/“Look before anything is wiped” comes first/);
    const { steps } = quiet().model.procedure;
    const before = steps.slice(
      0,
      steps.findIndex((s) => s.id === 'seal-outside'),
    );
    expect(before.map((s) => s.id)).toEqual(expect.arrayContaining(['thrown', 'switch-off']));
    expect(before.filter((s) => /\b(wipe|clean|cloth)\b/i.test(s.do)).map((s) => s.id)).toEqual([]);
    const outside = steps.find((s) => s.id === 'seal-outside');
    expect(outside?.do).toMatch(/onto a weighed cloth\. Put the cloth in a bag\. Put nothing back in/);
  });
  it.each(['guard', 'winding', 'floor'])('on the %s counts, though each seal is found dry afterwards', (where) => {
    const job = quiet().answer('thrown', 'job', { thrown_at: [where] });
    expect(known(job, 'advice', 'a')).toBe('watch');
    expect(known(job, 'advice_why', 'a')).toMatch(/grease or oil outside/);
  });
});

describe('what people saw', () => {
  it('is not written away: a trip that nobody explains opens', () => {
    const job = quiet().answer('since-then', 'job', { trouble: ['trip'], trip_why: 'not-explained' });
    expect(known(job, 'advice', 'a')).toBe('open');
  });
  it('and late by more than twice is watched', () => {
    const job = quiet().answer('since-then', 'job', { hours_run: '2600' });
    job.step('since-then').overrule = { gate: 'in-time', reason: 'nobody came', initials: 'MN' };
    expect(known(job, 'advice', 'a')).toBe('watch');
  });
});

describe('“open”', () => {
  it('leads to the job that opens, and to what it needs', () => {
    expect(finished(inspectionJob().run())).toBe(true);
    const job = inspectionJob().drop((x) => x.step === 'bring');
    expect(refused(job.run())).toMatch(/is not next: “What the opening needs”/);
  });
});

describe('the look after that', () => {
  it('follows the first one, with its readings as the base', () => {
    const first = inspectionJob();
    const done = first.run().state;
    expect(followed(first.model.procedure)).toEqual(['regrease-in-place', 'inspect-after-run']);
    const read = earlierValues(first.model.procedure, done);
    if (!read.ok) throw new Error(read.message);
    expect(read.values.get('end_temp@a')).toBe(41.5);
    expect(read.values.get('is_look@job')).toBe(true);
    expect(read.values.get('full_speed@job')).toBe(12000);
    expect(read.values.get('top_speed@job')).toBe(14000);
  });
});
