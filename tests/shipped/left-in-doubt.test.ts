/** What stays doubtful is asked about, told on the sheet and on the tag in the words of what was found. */
import { describe, expect, it } from 'vitest';
import type { State } from '../../src/engine/state/state.js';
import { vouchWords } from '../../src/engine/state/vouch.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { closed } from './closures.js';
import { finished, Job, model, refused } from './good-job.js';

const found = (...inside: string[]): Job => new Job().answer('raceway-look', 'a', { inside_findings: inside });
const why = { gate: 'second-doubt', reason: 'turns like the other one', initials: 'HB' };
const value = (state: State, key: string, place = 'a'): unknown => {
  const v = state.values.get(key, place);
  return v.known ? v.value : undefined;
};
const advice = (job: Job): [unknown, unknown] => {
  const { state } = job.upTo('second-verdict', 'a').run();
  return [value(state, 'second_advice'), value(state, 'second_advice_why')];
};
const oddOf = (state: State): string =>
  sheetOf(state)
    .front.unusual.map((l) => l.text)
    .join('\n');

describe('a bearing that is rough after it was cleaned', () => {
  it('is kept only with a reason, and can be washed once more', () => {
    expect(advice(found('roughness'))).toEqual(['unclear', expect.stringMatching(/wash once more, then feel again/)]);
    const said = refused(found('roughness').run());
    expect(said).toMatch(/Unclear: rough though it was cleaned.*Report "Not clean yet"/);
    expect(said).not.toMatch(/can’t be overruled/);
    const job = found('roughness').upTo('second-verdict', 'a');
    job.items.push({ raise: 'not-clean', at: 'a' });
    expect(job.run().state.view('raceway-look', 'a')?.ledger).toBeUndefined();
  });
  it('is scrap when it is rough again', () => {
    const job = found('roughness').upTo('second-verdict', 'a');
    const again = job.again(
      ['wash', 'a'],
      ['rinse-bearing', 'a'],
      ['dry', 'a'],
      ['white-cloth', 'a'],
      ['raceway-look', 'a'],
    );
    Object.assign(again[0]!, { after: '5 min' });
    Object.assign(again[3]!, { after: '40 min' });
    job.items.push({ raise: 'not-clean', at: 'a' }, { step: 'wash-again', at: 'a' }, ...again);
    const outcome = job.run();
    expect(outcome.ok ? 'passed' : outcome.message).toBe('passed');
    expect(value(outcome.state, 'second_advice')).toBe('scrap');
    expect(value(outcome.state, 'second_advice_why')).toBe('still rough after another wash');
  });
  it('is told as not decided until it is', () => {
    const state = found('roughness').upTo('second-verdict', 'a').run().state;
    expect(oddOf(state)).toMatch(/Second look unclear \(rough though it was cleaned.*\): not decided\./);
    expect(oddOf(state)).not.toContain('Kept, though');
  });
  it('has that on its sheet, and no marks that nobody saw', () => {
    const job = found('roughness').answer('next-inspection', 'job', { inspect_set: '100' });
    job.step('second-verdict', 'a').overrule = why;
    const outcome = job.run();
    expect(finished(outcome)).toBe(true);
    const { due } = sheetOf(outcome.state).front;
    expect(due?.why.map((l) => l.text)).toContain('kept though still rough after cleaning.');
    expect(due?.why.map((l) => l.text)).not.toContain('marks on a raceway.');
    expect(oddOf(outcome.state)).toMatch(/Kept, though the second look left it unclear: rough though it was cleaned/);
  });
});

describe('brown marks that nothing feels', () => {
  it('are neither dents nor rust: unclear until they are felt', () => {
    expect(advice(found('stains'))).toEqual(['unclear', expect.stringMatching(/look again; felt is a dent/)]);
    expect(advice(found('dents'))[0]).toBe('scrap');
  });
  it('have a digit of their own, and so has what the hand feels', () => {
    const asks = model.steps.get('raceway-look')?.ask?.[0];
    const values = asks?.kind === 'series' ? asks.options.map((o) => o.value) : [];
    expect(values.slice(0, 9)).toEqual(expect.arrayContaining(['none', 'stains', 'roughness', 'dents']));
  });
});

