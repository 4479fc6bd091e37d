/** What an entry would change before it is recorded, and what is told of work done; figures worked out by hand. */
import { describe, expect, it } from 'vitest';
import { type Action, propose } from '../../src/engine/actions/propose.js';
import { impact, withDrafts } from '../../src/engine/state/impact.js';
import { standingOf } from '../../src/engine/state/overruled.js';
import { restsOnShop } from '../../src/engine/state/shop-mark.js';
import { State } from '../../src/engine/state/state.js';
import { unfitNow, unfitSentence, unfitWords } from '../../src/engine/state/unfit.js';
import { vouchWords } from '../../src/engine/state/vouch.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { modelOf } from '../../src/procedure/model.js';
import {
  Bench,
  built,
  calculators,
  finished,
  modelFrom,
  prepared,
  pump,
  pumpText,
  readyToFill,
  tables,
} from './pump.js';

const correct = (step: string, place: string, key: string, text: unknown): Action => ({
  ...{ do: 'correct', step, place, key, text },
  reason: 'read wrongly',
});
const worn = (): Bench => built().correct('valve-look', 'a.inlet', 'seat', 'worn');

function told(bench: Bench, action: Action) {
  const p = propose(bench.state, action, 'AP');
  if (!p.ok) throw new Error(p.message);
  const { values, steps, gates, remedies } = impact(bench.state, p.drafts);
  return {
    values: values.map((v) => `${v.label}${v.where && ` of ${v.where}`}: ${v.old} to ${v.now}`),
    first: values.filter((v) => v.shown).length,
    steps: steps.map((s) => `${s.title}${s.where && ` of ${s.where}`} ${s.what}`),
    gates: gates.map((g) => `${g.title}${g.where && ` of ${g.where}`} ${g.gate} ${g.what}: ${g.say}`),
    remedies: remedies.map((r) => r.text),
  };
}
type Told = Partial<ReturnType<typeof told>>;

const ofB = ['Outlet valve', 'Measure the cylinder', 'Look at the valve', 'Keep or replace'];
const ofBLater = ['Fill with oil', 'Tighten the lid', 'Glue the badge', 'Polish', 'Letter the badge'];
const gone = [...ofB, ...ofBLater].map((title) =>
  title === 'Look at the valve'
    ? `${title} of Right head, inlet valve no longer needed`
    : `${title} of Right head no longer needed`,
);

