/** The shipped procedure stops where a wrong turn would ruin a motor, and leads on where it must. */
import { describe, expect, it } from 'vitest';
import type { ReplayItem } from '../../src/engine/replay/replay-file.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { finished, Job, model, refused } from './good-job.js';

const number = (job: Job, key: string, place = 'job'): number => {
  const v = job.run().state.values.get(key, place);
  return v.known && typeof v.value === 'number' ? v.value : Number.NaN;
};
const never = /can’t be overruled/;

describe('the good practice job', () => {
  it('runs from the first question to the last signature', () => {
    expect(finished(new Job().run())).toBe(true);
  });
  // (110.1 - 106.2) g / 0.85 g/mL = 4.588 mL, 30 % of it is 1.376 mL, dosed as 1.4 mL; a block of 12 x 9 x 8 mm is 0.864 mL,
  // 1.4 / 0.864 = 1.62. Arithmetic.
  it('comes to the doses worked out by hand', () => {
    expect(number(new Job(), 'dose_due', 'b')).toBeCloseTo(1.37647, 5);
    expect(number(new Job(), 'dose_set', 'b')).toBe(1.4);
    expect(number(new Job(), 'residue_volume', 'b')).toBeCloseTo(0.864, 6);
    expect(number(new Job(), 'residue_ratio', 'b')).toBeCloseTo(1.62, 3);
  });
  // Arithmetic: travel per mL is 1000 / (pi/4 bore²).
  it('marks the barrel by its bore', () => {
    const state = new Job().run().state;
    const marks = state.values.get('syringe_marks', 'job');
    const perMl = 1000 / ((Math.PI / 4) * 12.4 ** 2);
    expect(marks.known && marks.value).toEqual([expect.closeTo(2.3 * perMl, 6), expect.closeTo(3.7 * perMl, 6)]);
  });
});

describe('safety', () => {
  it('goes nowhere on a supply that is not isolated', () => {
    const job = new Job().answer('isolate', 'job', { isolated: 'not-yet' });
    expect(refused(job.run())).toMatch(never);
  });
  it.each([
    ['zero-only', /Power is not proven dead.*can’t be overruled/],
    ['live', /Voltage found: step back\. Touch nothing\. Fetch the licensed person\..*can’t be overruled/],
  ])('does not take %s for proven dead', (dead, said) => {
    const job = new Job()
      .answer('isolate', 'job', { isolated: 'locked' })
      .after('isolate', 'job', { step: 'prove-dead', answers: { dead } });
    expect(refused(job.run())).toMatch(said);
  });
  it('lets nothing turn before each seal is seated', () => {
    const job = new Job().answer('refit-back', 'b', { back_seated: 'stands-off' });
    expect(refused(job.run())).toMatch(/not seated.*can’t be overruled/);
    const skipped = new Job().drop((x) => x.step === 'refit-back' && x.at === 'b');
    expect(refused(skipped.run())).toMatch(/not next/);
  });
});

describe('solvent', () => {
  it('soaks no seal in a solvent that attacks it', () => {
    const job = new Job().answer('seal-solvent', 'a.front', { seal_way: 'soak' });
    expect(refused(job.run())).toMatch(/attacks this seal.*can’t be overruled/);
  });
  it('lets acetone drip on a nylon cage and wipe the seal briefly', () => {
    const job = new Job().answer('seal-solvent', 'a.front', { seal_way: 'wipe' });
    expect(finished(job.run())).toBe(true);
  });
  it('drips none on a seal that stayed in', () => {
    const job = staysIn();
    expect(refused(job.run())).toMatch(/seal left inside.*can’t be overruled/);
  });
  it('refuses vapour that is dangerous at once', () => {
    const job = new Job().answer('vapour', 'job', { solvent_volume: '500 mL', room: '5x4x2.5 m' });
    expect(refused(job.run())).toMatch(/dangerous.*can’t be overruled/);
  });
});

