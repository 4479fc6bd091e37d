/** What somebody who has done forty such jobs swore at: each of these was so once. */
import { describe, expect, it } from 'vitest';
import { correctable } from '../../src/engine/state/correctable.js';
import { fillIn, showKey } from '../../src/engine/values/texts.js';
import type { Gate, Step } from '../../src/procedure/schema.js';
import { Job, model, refused } from './good-job.js';

const stepOf = (id: string): Step => model.steps.get(id) as Step;

describe('the beads of a round', () => {
  const state = new Job().upTo('gap-fill', 'b').run().state;
  const figure = (key: string, at: string): number => {
    const v = state.values.get(key, at);
    if (!v.known || typeof v.value !== 'number') throw new Error(`${key} is not known`);
    return v.value;
  };

  it('of the second bearing end where the plunger then stands from the start line', () => {
    // One filling serves both: all of the first dose has left the barrel, and half of the second is still to go.
    const perMl = figure('travel_per_ml', 'job');
    const first = figure('went_in', 'a') * perMl;
    const half = (figure('dose_set', 'b') / 2) * perMl;
    expect(figure('half_target', 'b')).toBeCloseTo(first + half, 6);
    expect(figure('half_target', 'a')).toBeCloseTo((figure('dose_set', 'a') / 2) * perMl, 6);
    expect(stepOf('gap-fill').show).toEqual(expect.arrayContaining(['half_now', 'half_target', 'bead_string']));
  });

  it('are laid there and back: each is longer than its gap', () => {
    // 1.3 mL to 8 gaps of two raceways is 81.25 mm3 a bead; from a tip of 2 mm (3.1416 mm2) that is 25.9 mm, and as a
    // ball 5.4 mm across (by hand). Between 8 balls of 7.9 mm on a pitch circle of 33.5 mm there are 5.2 mm.
    for (const round of ['gap-fill', 'race-fill']) {
      const text = fillIn(state.values, stepOf(round).do, 'b');
      expect(text).toContain('as strips');
      expect(text).not.toMatch(/line of grease/);
    }
    expect(fillIn(state.values, stepOf('gap-fill').do, 'b')).toContain(
      `${showKey(state.values, 'bead_string', 'b')} long on the`,
    );
    expect(stepOf('race-fill').show).toContain('bead_now');
    expect(figure('bead_string', 'b')).toBeGreaterThan(figure('bead_diameter', 'b'));
  });

  it('are counted by their gaps, and half of them is told in grams too', () => {
    expect(stepOf('gap-fill').do).toContain('Count aloud. Stop after ALL gaps: plunger moved {half_travel}.');
    expect(figure('half_grams', 'b')).toBeCloseTo((figure('dose_set', 'b') / 2) * figure('grease_density', 'job'), 6);
    expect(stepOf('weigh-half').show).toContain('half_grams');
  });
});

describe('a cage that popped out', () => {
  it('goes back in behind the balls, and these go in while the rings are off centre', () => {
    const todo = fillIn(new Job().run().state.values, stepOf('cage-back').do, 'b');
    const order = [
      'outer ring aside',
      'Put the balls in',
      'Push it back',
      'equal spaces',
      'Press the cage in',
      'Count',
    ];
    const found = order.map((words) => todo.indexOf(words));
    expect(found).toEqual([...found].sort((a, b) => a - b));
    expect(found[0]).toBeGreaterThanOrEqual(0);
  });
});

describe('a seal that is replaced', () => {
  const replaced = (): Job =>
    new Job()
      .answer('seal-log', 'b.front', { seal_condition: 'lip' })
      .torn('b.front', { torn_where: 'lip', repair: 'replace' });
  it('is neither washed nor asked a solvent for, and the new one is named where it goes in', () => {
    const { state } = replaced().upTo('refit-back', 'b').run();
    for (const step of ['seal-solvent', 'seal-clean'])
      expect(state.view(step, 'b.front')?.status, step).toBe('not-needed');
    expect(fillIn(state.values, stepOf('refit').do, 'b.front')).toMatch(/Put the old seal away. Lay the NEW one flat/);
    expect(fillIn(state.values, stepOf('refit').do, 'a.front')).toMatch(/^Lay the seal flat/);
    expect(fillIn(state.values, stepOf('refit-back').do, 'b')).toMatch(/^Slide the seal along/);
  });
});

describe('what is offered at a stop', () => {
  const offered = (job: Job, gate: string): string[] => {
    const { state } = job.upTo('ball-verdict', 'a').run();
    const of = stepOf('ball-verdict').gates?.find((g) => g.id === gate) as Gate;
    const { readings, named } = correctable(state, of, 'a');
    return readings.slice(0, named).map((r) => r.question.key);
  };
  it('on the balls can be the reading of the magnet', () => {
    expect(offered(new Job(), 'balls-agree')[0]).toBe('magnet');
    expect(offered(new Job(), 'steel-raised')[0]).toBe('magnet');
    expect(offered(new Job(), 'balls-proven')).toContain('magnet');
  });
  it('is the event that its words name', () => {
    const titles = new Map((model.procedure.branches ?? []).map((b) => [b.title, b.id]));
    const lacks = model.procedure.steps.flatMap((s) =>
      (s.gates ?? []).flatMap((g) =>
        [...g.say.matchAll(/[Rr]eport "([^"]+)"/g)]
          // One that names several raises the one that fits most.
          .filter((m, _, all) => titles.get(m[1] ?? '') !== g.raise && all.length === 1 && g.raise === undefined)
          .map((m) => `${s.id}.${g.id}: ${m[1]}`),
      ),
    );
    expect(lacks).toEqual([]);
  });
});

describe('nothing is asked or told twice', () => {
  it('no puller, where it was said that none can grip', () => {
    const { state } = new Job().upTo('clean-outside', 'a').run();
    expect(state.values.get('why_in_place', 'job')).toMatchObject({ value: 'no-pull' });
    expect(state.values.get('puller', 'job')).toMatchObject({ known: true, value: false });
    expect(state.view('costs', 'job')?.status).toBe('done');
    expect(refused(new Job().answer('costs', 'job', { puller: 'no' }).run())).toMatch(/does not apply here/);
  });
  it('no verdict on a second solvent that nobody chose', () => {
    const shown = (rinse: string): boolean => {
      const job = new Job()
        .answer('solvent-choice', 'job', { rinse })
        .drop((x) => rinse === 'none' && x.step === 'rinse-bearing')
        .upTo('bearing-solvent', 'a');
      return job.run().state.values.get('cage_rinse', 'a').known;
    };
    expect(shown('isopropanol')).toBe(true);
    expect(shown('none')).toBe(false);
  });
  it('no Enter for work that the answers say is done', () => {
    for (const id of ['seal-make', 'cage-out', 'cage-back']) expect(stepOf(id).says_done, id).toBe(true);
  });
});

it('leaves work that needs no dry bearing open while the solvent dries', () => {
  const job = new Job();
  const dry = (x: (typeof job.items)[number]): boolean => 'step' in x && x.step === 'dry';
  job.items.length = job.items.findLastIndex(dry) + 1;
  const { state } = job.run();
  expect(state.view('dry', 'b')?.status).toBe('waiting');
  const open = state.available().map((v) => v.step.id);
  expect(open).toEqual(expect.arrayContaining(['grease-kind', 'syringe']));
});
