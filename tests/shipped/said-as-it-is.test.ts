/** What was said of a seal, a dose, a drawing or a syringe that was not so: each of these stood on a screen or a sheet once. */
import { describe, expect, it } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { modelFor } from '../procedure/library.js';
import { finished, Job, model, outAgain, refused } from './good-job.js';

const doOf = (state: State, step: string, at: string): string =>
  fillIn(state.values, model.steps.get(step)?.do ?? '', at);
function act(state: State, action: Parameters<typeof propose>[1]): State {
  const p = propose(state, action, 'AP');
  if (!p.ok) throw new Error(p.message);
  const at = new Date(state.now).toISOString();
  const more = p.drafts.map((d, n) => ({ ...d, seq: state.entries.length + 1 + n, at }) as Entry);
  return new State(state.model, [...state.entries, ...more], state.now);
}

describe('a rotor-side seal that cannot be seen', () => {
  const unseen = (): State => {
    const job = new Job();
    job.step('seal-make', 'a.back').answers = { seal_kind: 'unseen' };
    return job.upTo('history', 'a').run().state;
  };
  it('is called what it is, and no metal shield', () => {
    const { values } = unseen();
    expect(values.get('closing_words', 'a.back')).toMatchObject({ value: expect.stringMatching(/^cannot be seen/) });
    expect(values.get('rubber_here', 'a.back')).toMatchObject({ value: 'unknown' });
  });
  it('counts as no steel once it is seen to be rubber and nobody has said yet which', () => {
    const state = unseen();
    const of = state.entries.find((e) => e.kind === 'answer' && e.key === 'seal_kind' && e.place === 'a.back')!.seq;
    const seen = act(state, {
      ...{ do: 'correct', step: 'seal-make', place: 'a.back', key: 'seal_kind', of, text: 'gap', reason: 'seen now' },
    } as const);
    const { values } = seen;
    const rubber = values.get('rubber_here', 'a.back');
    expect(rubber.known ? rubber.value : 'unknown').toBe('unknown');
  });
});

it('says which seal is looked at where a new one takes the place of a torn one', () => {
  const torn = new Job().torn('b.front', { torn_where: 'lip', repair: 'replace' });
  expect(doOf(torn.upTo('seal-log', 'b.front').run().state, 'seal-log', 'b.front')).toMatch(
    /Put the torn seal away\. Take the NEW one\./,
  );
  expect(doOf(new Job().upTo('seal-log', 'b.front').run().state, 'seal-log', 'b.front')).not.toMatch(/NEW/);
});

it('asks at the dose for no closer agreement than the figures on the screen allow', () => {
  // 6 mL times 30 % is 1.8 mL, and 5.8 mL times 30 % is shown as 1.7 mL: 6 % apart.
  const { hold, tell } = model.steps.get('dose')!;
  expect([hold?.self_check, tell]).toEqual([
    expect.stringMatching(/to 10 %\.$/),
    expect.stringMatching(/less than 10 %/),
  ]);
});

describe('a seal that stays in', () => {
  const staysIn = (): Job => new Job().backSealStays({ left_by: 'no-idea' });
  it('stands in the drawing of round 1', () => {
    expect(model.steps.get('gap-fill')?.draw?.with?.seals).toBe('sides_left_in');
    const { values } = staysIn().upTo('bearing-solvent', 'a').run().state;
    expect(values.get('sides_left_in', 'a')).toMatchObject({ value: 'back' });
    expect(values.get('sides_left_in', 'b')).toMatchObject({ value: 'none' });
  });
});

describe('a dose that is changed after the front seal is in', () => {
  const closed = (): State => new Job().upTo('hand-turns', 'job').run().state;
  const changed = (state: State): State => {
    const of = state.entries.find((e) => e.kind === 'answer' && e.key === 'dose_set' && e.place === 'a')!.seq;
    return act(state, {
      ...{ do: 'correct', step: 'dose', place: 'a', key: 'dose_set', of, text: '1.7 mL', reason: 'misread' },
    } as const);
  };
  it('has the seal taken off first', () => {
    const remedy = changed(closed()).remedies.find((r) => r.view.step.id === 'race-fill');
    expect(remedy?.text).toMatch(/Take the front seal off\. Take out 0\.5\d? mL/);
  });
  it('says so in the step that takes it out too, and not where no seal was in', () => {
    const raised = act(changed(closed()), { do: 'raise', branch: 'dose-wrong', place: 'a', text: '' });
    expect(doOf(raised, 'put-right', 'a')).toMatch(
      /^Take the front seal off\. Gap by gap, with a blunt pick and onto one card, take out 0\.58 mL = 0\.52 g\.$/,
    );
    const open = new Job().upTo('refit-back', 'a').run().state;
    expect(doOf(act(open, { do: 'raise', branch: 'dose-wrong', place: 'a', text: '' }), 'put-right', 'a')).not.toMatch(
      /seal/,
    );
  });
});