describe('the names of the ends', () => {
  it.each([
    [{ name_a: 'Drive end', name_b: 'DE' }],
    [{ name_a: 'NDE', name_b: 'DE' }],
    [{ name_a: 'Left', name_b: 'Left' }],
  ])('are not swapped or the same: %j', (names) => {
    const job = new Job().answer('ends', 'job', names);
    expect(refused(job.run())).toMatch(/One name is that of the other end, or both are the same.*can’t be overruled/);
  });
  it('are the shop’s own', () => {
    expect(finished(new Job().answer('ends', 'job', { name_a: 'DE', name_b: 'NDE' }).run())).toBe(true);
  });
});

const staysIn = (): Job =>
  new Job()
    .backSealStays({ left_by: 'estimated', left_entered: '0.3 mL' })
    .drop((x) => x.at === 'a' && x.step === 'refit-back');

describe('a back seal that stays in', () => {
  const job = staysIn()
    .answer('bearing-solvent', 'a', { clean_way: 'swab' })
    // 2.0 mL x 0.90 g/mL = 1.80 g, then 1.25 g.
    .answer('dose', 'a', { dose_set: '2.0 mL' })
    .answer('dose-check', 'a', { weigh_after: '12.30 g' })
    .answer('weigh-first', 'b', { weigh_before: '12.30 g' })
    .answer('dose-check', 'b', { weigh_after: '11.05 g' })
    .answer('next-inspection', 'job', { inspect_set: '200' });
  it('takes what it hides off the dose and brings the inspection nearer', () => {
    expect(finished(job.run())).toBe(true);
    expect(number(job, 'dose_due', 'a')).toBeCloseTo(number(new Job(), 'dose_due', 'a') - 0.3, 6);
    expect(number(job, 'inspect_after')).toBeLessThan(number(new Job(), 'inspect_after'));
  });
  it('proves no cleaning, so a clashing thickener stops', () => {
    const clash = staysIn()
      .answer('bearing-solvent', 'a', { clean_way: 'swab' })
      .answer('grease-kind', 'job', { new_thickener: 'polyurea' });
    expect(refused(clash.run())).toMatch(/thickener are not compatible/);
  });
});

describe('balls', () => {
  const steel = { ball_probes: ['beep', 'beep', 'beep'] };
  it('must be decided anew when they are steel', () => {
    const job = new Job()
      .answer('probe-balls', 'a', steel)
      .answer('magnet', 'a', { magnet: 'attracted' })
      .answer('ball-verdict', 'a', { ball_material: 'steel' });
    expect(refused(job.run())).toMatch(/balls are steel.*can’t be overruled/i);
  });
  it('are not called ceramic against the tests', () => {
    const job = new Job().answer('probe-balls', 'a', { ball_probes: ['open', 'beep', 'open'] });
    expect(refused(job.run())).toMatch(/not what the tests say.*can’t be overruled/);
  });
  it('may stay unproven only with a reason', () => {
    const job = new Job()
      .answer('prove-ring', 'a', { ring_contact: 'open' })
      .answer('ball-verdict', 'a', { ball_material: 'not-proven' });
    expect(refused(job.run())).toMatch(/not proven/);
    expect(refused(job.run())).not.toMatch(never);
  });
});

describe('scrap', () => {
  it('needs a reason to be saved with pits in the raceway', () => {
    const job = new Job().answer('raceway-look', 'a', { inside_findings: ['pitting'] });
    expect(refused(job.run())).toMatch(/says scrap/);
  });
  it('leaves the other bearing to be done, and turns nothing until it is replaced', () => {
    const scrapped = (answers: { replaced: string; new_bearing?: string }): Job => new Job().scrappedAtB(answers);
    expect(refused(scrapped({ replaced: 'no' }).run())).toMatch(
      /scrapped bearing is still in the rotor.*can’t be overruled/,
    );
    expect(finished(scrapped({ replaced: 'yes', new_bearing: 'Invented maker, number 9' }).run())).toBe(true);
  });
});