describe('an entry changes', () => {
  const none = { values: [], first: 0, steps: [], gates: [], remedies: [] };
  it.each<[string, () => Bench, Action, Told]>([
    ['nothing where the same was read again', readyToFill, correct('bore', 'a', 'bore', '40'), none],
    [
      'a step that it stops',
      readyToFill,
      correct('pressure', 'job', 'gauge', 5),
      {
        ...none,
        values: ['Gauge: 0 to 5'],
        steps: ['Let the pressure off stopped'],
        gates: ['Let the pressure off no-pressure closes: The gauge shows 5. Bleed on.'],
      },
    ],
    [
      'a step that it lets go on',
      () =>
        new Bench()
          .answer('start', 'job', { heads: 'one', name_a: '' })
          .do({ do: 'caution', step: 'pressure', place: 'job' })
          .answer('pressure', 'job', { gauge: 12 }),
      { do: 'answer', step: 'pressure', place: 'job', key: 'gauge', text: 0 },
      {
        ...none,
        values: ['Gauge: 12 to 0'],
        steps: ['Let the pressure off released'],
        gates: ['Let the pressure off no-pressure opens: The gauge shows 12. Bleed on.'],
      },
    ],
    [
      // pi/4 x 36^2 x 50 mm3 = 50.89 mL, half of it 25.45; the other head keeps 17.67.
      'figures, those that a step shows or rests on first, a decision, and work done',
      () => readyToFill().done('fill', 'a'),
      correct('bore', 'a', 'bore', '36'),
      {
        values: [
          'Oil to pour of Left head: 31.4 ± 0.4 mL to 25.4 ± 0.3 mL',
          'Swept volume of Left head: 62.8 ± 0.7 mL to 50.9 ± 0.6 mL',
          'Bore of Left head: 40.0 ± 0.1 mm to 36.0 ± 0.1 mm',
          'Oil for each head: 31.4 ± 0.4 mL, 17.7 ± 0.2 mL to 25.4 ± 0.3 mL, 17.7 ± 0.2 mL',
          'Oil in all: 49.1 ± 0.4 mL to 43.1 ± 0.4 mL',
        ],
        first: 2,
        steps: ['Keep or replace of Left head reopened'],
        gates: [],
        remedies: ['Now 25.4 mL, it was 31.4 mL. Add or take out −6.0 mL.'],
      },
    ],
    [
      // pi/4 x 60^2 x 50 mm3 = 141.4 mL.
      'a decision that a gate now stops',
      readyToFill,
      correct('bore', 'b', 'bore', '60'),
      {
        first: 2,
        steps: ['Keep or replace of Right head stopped'],
        gates: ['Keep or replace of Right head too-wide closes: 141.4 mL is too much.'],
      },
    ],
    [
      'what is needed, and what asks something again',
      built,
      correct('valve-look', 'a.inlet', 'seat', 'worn'),
      {
        ...none,
        values: [
          'Seat of Left head, inlet valve: Good to Worn',
          'A seat is worn of Left head: no to yes',
          'Worn seats of Left head: 0 to 1',
        ],
        steps: [
          'Look at the valve of Left head, inlet valve open again',
          'Lap the seat of Left head, inlet valve needed',
        ],
      },
    ],
    [
      'what is no longer needed',
      worn,
      correct('valve-look', 'a.inlet', 'seat', 'good'),
      { steps: ['Lap the seat of Left head, inlet valve no longer needed'], gates: [] },
    ],
    [
      'a signature',
      finished,
      correct('witness', 'job', 'looks', 'no'),
      { ...none, values: ['Looks good: yes to no'], steps: ['Second pair of eyes sign again'] },
    ],
    [
      'a list of words',
      finished,
      correct('badge', 'a', 'letters', 'y,x'),
      { ...none, values: ['Letters of Left head: X, Y to Y, X'] },
    ],
    [
      'a reading of a log, without the lists that are made of its rows',
      finished,
      correct('run', 'job', 'leak', '0.8'),
      { ...none, values: ['Leak: 0.5 mL to 0.8 mL'] },
    ],
    [
      // The gate of a head that is left out opens nothing.
      'a whole head',
      () => readyToFill().correct('bore', 'b', 'bore', '60'),
      correct('start', 'job', 'heads', 'one'),
      {
        values: [
          'Heads: Two to One',
          'Oil for each head: 31.4 ± 0.4 mL, 70.7 ± 0.7 mL to 31.4 ± 0.4 mL',
          'Oil in all: 102.1 ± 0.8 mL to 31.4 ± 0.4 mL',
        ],
        steps: gone,
        gates: [],
      },
    ],
  ])('%s', (_, bench, action, expected) => {
    expect(told(bench(), action)).toMatchObject(expected);
  });

  it('a copy alone, numbered on from the last', () => {
    const bench = readyToFill();
    const note = { kind: 'note', place: 'job', text: 'a', by: 'AP' } as const;
    const after = withDrafts(bench.state, [note, note, note]);
    expect(after.entries.slice(-4).map((e) => e.seq)).toEqual([19, 20, 21, 22]);
    expect([bench.entries.length, bench.state.ledger.notes.length]).toEqual([19, 0]);
  });
});

describe('work done under another figure', () => {
  const filling = (...change: readonly (readonly [string, string])[]): Bench => {
    let text = pumpText;
    for (const [from, to] of change) text = text.replace(from, to);
    return readyToFill(new Bench(modelFrom(text))).done('fill', 'a');
  };
  const remedy = (bench: Bench): string | undefined => bench.state.remedies[0]?.text;
  const says = 'remedy: "Now {oil_due}, it was {oil_due.old}. Add or take out {oil_due.change}."';

  it('is told with each figure then and now, as far as it is known', () => {
    const bench = filling(
      ['rests_on: [oil_due]', 'rests_on: [oil_due, share, bore]'],
      [says, 'remedy: "{bore.old}, {bore.change}; {share.old}, {share.change}; {lid_area.old}, {lid_area.change}"'],
    );
    bench.correct('bore', 'a', 'bore', '36');
    expect(remedy(bench)).toBe('40 mm, −4 mm; 50 %, +0 %; not known, not known');
    bench.do({ do: 'settle', step: 'fill', place: 'a', reason: 'took some out' }).correct('bore', 'a', 'bore', '41');
    expect(remedy(bench)).toBe('36 mm, +5 mm; 50 %, +0 %; not known, not known');
  });

  it('is told where the figure has gone', () => {
    const lost = filling().correct('bore', 'a', 'bore', '160');
    expect(lost.state.remedies[0]?.changed).toEqual([
      { key: 'oil_due', label: 'Oil to pour', old: '31.4 mL', now: 'not known' },
    ]);
    expect(remedy(lost)).toBe('Now (oil to pour), it was 31.4 mL. Add or take out not known.');
  });
});

