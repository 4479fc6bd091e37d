/** A machine that was together is opened again: what made it safe is done anew first, what follows is done anew after. */
import { describe, expect, it } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import type { ReplayItem } from '../../src/engine/replay/replay-file.js';
import { cautionsAt } from '../../src/engine/steps/cautions.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { sayOf } from '../../src/procedure/caution.js';
import { inspectionJob, Job, model, outAgain, refused } from './good-job.js';

const locked: ReplayItem = { step: 'own-lock', answers: { own_lock: 'hangs', dead_today: 'proven' } };
const lost: ReplayItem = { step: 'dose-as-set', at: 'b', answers: { dose_fault: 'uncounted' } };
const right: ReplayItem = { step: 'put-right', at: 'b', rows: [{ moved: 'taken-out', out_mass: '0.05 g' }] };
const wrong: ReplayItem = { raise: 'dose-wrong', at: 'b' };
/** The job as far as that step, and what is done then. */
const until = (step: string, place: string, items: readonly ReplayItem[], from = new Job()): Job => {
  const then = from.items.slice(from.items.indexOf(from.step(step, place)) + 1).length;
  from.items.splice(from.items.length - then, then, ...items);
  return from;
};
/** What comes next. */
const next = (job: Job): string => {
  const outcome = job.run();
  return outcome.ok ? (outcome.state.available()[0]?.step.title ?? 'nothing') : outcome.message;
};
/** The good job with coolant, in which the winding is measured. */
const wet = (): Job =>
  new Job().answer('history', 'a', { got_in: ['coolant'] }).before('run-in-plan', 'job', {
    step: 'winding-dry',
    answers: { rated_volts: '400', ir_reading: '180', ir_temp: '21 C' },
  });

describe('a dose that is found wrong', () => {
  it('while the rotor lies open is put right at once', () => {
    expect(next(until('dose-check', 'b', [wrong]))).toBe('What was set is in');
  });

  it('once the machine is together has what is wrong said first, then the rotor taken out and its magnets covered', () => {
    expect(next(until('reassemble', 'job', [wrong]))).toBe('What was set is in');
    expect(next(until('reassemble', 'job', [wrong, lost]))).toBe('Motor leads apart');
    expect(next(until('reassemble', 'job', [wrong, lost, ...outAgain]))).toBe('Take grease out or add it');
    const says = (job: Job): string => {
      const { state } = job.run();
      return fillIn(state.values, state.view('hold-rotor', 'job')!.step.do, 'job');
    };
    expect(says(until('reassemble', 'job', [wrong]))).toMatch(/Take the rotor out as its maker says/);
    expect(says(until('magnets', 'job', []))).not.toMatch(/Take the rotor out/);
  });

  it('once power was put back is touched only when it is locked and proven dead anew', () => {
    expect(next(until('run-in-plan', 'job', [wrong, lost]))).toBe('Your own lock, no voltage today');
    expect(next(until('run-in-plan', 'job', [wrong, lost, locked]))).toBe('Motor leads apart');
  });

  it('has the winding measured anew, and the machine made fit to drive, before it runs', () => {
    const closing: [string, string?][] = [
      ['refit', 'b.front'],
      ['seals-seated', 'b'],
    ];
    const shut = new Job().again(...closing, ['hand-turns'], ['reassemble']);
    const items = [wrong, lost, locked, ...outAgain, right, ...shut];
    expect(next(until('run-in-plan', 'job', items, wet()))).toBe('Insulation before power');
    const measured = [...items, ...wet().again(['winding-dry'])];
    expect(next(until('run-in-plan', 'job', measured, wet()))).toBe('Run-in stages');
  });
});