describe('the syringe that was filled for the second bearing of the list first', () => {
  // 1.4 mL x 0.90 g/mL = 1.26 g leave it at b: from 14.10 g to 12.84 g. 2.3 mL x 8.281 mm/mL and 1.4 mL x 8.281 mm/mL = 11.6 mm.
  const mirrored = (before: string, after: string): Job => {
    const job = new Job()
      .answer('weigh-first', 'b', { weigh_before: '14.10 g' })
      .answer('weigh-first', 'a', { weigh_before: before })
      .answer('dose-check', 'a', { weigh_after: after });
    job.step('dose-check', 'b').answers = { check_by: 'travel', given_travel: '11.6 mm' };
    return job;
  };
  it('meets where travel and scale agree, without a question', () => {
    expect(finished(mirrored('12.84 g', '10.79 g').run())).toBe(true);
  });
  it('does not meet where they differ by a third of the dose', () => {
    expect(refused(mirrored('12.40 g', '10.35 g').run())).toMatch(/is not next: “The weights do not agree”/);
  });
});

it('never says of an oil that it is an oil oil', () => {
  const job = new Job().answer('grease-kind', 'job', { base_oil: 'mineral' });
  const sheet = sheetOf(job.run().state);
  expect(`${toMarkdown(sheet)}\n${JSON.stringify(sheet)}`).not.toMatch(/\boil (?:base )?oil\b/i);
});

it('opens the top-up again where noise opens its weighing again', () => {
  const opens = model.procedure.branches?.find((b) => b.id === 'run-in-noise')?.reopens ?? [];
  expect(opens).toEqual(expect.arrayContaining(['weigh-first', 'top-up', 'dose-check']));
});

it('asks for a new report of a seal that was reported torn once and pops off damaged', () => {
  const good = new Job();
  const rows = good.step('run-in-log').rows ?? [];
  good.step('run-in-log').rows = rows.slice(0, 5);
  const torn = good
    .torn('a.front', { torn_where: 'bent', repair: 'replace' })
    .after(
      'run-in-log',
      'job',
      { raise: 'seal-popped-off', at: 'a.front' },
      { step: 'popped-stop', at: 'a.front', answers: { popped_locked: 'locked', popped_dead: 'proven' } },
      ...outAgain,
      { step: 'popped', at: 'a.front', answers: { popped_why: 'damaged' } },
    );
  expect(refused(torn.run())).toMatch(/Report "Seal torn, bent or swollen" for this seal/);
});

it('prints no strip with marks that were never drawn, once the job is finished', () => {
  const { state } = new Job().run();
  expect(sheetOf(state).strip?.marks.length).toBe(2);
  const e = state.entries.find((x) => x.kind === 'answer' && x.key === 'syringe_bore_calliper')!;
  let after = act(state, {
    ...({ do: 'correct', step: 'syringe', place: 'job', key: 'syringe_bore_calliper', of: e.seq } as const),
    ...{ text: '12.0 mm', reason: 'misread' },
  });
  for (const r of after.remedies)
    after = act(after, { do: 'settle', step: r.view.step.id, place: r.view.place, reason: 'nothing to do' });
  expect(after.finished).toBe(true);
  expect(sheetOf(after).strip).toBeUndefined();
});

it('of a rotor on the bench nobody confirms a lock that hangs nowhere, and each list of a test has an answer for none made', () => {
  const steps = ['regrease-in-place', 'inspect-after-run'].flatMap((id) => modelFor(id).procedure.steps);
  const isolate = steps.find((s) => s.id === 'isolate');
  expect(isolate?.tell).toMatch(/^In its machine: your own lock .* On a bench: no lead of it goes anywhere\./);
  const tests = steps.flatMap((s) => s.ask ?? []).filter((q) => q.kind === 'choice' && q.label === 'Terminals');
  expect(tests.length).toBeGreaterThan(7);
  for (const q of tests)
    expect(q.kind === 'choice' && q.options.map((o) => o.label).join('; ')).toContain(
      'Not measured, or meter not tested',
    );
});