describe('what can be worked on', () => {
  it('stands with the job’s own steps before those of another place', () => {
    const before = 'not_after: [outlet-there, bore, valve-look, lap, decide]';
    const model = modelFrom(pumpText.replace('    title: Choose the oil', `    ${before}\n    title: Choose the oil`));
    const { state } = prepared(new Bench(model));
    const names = (place?: string) => state.available(place).map((v) => `${v.step.id}@${v.place}`);
    const all = ['outlet-there@a', 'outlet-there@b', 'oil-kind@job'];
    expect([names(), names('job')]).toEqual([all, all]);
    expect(names('b')).toEqual(['outlet-there@b', 'oil-kind@job', 'outlet-there@a']);
    expect(names('b.inlet')).toEqual(['outlet-there@b', 'oil-kind@job', 'outlet-there@a']);
  });

  it('and what a gate stops', () => {
    const stopped = (bench: Bench) => bench.state.board.stopped().map((v) => `${v.step.id}@${v.place}`);
    expect(stopped(built())).toEqual([]);
    expect(stopped(readyToFill().correct('bore', 'b', 'bore', '60'))).toEqual(['decide@b']);
    expect(stopped(worn().answer('valve-look', 'a.inlet', { wear: '2' }).done('lap', 'a.inlet'))).toEqual([
      'witness@job',
    ]);
    // The pressure comes first: what it holds up is not stopped by its own gate.
    expect(stopped(prepared().correct('pressure', 'job', 'gauge', 5))).toEqual(['pressure@job']);
  });
});

describe('what is signed', () => {
  const step = pump.steps.get('witness')!;
  const passed = (bench: Bench): Bench =>
    bench.answer('valve-look', 'a.inlet', { wear: '2' }).done('lap', 'a.inlet').do({
      do: 'overrule',
      step: 'witness',
      place: 'job',
      gate: 'seats-good',
      reason: 'spare ordered',
      initials: 'AP',
    });
  it('leaves out what went on against a stop, while it still would stop', () => {
    const words = (bench: Bench, role: 'mentor' | 'self') => vouchWords(bench.state, step, 'job', role);
    expect(words(built(), 'self')).toBe('I looked twice.');
    const { state } = built();
    for (const role of ['mentor', 'self'] as const)
      expect(vouchWords(state, pump.steps.get('glue')!, 'a', role)).toBe('');
    expect(words(passed(worn()), 'self')).toBe(
      'I looked twice. Except what went on against a stop here: “spare ordered”.',
    );
    expect(words(passed(worn()), 'mentor')).toBe(
      'Mentor looks Except what went on against a stop here: “spare ordered”.',
    );
    expect(words(passed(worn()).correct('valve-look', 'a.inlet', 'wear', '0.5'), 'self')).toBe('I looked twice.');
  });

  it('leaves it out only where the stop’s own condition may hold', () => {
    const when = (text: string) => {
      const model = modelFrom(
        pumpText.replace('id: seats-good, at: enter,', `id: seats-good, when: ${text}, at: enter,`),
      );
      const bench = built(new Bench(model));
      bench.add({
        kind: 'overrule',
        step: 'witness',
        place: 'job',
        gate: 'seats-good',
        reason: 'late',
        initials: 'AP',
        by: 'AP',
      });
      bench.correct('valve-look', 'a.inlet', 'seat', 'worn').answer('valve-look', 'a.inlet', { wear: '2' });
      return vouchWords(bench.state, model.steps.get('witness')!, 'job', 'self');
    };
    expect(when(`"oil == 'thick'"`)).toBe('I looked twice.');
    expect(when(`"oil == 'thin'"`)).toBe('I looked twice. Except what went on against a stop here: “late”.');
    expect(when('looks')).toBe('I looked twice. Except what went on against a stop here: “late”.');
  });
});