describe('a machine that is opened for a noise', () => {
  const loud: readonly ReplayItem[] = [
    { raise: 'run-in-noise', at: 'a' },
    { step: 'noise-stop', at: 'a', answers: { noise_locked: 'locked', noise_dead: 'proven' } },
  ];
  const [apart, open, blocks, film] = outAgain as [ReplayItem, ReplayItem, ReplayItem, ReplayItem];
  const start = (where: 'bench' | 'stator', magnets: boolean): Job => {
    const job = new Job().answer('magnets', 'job', { magnets_found: magnets ? 'found' : 'papers-none' });
    if (where === 'stator')
      job
        .answer('isolate', 'job', { isolated: 'locked' })
        .answer('magnets', 'job', { in_stator: 'yes' })
        .drop((x) => x.step === 'hold-rotor' || x.step === 'machine-dead')
        .after('isolate', 'job', { step: 'prove-dead', answers: { dead: 'proven' } })
        .after('magnets', 'job', ...(magnets ? [apart, open] : [open]))
        .before('wash', 'a', { ...locked, after: '22 h' } as ReplayItem);
    if (where === 'stator') delete job.step('wash', 'a').after;
    if (!magnets) {
      job.drop((x) => x.step === 'cover-magnets');
    }
    return job;
  };
  const order = (job: () => Job, ...items: readonly ReplayItem[]): string[] =>
    items.map((_, n) => next(until('run-in-plan', 'job', [...loud, ...items.slice(0, n)], job())));
  const titles = ['Motor leads apart', 'Open the machine', 'Support the rotor', 'Cover the magnets'];
  const [leads, opened, support, cover] = titles as [string, string, string, string];
  const look: ReplayItem = { step: 'noise-what', at: 'a', answers: { noise_cause: 'rubbing' } };
  it.each([
    ['bench', true, [apart, open, blocks, film, look], [leads, opened, support, cover]],
    ['bench', false, [open, blocks, look], [opened, support]],
    ['stator', true, [apart, open, film, look], [leads, opened, cover]],
    ['stator', false, [open, look], [opened]],
  ] as const)('has a workable order: rotor at first in the %s, magnets %s', (where, magnets, items, said) => {
    expect(order(() => start(where, magnets), ...items)).toEqual([...said, 'Noise or heat in the run-in']);
  });
  it('has the rotor-side seal out before it is washed, and the syringe filled before it is dosed', () => {
    const out = [...loud, apart, open, blocks, film];
    const seen = (noise_cause: string, more = {}): ReplayItem =>
      ({ step: 'noise-what', at: 'a', answers: { noise_cause, ...more } }) as ReplayItem;
    const job = until('run-in-plan', 'job', [...out, seen('dirt'), ...new Job().again(['bench'])]);
    expect(next(job)).toBe('Push the rotor-side seal out');
    const { state } = job.run();
    expect(state.view('fill-syringe', 'job')?.status).not.toBe('done');
    // The same seal goes back in only with a reason.
    const same = until('run-in-plan', 'job', [...out, seen('rubbing', { rub_seen: 'front' })]);
    expect(refused(same.run())).toMatch(/The same seal rubs again\. Report "Seal torn, bent or swollen"/);
  });
  it('asks for a report of the seal that rubs, made after the look: none of before, none of the other seal', () => {
    const torn = (at: string): ReplayItem => ({ raise: 'seal-torn', at });
    const seen = { step: 'noise-what', at: 'a', answers: { noise_cause: 'rubbing', rub_seen: 'front' } } as ReplayItem;
    const held = { ...seen, held: 'rub-mended' } as ReplayItem;
    const stops = (before: readonly ReplayItem[], ...after: readonly ReplayItem[]): boolean => {
      const { state } = until('run-in-plan', 'job', [
        ...before,
        ...loud,
        apart,
        open,
        blocks,
        film,
        held,
        ...after,
      ]).run();
      return state.view('noise-what', 'a')!.gates.some(({ gate }) => gate.id === 'rub-mended');
    };
    expect(stops([])).toBe(true);
    expect(stops([], torn('a.back'))).toBe(true);
    expect(stops([], torn('a.front'))).toBe(false);
    const mended: ReplayItem[] = [
      torn('a.front'),
      { step: 'torn-what', at: 'a.front', answers: { torn_where: 'lip', repair: 'replace' } },
    ];
    const job = new Job().before('seal-log', 'a.front', ...mended);
    job.drop((x) => x.at === 'a.front' && ['seal-solvent', 'seal-clean'].includes(x.step));
    const { state } = until('run-in-plan', 'job', [...loud, apart, open, blocks, film, held], job).run();
    expect(state.values.get('event_seal_torn', 'a.front')).toMatchObject({ value: true });
    expect(state.view('noise-what', 'a')!.gates.map(({ gate }) => gate.id)).toEqual(['rub-mended']);
  });
  it('on the bench a damaged seal that popped off is let go on once it is reported', () => {
    const popped = (...after: ReplayItem[]): readonly string[] => {
      const why = { step: 'popped', at: 'a.front', answers: { popped_why: 'damaged' }, held: 'damaged-raised' };
      const { state } = until('hand-turns', 'job', [
        { raise: 'seal-popped-off', at: 'a.front' },
        why as ReplayItem,
        ...after,
      ]).run();
      return state.view('popped', 'a.front')!.gates.map(({ gate }) => gate.id);
    };
    expect(popped()).toEqual(['damaged-raised']);
    expect(popped({ raise: 'seal-torn', at: 'a.front' })).toEqual([]);
  });
  it('has film taken off a rotor without magnets too', () => {
    const job = new Job()
      .answer('magnets', 'job', { magnets_found: 'papers-none' })
      .drop((x) => x.step === 'cover-magnets')
      .answer('reassemble', 'job', { film_off: 'no' });
    expect(refused(job.run())).toMatch(/Film left on is drawn in and burns.*can’t be overruled/);
  });
  it('is opened by nobody whose leads are not apart or whose rings are hot', () => {
    const stopped = (item: ReplayItem, ...before: ReplayItem[]) =>
      refused(until('run-in-plan', 'job', [...loud, ...before, item], start('bench', true)).run());
    expect(stopped({ step: 'part-leads', answers: { leads_apart: 'no' } })).toMatch(/can’t be overruled/);
    expect(stopped({ step: 'open-machine', answers: { rings_cool: 'no' } }, apart)).toMatch(
      /38 °C.*can’t be overruled/,
    );
  });
  it('lets nobody open guard and covers at a look before leads and rings allow it', () => {
    const look = (step: string, answers: Record<string, string>) =>
      refused(inspectionJob().answer(step, 'job', answers).run());
    expect(look('part-leads', { leads_apart: 'no' })).toMatch(/apart and covered.*can’t be overruled/);
    expect(look('open-up', { rings_cool: 'no' })).toMatch(/38 °C.*can’t be overruled/);
    const found = inspectionJob().before('thrown', 'job', { raise: 'seal-off', at: 'a.front' }, {
      step: 'seal-stop',
      at: 'a.front',
      answers: { seal_locked: 'locked', seal_dead: 'proven' },
    } as ReplayItem);
    found.items.splice(found.items.indexOf(found.step('thrown')));
    expect(next(found)).toBe('Motor leads apart');
  });
});

