/** What a technician alone met on a whole job: what a scale, a count and a seal that nobody sees would have told in time. */
import { describe, expect, it } from 'vitest';
import type { ReplayItem } from '../../src/engine/replay/replay-file.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { finished, Job, model, refused } from './good-job.js';

const text = (job: Job, step: string, part: 'do' | 'tell', place: string): string => {
  const { values } = job.run().state;
  return fillIn(values, model.steps.get(step)?.[part] ?? '', place);
};

describe('the rinse', () => {
  it('is by damp sticks where the bearing is swabbed, and by drops where it is rinsed so', () => {
    const swabbed = new Job().answer('bearing-solvent', 'a', { clean_way: 'swab' });
    expect(text(swabbed, 'rinse-bearing', 'do', 'a')).toMatch(/fresh sticks damp with .*, no drops/);
    const dripped = new Job().answer('bearing-solvent', 'a', { clean_way: 'drip' });
    expect(text(dripped, 'rinse-bearing', 'do', 'a')).toMatch(/a few drops only/);
  });
});

describe('the weight at half time', () => {
  // Dose of a 2.3 mL, half of it 1.15 mL; 0.87 g of 0.90 g/mL are 0.967 mL: 16 % less than the plunger gave. Arithmetic.
  const weighed = (half: string): Job =>
    new Job().answer('weigh-first', 'a', { weigh_before: '14.10 g' }).answer('weigh-half', 'a', { weigh_half: half });
  it('is held against the plunger, and a misread bore is named', () => {
    expect(refused(weighed('13.23 g').run())).toMatch(
      /By weight 0\.9\d* mL is in, by the plunger 1\.150? mL.*inside diameter of the syringe barrel was misread/,
    );
    const gate = model.steps.get('weigh-half')?.gates?.find((g) => g.id === 'half-right');
    expect(gate?.correct).toEqual(['syringe_bore']);
  });
  it('passes within what plunger and scale can tell', () => {
    // 1.00 g are 1.11 mL: 3 % less.
    expect(finished(weighed('13.10 g').run())).toBe(true);
  });
  it('tells one travel, from where the plunger stands', () => {
    // 1.00 g are 1.11 mL, 9.20 mm; 19.05 - 9.20 = 9.85 mm are left. Arithmetic.
    const job = weighed('13.10 g');
    job.items.length = job.items.indexOf(job.step('race-fill', 'a'));
    expect(text(job, 'race-fill', 'tell', 'a')).toMatch(/^From here the plunger moved 9\.8/);
  });
});

describe('a first bearing that was checked by travel', () => {
  const byTravel = (before: string): Job => {
    const job = new Job().answer('weigh-first', 'a', { weigh_before: '14.80 g' });
    job.answer('weigh-first', 'b', { weigh_before: before });
    job.step('dose-check', 'a').answers = { check_by: 'travel', given_travel: '19.0 mm' };
    return job;
  };
  it('is held against what the syringe lost', () => {
    // 19.0 mm are 2.29 mL and 2.07 g; 14.80 - 12.20 = 2.60 g. Arithmetic.
    expect(refused(byTravel('12.20 g').run())).toMatch(/is not next: “The weights do not agree”/);
  });
  it('passes where both agree', () => {
    const job = byTravel('12.75 g').answer('dose-check', 'b', { weigh_after: '11.50 g' });
    expect(finished(job.run())).toBe(true);
  });
});

describe('a cage that came out', () => {
  const out = (balls: string): Job =>
    new Job().before('dry', 'a', { raise: 'cage-popped-out', at: 'a' }, {
      step: 'cage-out',
      at: 'a',
      answers: { balls_out: balls },
    } as ReplayItem);
  it('has its balls counted before anybody moves', () => {
    expect(refused(out('8').run())).toMatch(/8 are found, 9 were in\. Nobody moves\./);
    expect(refused(out('9').run())).not.toMatch(/Nobody moves/);
  });
  it('has the shaft on blocks where the rotor is in its stator', () => {
    const said = (key: string, in_stator: boolean) => {
      const from = model.keys.get(key)?.from;
      const rule = from?.by === 'fact' && 'is' in from.fact ? from.fact.is : '';
      return model.expression(rule).run({ in_stator });
    };
    expect(said('cage_out_how', true)).toMatch(/blocks under the shaft.*Leave the others between the rings/);
    expect(said('cage_back_how', true)).toMatch(/If the outer ring is fast in its housing, report "Left for later"/);
    expect(said('cage_out_how', false)).toMatch(/Let every ball fall into the tray/);
    expect(said('cage_back_how', false)).toBe('Push the outer ring aside.');
  });
});

describe('a side that nobody sees', () => {
  it('is named where it alone makes the speed too high, and can be corrected there', () => {
    const gate = model.steps.get('sealed-speed')?.gates?.find((g) => g.id === 'claimed-speed');
    expect(gate?.correct).toContain('has_contact');
    const job = new Job().answer('seal-make', 'a.back', { seal_kind: 'unseen' });
    job.items.length = job.items.indexOf(job.step('history', 'a'));
    expect(fillIn(job.run().state.values, gate?.say ?? '', 'a')).toMatch(
      /^The rotor side cannot be seen and counts as a seal that touches/,
    );
  });
});