describe('a stop that somebody went on against', () => {
  const standing = ({ state, entries }: Bench) =>
    entries.flatMap((e) => (e.kind === 'overrule' ? [standingOf(state, e)] : []));
  const overrule = { do: 'overrule', reason: 'spare ordered', initials: 'AP' } as const;
  const look = { ...overrule, step: 'witness', place: 'job', gate: 'seats-good' } as const;
  const worn2 = (bench = built()): Bench =>
    bench
      .correct('valve-look', 'a.inlet', 'seat', 'worn')
      .answer('valve-look', 'a.inlet', { wear: '2' })
      .done('lap', 'a.inlet');
  const wear = (bench: Bench, mm: string): Bench => bench.correct('valve-look', 'a.inlet', 'wear', mm);
  // pi/4 x 60^2 x 50 mm3 = 141.4 mL, over 100 mL.
  const wide = (): Bench =>
    readyToFill()
      .correct('bore', 'b', 'bore', '60')
      .do({ ...overrule, step: 'decide', place: 'b', gate: 'too-wide' });
  const glued = (): Bench => {
    const bench = readyToFill();
    for (const h of ['a', 'b']) bench.done('fill', h).answer('screws', h, { screws: 4 });
    return bench.done('glue', 'a').do({ ...overrule, step: 'glue', place: 'a', gate: 'wait' });
  };
  const thin = modelFrom(
    pumpText.replace(
      '- { id: seats-good, at: enter,',
      `- { id: named, at: enter, must: "name_a == 'Left head'", say: Which?, overrule: with-reason }
      - { id: seats-good, when: "oil == 'thin'", at: enter,`,
    ),
  );
  const of = { kind: 'overrule', step: 'witness', place: 'job', reason: 'x', initials: 'AP', by: 'AP' } as const;
  it.each<[string, () => Bench, string[]]>([
    ['counts', () => worn2().do(look), ['in force']],
    ['counts no more with another reading that stops too', () => wear(worn2().do(look), '3'), ['lapsed']],
    ['is the latest where two are', () => wear(worn2().do(look), '3').do(look), ['lapsed', 'in force']],
    ['is not needed where nothing stops now', () => wear(worn2().do(look), '0.5'), ['not needed']],
    [
      'nor where its condition does not hold now',
      () =>
        worn2(built(new Bench(thin)))
          .do(look)
          .correct('oil-kind', 'job', 'oil', 'thick'),
      ['not needed'],
    ],
    ['is of this condition', () => worn2(built(new Bench(thin))).do(look), ['in force']],
    [
      'counts although another stop holds there now',
      () =>
        worn2(built(new Bench(thin)))
          .do(look)
          .correct('start', 'job', 'name_a', 'Old'),
      ['in force'],
    ],
    ['is of a decision', wide, ['in force']],
    ['is of a place that is left out now', () => wide().correct('start', 'job', 'heads', 'one'), ['lapsed']],
    [
      'is of a step that is begun anew',
      () => wide().do({ do: 'raise', branch: 'ring-dropped', place: 'b' }),
      ['lapsed'],
    ],
    ['is a wait', glued, ['in force']],
    [
      'is one that there is not',
      () =>
        worn2()
          .do(look)
          .add({ ...of, gate: 'nope' }),
      ['in force', 'lapsed'],
    ],
  ])('%s', (_, bench, expected) => {
    expect(standing(bench())).toEqual(expected);
  });
});

it('what rests on a row of the shop is marked, however far below', () => {
  const rows = [
    ...tables.oils!.rows,
    { id: 'own', tag: 'shop', source: 'our tank', grade: 'VG 32', share: 60 },
  ] as const;
  const shop = { oils: { id: 'oils', rows } };
  const { procedure } = loadProcedure(pumpText, 'pump.yaml', { tables: shop, calculators });
  const bench = readyToFill(new Bench(modelOf(procedure!, 'hash', shop, calculators)));
  const marked = (b: Bench) =>
    ['oil_total', 'oil_due', 'oil', 'swept'].map((key) => restsOnShop(b.state, key, key === 'oil_total' ? 'job' : 'a'));
  expect(marked(bench)).toEqual([false, false, false, false]);
  expect(marked(bench.correct('oil-kind', 'job', 'oil', 'own'))).toEqual([true, true, true, false]);
  expect(marked(readyToFill())).toEqual([false, false, false, false]);
});

it('an answer that does not fit is told in one sentence, cut and counted', () => {
  const at = { kind: 'answer', by: 'AP' } as const;
  const bench = readyToFill()
    .add({ ...at, step: 'start', place: 'job', key: 'name_a', value: 'x'.repeat(700) })
    .add({ ...at, step: 'oil-kind', place: 'job', key: 'oil', value: '' })
    .add({ ...at, step: 'bore', place: 'a', key: 'bore', value: 4000 });
  const long = `Name of the left head: ${'x'.repeat(60)}… (it is too long)`;
  expect(unfitNow(bench.state).map((u) => unfitWords(bench.state, u))).toEqual([
    long,
    'Oil: (empty) (it is none of the choices)',
    'Bore, Left head: 4000 mm (it is not from 5 mm to 200 mm)',
  ]);
  expect(unfitSentence(bench.state)).toBe(
    `A recorded answer does not fit its question and does not count: ${long}; answer it again. And 2 more.`,
  );
  // What is asked anew since leaves nothing of it.
  bench.do({ do: 'raise', branch: 'ring-dropped', place: 'a' });
  expect(unfitNow(bench.state).map(({ entry }) => entry.key)).toEqual(['name_a', 'oil']);
  const log = finished().add({ ...at, step: 'run', place: 'job', key: 'leak', value: 500 });
  expect(unfitSentence(log.state)).toBe(
    'A recorded answer does not fit its question and does not count: Leak: 500 mL (it is not from 0 mL to 100 mL); correct that reading.',
  );
  expect(unfitSentence(new State(pump, [], 0))).toBeUndefined();
});