describe('a machine that was opened for a look', () => {
  it('is closed, its leads back and the locks off, before anybody hears that it runs on', () => {
    const look = (...closing: ReplayItem[]): Job => {
      const job = inspectionJob().drop((x) => x.step === 'out-of-service' || x.step === 'bring');
      job.answer('seal-outside', 'a.back', { outside: 'dry' }).answer('listen', 'b', { heard: 'smooth', tone: 'none' });
      for (const place of ['a', 'b']) job.answer('verdict', place, { fate: 'run-on' });
      job.step('warmth', 'b').rows = [0, 10, 10].map((after) => ({ after: `${after} min`, ring_temp: '40 C' }));
      return job.before('statement', 'job', ...closing).upTo('statement');
    };
    expect(next(look())).toBe('Close the machine');
    const open: ReplayItem = { step: 'close-up', answers: { closed_up: 'no' } };
    expect(refused(look(open).run())).toMatch(/Nothing is driven that is open.*can’t be overruled/);
    expect(next(look({ step: 'close-up', answers: { closed_up: 'yes' } }))).toBe('Next look');
  });
});

describe('a spike for which the machine is opened', () => {
  const raised: ReplayItem = { raise: 'temperature-spike', at: 'job' };
  const dead: readonly ReplayItem[] = [
    { raise: 'run-in-noise', at: 'a' },
    { step: 'noise-stop', at: 'a', answers: { noise_locked: 'locked', noise_dead: 'proven' } },
  ];
  const at = (...items: readonly ReplayItem[]) => {
    const job = new Job();
    const log = job.step('run-in-log');
    log.rows = (log.rows ?? []).slice(0, 10);
    const outcome = until('run-in-log', 'job', items, job).run();
    const spike = model.steps.get('spike')!;
    return {
      told: cautionsAt(outcome.state.values, spike, 'job').map(sayOf).join(),
      says: fillIn(outcome.state.values, spike.do, 'job'),
      wait: outcome.state.values.evaluate(spike.wait!.minutes, 'job'),
    };
  };
  it('says no more that the power is on, and waits for no cooling', () => {
    for (const items of [[raised], [raised, ...dead], [raised, ...dead, ...outAgain.slice(0, 1)]]) {
      expect(at(...items).told).toMatch(/The power is on and kills/);
      expect(at(...items).wait).toMatchObject({ value: 30 });
    }
    const open = at(raised, ...dead, ...outAgain);
    expect(open.told).toBe('');
    expect(open.says).toMatch(/switched off, proven dead, open and cool/);
    expect(open.wait).toMatchObject({ value: 0 });
  });
});