describe('a torn seal', () => {
  const glued = (after: string): Job =>
    new Job()
      .answer('seal-log', 'b.front', { seal_condition: 'torn' })
      .torn('b.front', { torn_where: 'torn', repair: 'glue' })
      .after('seal-clean', 'b.front', {
        step: 'glue-seal',
        at: 'b.front',
        answers: { glue_stands: 'yes', cure_time: '24 h' },
      })
      // Meanwhile both bearings lie under oil in their bags.
      .before(
        'fill-syringe',
        'job',
        ...['a', 'b'].flatMap((at) => [
          { raise: 'put-away', at },
          { step: 'put-away', at, answers: { kept: 'film-and-bag' } },
        ]),
        { step: 'repair-check', at: 'b.front', after, answers: { clearance: 'clear' } },
      );
  it('cures while all goes on that needs no seal: it is tried in the bearing before grease goes in', () => {
    expect(finished(glued('24 h').run())).toBe(true);
    const early = glued('0 min').run();
    expect(early.ok).toBe(false);
    const status = (step: string) => early.state.views.find((v) => v.step.id === step)?.status;
    const here = (step: string) => early.state.view(step, 'a')?.status;
    expect([status('marks'), status('fill-syringe'), here('gap-fill')]).toEqual(['done', 'open', 'later']);
  });
  it('is asked about', () => {
    const job = new Job().answer('seal-log', 'b.front', { seal_condition: 'torn' });
    expect(refused(job.run())).toMatch(/Report "Seal torn, bent or swollen"/);
  });
});

describe('the dose', () => {
  it('is not set a tenth away without a reason', () => {
    expect(refused(new Job().answer('dose', 'a', { dose_set: '2.8 mL' }).run())).toMatch(/more than a tenth away/);
  });
  it('keeps to the band of the speed without a reason', () => {
    expect(refused(new Job().answer('share', 'a', { share_set: '45 %' }).run())).toMatch(/outside the band/);
  });
  it('fits the barrel', () => {
    const job = new Job().answer('syringe', 'job', { syringe_holds: '2.5 mL' });
    expect(refused(job.run())).toMatch(/more than the barrel holds.*can’t be overruled/);
  });
  it('is weighed, and a miss is told', () => {
    const job = new Job().answer('dose-check', 'a', { weigh_after: '10.2 g' });
    expect(refused(job.run())).toMatch(/More than 15 % off/);
  });
  it('tells what to do when the bore was misread', () => {
    const job = new Job().before('refit', 'a.front', {
      correct: { step: 'syringe', key: 'syringe_bore_calliper', value: '14.6 mm', reason: 'read the wrong edge' },
    });
    const told = job.run().state.remedies.map((r) => r.view.step.id);
    // Both were weighed and are right, and no dose is to come: nobody is asked for work.
    expect(told).toEqual([]);
    expect(job.run().state.outdated.map((r) => r.view.step.id)).toEqual(['marks', 'race-fill', 'race-fill']);
  });
});