describe('what was done about a cause', () => {
  it('is offered at the other bearing for the same cause alone', () => {
    const other = (cause: string) =>
      new Job().answer('cause', 'b', { cause_is: cause }).run().state.values.get('other_done', 'b');
    const same = new Job().step('cause', 'a').answers?.cause_is as string;
    expect(other(same)).toMatchObject({ value: expect.stringMatching(/./) });
    expect(other(same === 'dirt' ? 'age-heat' : 'dirt')).toMatchObject({ value: '' });
  });
});

describe('a run-in that is left for another way', () => {
  /** Driven for so many readings, the last with this sound; then it is said that it can only be turned by hand. */
  const left = (sound: string, way = 'by-hand'): Job => {
    const job = new Job();
    const log = job.step('run-in-log');
    log.rows = (log.rows ?? []).slice(0, 4);
    log.rows.push({ after: '5 min', log_stage: '1', temp_a: '23 C', temp_b: '23 C', sound });
    const correct = { step: 'run-in-plan', at: 'job', key: 'drive_way', value: way, reason: 'the drive tripped' };
    return job.after('run-in-log', 'job', { correct });
  };
  it.each(['by-hand', 'bursts'])('keeps its stop: %s', (way) => {
    const job = left('grinding', way);
    const row = { after: '3 min', burst_a: '22 C', burst_b: '22 C', burst_sound: 'smooth' };
    if (way === 'bursts') job.before('standstill', 'job', { step: 'run-in-bursts', rows: [row] } as ReplayItem);
    const said = refused(job.run());
    expect(said).toMatch(
      /“Run in and log” stops the work and would be asked no more: Switch off now. Rough or grinding/,
    );
  });
  it('asks for the lock again, for a reason, and tells it on page 1', () => {
    expect(
      refused(
        left('smooth')
          .drop((x) => x.step === 'standstill')
          .run(),
      ),
    ).toMatch(/Coast down and lock out/);
    expect(refused(left('smooth').run())).toMatch(/It was driven, 5 readings, and the run-in was left before its end/);
    const job = left('smooth');
    job.step('run-in-accept').overrule = { gate: 'run-in-left', reason: 'the drive is broken, 23 °C', initials: 'MN' };
    const { state } = job.run();
    expect(sheetOf(state).front.unusual.map((u) => u.text)).toContainEqual(
      expect.stringMatching(/^It was driven, 5 readings, and the run-in was left before its end\. .* 23/),
    );
  });
});

describe('what the sheet tells of it', () => {
  it('keeps the words of a signature as they were when it was given', () => {
    const job = new Job().answer('dose', 'a', { dose_set: '2.6 mL' });
    const first = { gate: 'dose-near', reason: 'the first reason', initials: 'MN' };
    job.step('dose', 'a').overrule = first;
    job.items.length = job.items.indexOf(job.step('dose', 'a')) + 1;
    job.items.push(
      { correct: { step: 'dose', at: 'a', key: 'dose_set', value: '2.65 mL', reason: 'read again' } },
      { step: 'dose', at: 'a', overrule: { ...first, reason: 'the second reason' }, sign: 'MN' },
    );
    const out = job.run();
    expect(out.ok ? 'went through' : out.message).toBe('went through');
    const sheet = sheetOf(out.state);
    const [before, after] = sheet.signatures.filter((s) => s.step === 'dose').map((s) => s.says);
    expect(before).toMatch(/“the first reason”/);
    expect(before).not.toMatch(/second/);
    expect(after).toMatch(/“the second reason”/);
    // Both were overruled, and of the first nothing counts any more.
    expect(sheet.verdict).toMatch(/2 stops were OVERRULED, 1 still counts: Set the dose/);
  });
  it('speaks of marks on a raceway only where some were found', () => {
    // The second look is unclear here since the job costs more than the pair; nothing was found.
    const { state } = new Job().answer('costs', 'job', { pair_price: '380', job_cost: '1900' }).run();
    expect(state.values.get('second_advice', 'a')).toMatchObject({ value: 'unclear' });
    expect(JSON.stringify(sheetOf(state).front.due?.why ?? [])).not.toContain('marks on a raceway');
  });
  it('orders a bearing by what is printed on it, its clearance too', () => {
    const { state } = new Job().answer('size', 'a', { bearing_size: '6207-2RZ C3' }).run();
    const rows = sheetOf(state).front.rows.filter((r) => r.heading === 'Bearing, to order');
    expect(rows.map((r) => r.text)).toContainEqual(expect.stringMatching(/^6207-2RZ C3, balls/));
  });
  it('says of a scrapped bearing in its table that it may not be run', () => {
    const fact = model.procedure.facts?.find((f) => f.key === 'bearing_now');
    expect(fact && 'is' in fact ? fact.is : '').toContain("'scrapped, may not be run'");
  });
});

it('lays out what is used later: glue for a seal, a card for what is taken out', () => {
  const things = (model.steps.get('kit')?.lays_out ?? []).flatMap((g) => g.things);
  expect(things).toEqual(expect.arrayContaining(['glue', 'card']));
});

describe('the temperature to stop at', () => {
  const suggested = (run_temp: string, sensor_at: string) => {
    const job = new Job().answer('duty', 'job', { run_temp }).answer('run-in-plan', 'job', { sensor_at });
    return job.run().state.values.get('usual_stop', 'job');
  };
  it('is offered where the guide takes it, and not where steady running is hotter', () => {
    expect(suggested('55 C', 'ring')).toMatchObject({ value: 70 });
    expect(suggested('72 C', 'ring')).not.toHaveProperty('value');
    expect(suggested('65 C', 'seat')).not.toHaveProperty('value');
  });
});