it('a machine that was closed after a look is locked out anew for a seal that comes off later', () => {
  const job = inspectionJob().answer('verdict', 'b', { fate: 'watch' });
  job.step('verdict', 'b').overrule = { gate: 'not-milder', reason: 'it is opened next week', initials: 'MN' };
  const closed: ReplayItem = { step: 'close-up', answers: { closed_up: 'yes' } };
  expect(next(until('verdict', 'b', [closed, { raise: 'seal-off', at: 'a.front' }], job))).toBe(
    'Stop it and prove it dead',
  );
});

describe('a bearing that is opened after it was run in', () => {
  it.each(['dose-wrong', 'seal-torn', 'seal-popped-off', 'cage-popped-out', 'ball-on-floor'])(
    'is run in anew: %s takes back log, coast-down and acceptance',
    (id) => {
      const reopened = model.procedure.branches!.find((b) => b.id === id)!.reopens ?? [];
      expect(reopened).toContain('reassemble');
      expect(model.steps.get('reassemble')?.reopens).toEqual(
        expect.arrayContaining(['run-in-log', 'run-in-bursts', 'standstill', 'run-in-accept', 'guard-back']),
      );
    },
  );
  it('is not accepted by the run-in that was before', () => {
    const { state } = until('run-in-accept', 'job', [{ raise: 'dose-wrong', at: 'b' } as ReplayItem]).run();
    for (const id of ['run-in-log', 'standstill', 'run-in-accept'])
      expect(state.view(id, 'job')?.status, id).not.toBe('done');
  });
});

describe('what is offered as unforeseen in the run-in', () => {
  it('is no empty syringe: the bearing is full and closed, and the power is on', () => {
    const offered = (step: string, place?: string): string | undefined => {
      const { state } = until(step, place ?? 'job', []).run();
      const p = propose(state, { do: 'raise', branch: 'grease-ran-out', place: 'b' }, 'AP');
      return p.ok ? undefined : p.message;
    };
    expect(offered('weigh-first', 'b')).toBeUndefined();
    expect(offered('dose-check', 'b')).toMatch(/Syringe empty/);
    expect(offered('run-in-plan')).toMatch(/Syringe empty/);
  });
});

describe('solvent that is fetched back for another wash', () => {
  it('finds place and surroundings made ready anew', () => {
    const found: ReplayItem[] = [
      { raise: 'ball-on-floor', at: 'a' },
      { step: 'ball-found', at: 'a', answers: { ball_found: 'whole' } },
    ];
    expect(next(until('solvent-out', 'job', found))).toBe('Make the place ready');
    const ready = [...found, ...new Job().again(['bench'])];
    expect(next(until('solvent-out', 'job', ready))).toBe('What else the solvent can reach');
    const covered = [...ready, ...new Job().again(['surroundings'])];
    expect(next(until('solvent-out', 'job', covered))).toBe('How much vapour');
    expect(next(until('dose-check', 'a', found))).toBe('Clean the bearing');
  });
});

it('the guard that was opened after the run-in is closed before anything else, and nobody goes past it', () => {
  expect(next(until('run-in-accept', 'job', []))).toBe('Close the guard');
  const open = until('run-in-accept', 'job', [{ step: 'guard-back', answers: { guard_back: 'no' } }]);
  expect(refused(open.run())).toMatch(/No lock comes off an open machine.*can’t be overruled/);
});