describe('the run-in', () => {
  const split = (job: Job, rows: number, ...between: ReplayItem[]): Job => {
    const log = job.step('run-in-log');
    const rest = log.rows?.splice(rows) ?? [];
    return job.after('run-in-log', 'job', ...between, { step: 'run-in-log', rows: rest });
  };
  const hot = { after: '3 min', log_stage: '3', temp_a: '71 C', temp_b: '40 C', sound: 'smooth' };
  const loud = { after: '3 min', log_stage: '3', temp_a: '27 C', temp_b: '26 C', sound: 'grinding' };

  it('stops at the limit until the spike was dealt with, each time anew', () => {
    const job = split(new Job(), 10);
    job.step('run-in-log').rows?.push(hot);
    expect(refused(job.run())).toMatch(/at or over the limit.*can’t be overruled/);
    const cooled = split(
      new Job(),
      10,
      { raise: 'temperature-spike', at: 'job' },
      { step: 'spike', answers: { spike_temp: '71 C', spike_cause: 'churning' } },
      { step: 'run-in-log', after: '45 min', rows: [{ ...hot, log_stage: '2', temp_a: '24 C', temp_b: '23 C' }, hot] },
    );
    cooled.step('run-in-log').rows?.push(hot);
    expect(refused(cooled.run())).toMatch(/at or over the limit/);
  });
  it('stops on grinding', () => {
    const job = split(new Job(), 10);
    job.step('run-in-log').rows?.push(loud);
    expect(refused(job.run())).toMatch(/Rough or grinding.*can’t be overruled/);
  });
  it('decides from one bearing when only one was worked on', () => {
    const job = new Job()
      .drop((x) => (x.at ?? '').startsWith('b'))
      .unraise('put-away', 'b')
      .answer('ends', 'job', { ends: 'first-only', name_b: '' });
    delete job.step('ends').answers?.name_b;
    job.step('white-cloth', 'a').after = '40 min';
    for (const row of job.step('run-in-log').rows ?? []) delete (row as Record<string, unknown>).temp_b;
    expect(finished(job.run())).toBe(true);
  });
});

describe('every step', () => {
  const { steps } = model.procedure;
  it.each(steps.map((s) => [s.id, s] as const))('%s says why, what else goes wrong and how to tell', (_id, s) => {
    expect(s.otherwise ?? '').not.toBe('');
    expect(s.tell ?? '').not.toBe('');
    // Read at arm's length: a few short sentences, one action each.
    expect(s.do.length).toBeLessThan(170);
    expect(s.do.split(/[.!?](?:\s|$)/).filter(Boolean).length).toBeLessThanOrEqual(6);
  });
});

describe('a swollen seal', () => {
  const swollen = (...repairs: string[]): Job => {
    const job = new Job().answer('seal-log', 'b.front', { seal_condition: 'swollen' }).after(
      'seal-log',
      'b.front',
      { raise: 'seal-torn', at: 'b.front' },
      ...repairs.map((repair, i) => ({
        step: 'torn-what',
        at: 'b.front',
        answers: { repair },
        ...(i < repairs.length - 1 ? { held: 'swollen-goes' } : {}),
      })),
    );
    job.step('seal-log', 'b.front').held = 'torn-raised';
    // A new seal is not washed.
    const washed = repairs.at(-1) === 'replace' ? ['seal-solvent', 'seal-clean'] : [];
    return job.drop((x) => x.at === 'b.front' && washed.includes(x.step));
  };
  it('is asked about', () => {
    const job = new Job().answer('seal-log', 'b.front', { seal_condition: 'swollen' });
    expect(refused(job.run())).toMatch(/Report "Seal torn, bent or swollen"/);
  });
  it.each(['glue', 'straighten'])('is not repaired (%s)', (repair) => {
    expect(refused(swollen(repair).run())).toMatch(/Swollen rubber never goes back.*can’t be overruled/);
  });
  it('is replaced, and the sheet says so', () => {
    const run = swollen('glue', 'replace').run();
    expect(finished(run)).toBe(true);
    expect(toMarkdown(sheetOf(run.state))).toContain('This seal had swollen. A new one is fitted.');
  });
  it('that popped off in the run-in is asked about too', () => {
    const gate = model.steps.get('popped')?.gates?.find((g) => g.id === 'damaged-raised');
    expect(gate?.must).toContain('swollen');
  });
});

describe('the reason beside how the front cover comes off', () => {
  const why = (job: Job): string => {
    const { values } = job.run().state;
    return fillIn(values, model.steps.get('open-front')?.why ?? '', 'b');
  };
  it('speaks of the edge of a rubber seal, and of the wire ring where that holds a shield', () => {
    expect(why(new Job())).toMatch(/inner edge gives a little/);
    const ring = why(new Job().answer('seal-make', 'b.front', { seal_kind: 'shield-ring' }));
    expect(ring).toMatch(/wire ring alone holds/);
    expect(ring).not.toMatch(/inner edge/);
  });
});