describe('the grease for a bearing whose seal stays in', () => {
  const stays = (): Job =>
    new Job()
      .backSealStays({ left_by: 'estimated', left_entered: '0.1' })
      .answer('bearing-solvent', 'a', { clean_way: 'swab' });
  it('clashes with nothing that nobody knows', () => {
    const job = stays();
    job.step('history', 'a').answers = { got_in: ['nothing'], old_thickener: 'unknown' };
    const said = refused(job.run());
    expect(said).toMatch(/nobody has proven that these two are compatible/);
    expect(said).not.toMatch(/are not compatible/);
  });
  it.each([
    ['a.back', /swells the rubber \(rotor side: EPDM\)\. Take [^.]*"\.(?! Or fit)/],
    ['a.front', /swells the rubber \(front: EPDM\)\..* Or fit a front seal that resists it/],
  ])('is told from the seal that it swells: %s', (seal, sentence) => {
    // EPDM swells in mineral oil and PAO: the table of seals and oils.
    const job = new Job()
      .answer('seal-make', seal, { seal_rubber: 'epdm' })
      .answer('seal-solvent', seal, { seal_way: 'dry' });
    expect(refused(job.run())).toMatch(sentence);
  });
});

describe('a bearing that is only topped up', () => {
  const top = (): State => closed({ front: 'shield', back: 'shield' }).run().state;
  it('shows the share that its dose rests on, and no old grease as none', () => {
    const state = top();
    // A quarter of free volume times share.
    const [free, share, due] = ['free_volume', 'share_taken', 'dose_due'].map((k) => value(state, k) as number);
    expect(due).toBeCloseTo((free! * share!) / 100 / 4, 6);
    expect(value(state, 'left_told')).toBeUndefined();
    const hold = model.steps.get('dose')!;
    expect(vouchWords(state, hold, 'a', 'self')).toMatch(/paper too - a quarter of free volume times share\./);
    expect(vouchWords(state, hold, 'b', 'self')).toMatch(/paper too - free volume times share\./);
  });
  it('has nobody vouch for tests of balls that nobody can reach', () => {
    const verdict = model.steps.get('ball-verdict')!;
    expect(vouchWords(top(), verdict, 'a', 'self')).toMatch(/No ball was tested\. I recorded not proven/);
    expect(vouchWords(top(), verdict, 'b', 'self')).toMatch(/from at least three balls, each tried twice/);
  });
  it('says so on the tag', () => {
    expect(
      sheetOf(top())
        .front.tag.map((r) => r.text)
        .join('\n'),
    ).toMatch(/Only topped up, old grease .* still in/);
  });
  it('is not called unclear until somebody looks where nobody can', () => {
    const job = closed({ front: 'shield', back: 'shield' }).answer('first-feel', 'a', { first_findings: ['dry'] });
    const { state } = job.upTo('first-verdict', 'a').run();
    expect(value(state, 'first_advice_why')).toMatch(/behind shields that stay nobody can clean or look: scrap it/);
  });
});

describe('the next look', () => {
  it('has no first look that comes later', () => {
    const job = found('play')
      .answer('duty', 'job', { top_speed: '14400 rpm' })
      .answer('make', 'a', { open_limit: '12000' })
      .answer('costs', 'job', { pair_price: '380', job_cost: '450' })
      .answer('grease-kind', 'job', { new_thickener: 'polyurea' })
      .answer('grease-figures', 'job', { grease_type: 'general' })
      .answer('next-inspection', 'job', { inspect_set: '26' });
    job.step('second-verdict', 'a').overrule = why;
    const { state } = job.run();
    const most = value(state, 'inspect_early', 'job') as number;
    expect(most).toBeLessThan(50);
    expect(value(state, 'look_by_hand', 'job')).toBe(most);
  });
});

it('tells an overruled stop with the figure that stood there', () => {
  const job = new Job().answer('syringe', 'job', { syringe_bore_calliper: '30 mm' });
  const marks = job.step('marks');
  const width = { gate: 'meters-closely', reason: 'weighed', initials: 'HB' };
  job.items.splice(
    job.items.indexOf(marks),
    job.items.length,
    { step: 'marks', held: 'meters-closely' },
    { correct: { step: 'syringe', at: 'job', key: 'syringe_bore_calliper', value: '25 mm', reason: 'misread' } },
    { step: 'marks', overrule: width },
  );
  const outcome = job.run();
  const told = sheetOf(outcome.state).overruled.find((o) => o.gate === 'meters-closely')?.says ?? '';
  const now = value(outcome.state, 'dose_width', 'job') as number;
  expect(told).toContain(`${now.toPrecision(2)}`);
});

it('shows in each round what goes in then, not the whole dose', () => {
  expect(model.steps.get('gap-fill')?.show).not.toContain('dose_sum');
  expect(model.steps.get('gap-fill')?.show).toContain('half_dose');
});
