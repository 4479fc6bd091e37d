/** A machine that was together is opened again: what made it safe is done anew first, what follows is done anew after. */
import { describe, expect, it } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import type { ReplayItem } from '../../src/engine/replay/replay-file.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { sayOf } from '../../src/procedure/caution.js';
import { Job, model } from './good-job.js';

const locked: ReplayItem = { step: 'own-lock', answers: { own_lock: 'hangs', dead_today: 'proven' } };
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
const out: readonly ReplayItem[] = [{ step: 'hold-rotor' }, { step: 'cover-magnets' }];

describe('a dose that is found wrong', () => {
  it('while the rotor lies open is put right at once', () => {
    expect(next(until('dose-check', 'b', [wrong]))).toBe('Take grease out or add it');
  });

  it('once the machine is together has the rotor taken out and its magnets covered first', () => {
    expect(next(until('reassemble', 'job', [wrong]))).toBe('Support the rotor');
    expect(next(until('reassemble', 'job', [wrong, out[0]!]))).toBe('Cover the magnets');
    expect(next(until('reassemble', 'job', [wrong, ...out]))).toBe('Take grease out or add it');
    const says = (job: Job): string => {
      const { state } = job.run();
      const view = state.view('hold-rotor', 'job')!;
      return [fillIn(state.values, view.step.do, 'job'), ...view.cautions.map(sayOf)].join('\n');
    };
    expect(says(until('reassemble', 'job', [wrong]))).toMatch(
      /Take the rotor out as its maker says[\s\S]*let a licensed/,
    );
    expect(says(until('magnets', 'job', []))).not.toMatch(/Take the rotor out|licensed/);
  });

  it('once power was put back is touched only when it is locked and proven dead anew', () => {
    expect(next(until('run-in-plan', 'job', [wrong]))).toBe('Your own lock, and dead today');
    expect(next(until('run-in-plan', 'job', [wrong, locked]))).toBe('Support the rotor');
  });

  it('has the winding measured anew, and the machine made fit to drive, before it runs', () => {
    const closing: [string, string?][] = [
      ['refit-back', 'b'],
      ['refit', 'b.front'],
      ['seals-seated', 'b'],
    ];
    const shut = new Job().again(...closing, ['hand-turns'], ['reassemble']);
    const items = [wrong, locked, ...out, right, ...shut];
    expect(next(until('run-in-plan', 'job', items, wet()))).toBe('Insulation before power');
    const measured = [...items, ...wet().again(['winding-dry'])];
    expect(next(until('run-in-plan', 'job', measured, wet()))).toBe('Run-in stages');
  });
});

describe('a bearing that is opened after it was run in', () => {
  it.each(['dose-wrong', 'seal-torn', 'seal-popped-off', 'cage-popped-out', 'ball-on-floor'])(
    'is run in anew: %s takes back log, coast-down and acceptance',
    (id) => {
      const reopened = model.procedure.branches!.find((b) => b.id === id)!.reopens ?? [];
      expect(reopened).toContain('reassemble');
      expect(model.steps.get('reassemble')?.reopens).toEqual(
        expect.arrayContaining(['run-in-log', 'run-in-bursts', 'standstill', 'run-in-accept']),
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
    expect(next(until('dose-check', 'a', found))).toBe('Clean the bearing');
  });
});
