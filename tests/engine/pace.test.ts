/** The brisk pace: fewer keys, the same values, gates and signatures. On an invented hand pump. */
import { expect, test } from 'vitest';
import { type Action, alikeAt, propose } from '../../src/engine/actions/propose.js';
import type { Draft, Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import type { Model } from '../../src/procedure/model.js';
import { pump as procedure } from '../screens/pump.js';

/** Steps of which only what matters here is written out. */
const pump = (steps: readonly { readonly id: string; readonly [name: string]: unknown }[], more = {}): Model =>
  procedure(
    steps.map((s) => ({ phase: 'work', at: 'job', title: s.id, do: `Do ${s.id}.`, why: 'It is a test.', ...s })),
    more,
  );

const start = Date.parse('2026-03-02T08:00:00Z');

/** A job at the desk: acts, lets time pass, looks. */
function job(model: Model) {
  let entries: Entry[] = [];
  let now = start;
  const add = (drafts: readonly Draft[]): void => {
    for (const d of drafts)
      entries = [...entries, { ...d, seq: entries.length + 1, at: new Date(now).toISOString() } as Entry];
  };
  const first = { kind: 'job', name: 'Pump', procedure: 'pump', version: '1.0.0', hash: 'hash', by: 'AP' } as const;
  add([first]);
  return {
    state: () => new State(model, entries, now),
    pass: (minutes: number) => {
      now += minutes * 60_000;
    },
    act(action: Action): readonly Draft[] {
      const p = propose(new State(model, entries, now), action, 'AP');
      if (!p.ok) throw new Error(p.message);
      add(p.drafts);
      return p.drafts;
    },
    entries: () => entries,
  };
}

const vapour = { kind: 'vapour', say: 'WARNING Vapour burns. Keep sparks away.' };
const twoDangers = pump([
  { id: 'wash', at: 'valve', hazard: true, caution: [vapour] },
  { id: 'rinse', at: 'valve', hazard: true, caution: [{ ...vapour, say: 'WARNING Vapour burns here too.' }] },
]);

test('a danger is confirmed once for each kind, place and sitting in the brisk pace, each time in the other', () => {
  const brisk = job(twoDangers);
  brisk.act({ do: 'pace', pace: 'brisk' });
  brisk.act({ do: 'caution', step: 'wash', place: 'a' });
  brisk.act({ do: 'done', step: 'wash', place: 'a' });
  expect(brisk.state().view('rinse', 'a')).toMatchObject({ wants: 'confirm', confirmedBefore: true });
  // Another place is another danger.
  expect(brisk.state().view('wash', 'b')?.wants).toBe('caution');
  const learning = job(twoDangers);
  learning.act({ do: 'caution', step: 'wash', place: 'a' });
  learning.act({ do: 'done', step: 'wash', place: 'a' });
  expect(learning.state().view('rinse', 'a')?.wants).toBe('caution');
});

test('what is corrected is no work under the danger: it confirms nothing', () => {
  const ask = [{ kind: 'yes-no', key: 'fine', label: 'Fine' }];
  const [danger, none] = [{ at: 'valve', hazard: true, caution: [vapour] }, { not_after: ['wash', 'rinse'] }];
  const model = pump([
    { id: 'wash', ask, ...danger },
    { id: 'rinse', ...danger },
    { id: 'dry', ...danger, ...none },
  ]);
  const j = job(model);
  j.act({ do: 'pace', pace: 'brisk' });
  j.act({ do: 'caution', step: 'wash', place: 'a' });
  j.act({ do: 'answer', step: 'wash', place: 'a', key: 'fine', text: 'yes' });
  j.act({ do: 'done', step: 'wash', place: 'a' });
  j.act({ do: 'operator', initials: 'KR' });
  j.act({ do: 'caution', step: 'dry', place: 'a' });
  expect(j.state().view('wash', 'a')).toMatchObject({ status: 'done', confirmedBefore: true });
  const correct = { do: 'correct', step: 'wash', place: 'a', key: 'fine', text: 'no', reason: 'misread' } as const;
  expect(j.act(correct).map((d) => d.kind)).toEqual(['correct']);
  expect(j.act({ do: 'done', step: 'rinse', place: 'a' }).map((d) => d.kind)).toEqual(['done', 'caution']);
});

test('a danger whose screen names the other positions is confirmed for them too, and for no other step', () => {
  const j = job(twoDangers);
  j.act({ do: 'pace', pace: 'brisk' });
  j.act({ do: 'caution', step: 'wash', place: 'a', wide: true });
  expect(j.state().entries.at(-1)).toMatchObject({ kind: 'caution', place: 'a', also: ['b'] });
  expect(j.state().view('wash', 'b')).toMatchObject({ wants: 'confirm', confirmedBefore: true });
  // Something unforeseen, a later sitting or the learning pace bring it back.
  j.pass(61);
  expect(j.state().view('wash', 'b')?.wants).toBe('caution');
  const learning = job(twoDangers);
  learning.act({ do: 'caution', step: 'wash', place: 'a', wide: true });
  expect(learning.state().entries.at(-1)).not.toHaveProperty('also');
});

test('what was unforeseen at one position brings the danger back at the other for which it was confirmed', () => {
  const model = pump([{ id: 'wash', at: 'valve', hazard: true, caution: [vapour] }], {
    branches: [{ id: 'spilt', at: 'valve', title: 'Spilt', mark: 'Spilt' }],
  });
  const j = job(model);
  j.act({ do: 'pace', pace: 'brisk' });
  j.act({ do: 'caution', step: 'wash', place: 'a', wide: true });
  j.act({ do: 'raise', branch: 'spilt', place: 'a' });
  expect(j.state().view('wash', 'b')?.wants).toBe('caution');
});

test.each([
  [true, 'brisk', ['answer', 'done']],
  [true, 'learning', ['answer']],
  [false, 'brisk', ['answer']],
] as const)('says_done %s in the %s pace: one key records %j', (says, pace, kinds) => {
  const model = pump([
    {
      id: 'push',
      at: 'valve',
      physical: true,
      ...(says ? { says_done: true } : {}),
      ask: [{ kind: 'yes-no', key: 'out', label: 'It is out' }],
    },
  ]);
  const j = job(model);
  if (pace === 'brisk') j.act({ do: 'pace', pace });
  const before = j.state().entries.length;
  j.act({ do: 'answer', step: 'push', place: 'a', key: 'out', text: 'yes' });
  const made = j.state().entries.slice(before);
  expect(made.map((e) => e.kind)).toEqual(kinds);
  expect(made.slice(1).every((e) => e.joined)).toBe(true);
  expect(j.state().view('push', 'a')?.status).toBe(kinds.length === 2 ? 'done' : 'open');
});

test.each([
  ['an hour and a minute later', (j: ReturnType<typeof job>) => j.pass(61)],
  ['to another person', (j: ReturnType<typeof job>) => j.act({ do: 'operator', initials: 'KR' })],
  ['after a handover', (j: ReturnType<typeof job>) => j.act({ do: 'handover', text: 'Go on with the rinse.' })],
])('a danger comes back %s', (_, happens) => {
  const j = job(twoDangers);
  j.act({ do: 'pace', pace: 'brisk' });
  j.act({ do: 'caution', step: 'wash', place: 'a' });
  j.act({ do: 'done', step: 'wash', place: 'a' });
  happens(j);
  expect(j.state().view('rinse', 'a')?.wants).toBe('caution');
});

test('an hour is the same sitting', () => {
  const j = job(twoDangers);
  j.act({ do: 'pace', pace: 'brisk' });
  j.act({ do: 'caution', step: 'wash', place: 'a' });
  j.act({ do: 'done', step: 'wash', place: 'a' });
  j.pass(60);
  expect(j.state().view('rinse', 'a')?.wants).toBe('confirm');
});

test('a danger comes back after something unforeseen at that place', () => {
  const model = pump(
    [
      { id: 'wash', at: 'valve', hazard: true, caution: [vapour] },
      { id: 'rinse', at: 'valve', hazard: true, caution: [vapour] },
    ],
    { branches: [{ id: 'spilt', at: 'valve', title: 'Spilt', mark: 'Spilt' }] },
  );
  const j = job(model);
  j.act({ do: 'pace', pace: 'brisk' });
  j.act({ do: 'caution', step: 'wash', place: 'a' });
  j.act({ do: 'done', step: 'wash', place: 'a' });
  j.act({ do: 'raise', branch: 'spilt', place: 'a' });
  expect(j.state().view('rinse', 'a')?.wants).toBe('caution');
});

test('a caution that cannot apply is not asked for; one whose condition is not known is', () => {
  const model = pump([
    { id: 'wet', at: 'valve', ask: [{ kind: 'yes-no', key: 'wet', label: 'Wet' }], not_after: [] },
    { id: 'wash', at: 'valve', hazard: true, caution: [{ say: 'WARNING It slips.', when: 'wet' }] },
  ]);
  const j = job(model);
  expect(j.state().view('wash', 'a')?.cautions).toHaveLength(1);
  j.act({ do: 'answer', step: 'wet', place: 'a', key: 'wet', text: 'no' });
  expect(j.state().view('wash', 'a')).toMatchObject({ wants: 'confirm', cautions: [] });
  j.act({ do: 'answer', step: 'wet', place: 'b', key: 'wet', text: 'yes' });
  expect(j.state().view('wash', 'b')?.wants).toBe('caution');
});

const log = pump([
  {
    id: 'log',
    ask: [
      {
        kind: 'choice',
        key: 'stage',
        label: 'Stage',
        options: [
          { value: '1', label: 'One' },
          { value: '2', label: 'Two' },
        ],
        suggest: "rows_log < 2.0 ? '1' : '2'",
        filled: true,
      },
      { kind: 'number', key: 'heat', label: 'Heat', limits: [0, 100] },
      { kind: 'yes-no', key: 'calm', label: 'Calm', suggest: 'true', filled: true },
    ],
    repeat: { until: 'rows_log >= 3.0', most: 10 },
  },
]);

test('what is due is filled in with the last figure of a row, and taken back with it', () => {
  const j = job(log);
  j.act({ do: 'pace', pace: 'brisk' });
  expect(j.state().view('log', 'job')?.question?.key).toBe('heat');
  const drafts = j.act({ do: 'answer', step: 'log', place: 'job', key: 'heat', text: '20' });
  expect(drafts.map((d) => ('key' in d ? [d.key, d.value, d.joined] : []))).toEqual([
    ['heat', 20, undefined],
    ['stage', '1', true],
    ['calm', true, true],
  ]);
  expect(j.state().values.completeRows('log', 'job')).toHaveLength(1);
  expect(j.state().view('log', 'job')?.question?.key).toBe('heat');
  j.act({ do: 'undo' });
  expect(j.state().values.completeRows('log', 'job')).toHaveLength(0);
  expect(j.state().view('log', 'job')?.ledger?.rows ?? []).toHaveLength(0);
  j.act({ do: 'redo' });
  expect(j.state().values.completeRows('log', 'job')).toHaveLength(1);
  const row = (heat: string) =>
    j
      .act({ do: 'answer', step: 'log', place: 'job', key: 'heat', text: heat })
      .map((d) => ('key' in d ? d.value : d.kind));
  expect([row('30'), row('40')]).toEqual([
    [30, '1', true],
    [40, '2', true],
  ]);
  expect(j.state().view('log', 'job')?.status).toBe('done');
});

test('where the next row could be filled in as well, one answer fills its own row and begins no other', () => {
  const all = [
    { kind: 'number', key: 'heat', label: 'Heat', limits: [0, 100], when: 'rows_log < 1.0' },
    { kind: 'yes-no', key: 'calm', label: 'Calm', suggest: 'true', filled: true },
    { kind: 'yes-no', key: 'dry', label: 'Dry', suggest: 'true', filled: true },
  ];
  const j = job(pump([{ id: 'log', ask: all, repeat: { until: 'rows_log >= 3.0', most: 10 } }]));
  j.act({ do: 'pace', pace: 'brisk' });
  const row = j.act({ do: 'answer', step: 'log', place: 'job', key: 'heat', text: '20' });
  expect(row.map((d) => 'key' in d && [d.key, d.value])).toEqual([
    ['heat', 20],
    ['calm', true],
    ['dry', true],
  ]);
  expect(j.state().view('log', 'job')?.ledger?.rows).toHaveLength(1);
});

test('what is filled in can be said first, in every row', () => {
  const j = job(log);
  j.act({ do: 'pace', pace: 'brisk' });
  for (const heat of ['20', '30']) {
    j.act({ do: 'answer', step: 'log', place: 'job', key: 'calm', text: 'no' });
    j.act({ do: 'answer', step: 'log', place: 'job', key: 'heat', text: heat });
  }
  const rows = j.state().values.completeRows('log', 'job');
  expect(rows.map((r) => [r.get('stage')?.value, r.get('heat')?.value, r.get('calm')?.value])).toEqual([
    ['1', 20, false],
    ['1', 30, false],
  ]);
});

test('in the learning pace every question of a row is asked in its order', () => {
  const j = job(log);
  expect(j.state().view('log', 'job')?.question?.key).toBe('stage');
  expect(() => j.act({ do: 'answer', step: 'log', place: 'job', key: 'heat', text: '20' })).not.toThrow();
  expect(j.state().view('log', 'job')?.question?.key).toBe('stage');
});

const alike = pump([
  {
    id: 'look',
    at: 'valve',
    alike: true,
    ask: [
      { kind: 'text', key: 'make', label: 'Make' },
      { kind: 'number', key: 'size', label: 'Size', limits: [0, 100] },
    ],
  },
]);

test('one key takes the answers of the other place, and one takes them back', () => {
  const j = job(alike);
  j.act({ do: 'pace', pace: 'brisk' });
  const at = (place: string) => {
    const view = j.state().view('look', place);
    return view && alikeAt(j.state(), view);
  };
  expect(at('b')).toBeUndefined();
  j.act({ do: 'answer', step: 'look', place: 'a', key: 'make', text: 'Invented works' });
  j.act({ do: 'answer', step: 'look', place: 'a', key: 'size', text: '12.5 +- 0.1' });
  expect(at('b')).toBe('a');
  j.act({ do: 'alike', step: 'look', place: 'b', as: 'a' });
  const b = j.state().view('look', 'b');
  expect(b?.status).toBe('done');
  expect(b?.ledger?.answers.get('size')).toMatchObject({ value: 12.5, plusMinus: 0.1 });
  j.act({ do: 'undo' });
  expect(j.state().view('look', 'b')?.ledger?.answers.size ?? 0).toBe(0);
});

test('a place that was not answered gives nothing', () => {
  const j = job(alike);
  expect(() => j.act({ do: 'alike', step: 'look', place: 'b', as: 'a' })).toThrow(/not done/);
  expect(() => j.act({ do: 'alike', step: 'look', place: 'b', as: 'b' })).toThrow(/not done/);
});

test('a step that was done under a danger confirmed before stays done in the next sitting', () => {
  const j = job(twoDangers);
  j.act({ do: 'pace', pace: 'brisk' });
  j.act({ do: 'caution', step: 'wash', place: 'a' });
  j.act({ do: 'done', step: 'wash', place: 'a' });
  expect(j.act({ do: 'done', step: 'rinse', place: 'a' }).map((d) => d.kind)).toEqual(['done', 'caution']);
  j.pass(24 * 60);
  expect(j.state().view('rinse', 'a')?.status).toBe('done');
  // One key takes back what one key recorded.
  j.act({ do: 'undo' });
  expect(j.state().view('rinse', 'a')).toMatchObject({ status: 'open', wants: 'caution' });
});

const from = { job: '2026-0001', name: 'Other motor', at: '2026-02-20T12:00:00Z' };
const shelf = pump([
  {
    id: 'tin',
    ask: [
      { kind: 'text', key: 'grease', label: 'Grease', shelf: true },
      { kind: 'number', key: 'grade', label: 'Grade', shelf: true, limits: [0, 6] },
      { kind: 'yes-no', key: 'clean', label: 'Clean' },
    ],
  },
]);

test('what is on the shelf is taken by one key with the job that it is from, and taken back by one', () => {
  const j = job(shelf);
  const texts = { grease: 'Blue tin', grade: '2', clean: 'yes' };
  j.act({ do: 'shelf', step: 'tin', place: 'job', texts, from });
  const given = () => j.state().view('tin', 'job')?.ledger?.answers;
  expect(given()?.get('grease')?.entry).toMatchObject({ value: 'Blue tin', from });
  expect(given()?.get('grade')?.entry).toMatchObject({ value: 2, from });
  // What is no thing of the shelf is asked, whatever was handed over.
  expect(given()?.has('clean')).toBe(false);
  expect(j.state().view('tin', 'job')?.question?.key).toBe('clean');
  j.act({ do: 'undo' });
  expect(given()?.size ?? 0).toBe(0);
  // One that its question could not have had is refused with all of it.
  expect(() =>
    j.act({ do: 'shelf', step: 'tin', place: 'job', texts: { grease: 'Blue', grade: '9' }, from }),
  ).toThrow();
  expect(given()?.size ?? 0).toBe(0);
});

test('nothing is taken over where nothing is there, where a gate holds, or where all is answered', () => {
  const gates = [{ id: 'upper', at: 'enter', must: "which_valve == 'a'", say: 'Not here.', overrule: 'never' }];
  const ask = [{ kind: 'text', key: 'make', label: 'Make', shelf: true }];
  const j = job(pump([{ id: 'look', at: 'valve', alike: true, gates, ask }]));
  const take = (place: string, texts = {}) => j.act({ do: 'shelf', step: 'look', place, texts, from });
  expect(() => take('a')).toThrow('“look” has nothing to take over.');
  expect(() => take('b', { make: 'Blue' })).toThrow('Not here. This can’t be overruled.');
  take('a', { make: 'Blue' });
  expect(() => take('a', { make: 'Red' })).toThrow('“look” at Upper valve is done already; correct a reading instead');
  expect(() => j.act({ do: 'alike', step: 'look', place: 'b', as: 'a' })).toThrow('Not here. This can’t be overruled.');
});

test('what would be filled in and is not known is asked, also where it may be left empty', () => {
  const ask = [
    { kind: 'number', key: 'heat', label: 'Heat', limits: [0, 100] },
    { kind: 'text', key: 'word', label: 'Word', optional: true, filled: true, suggest: 'other' },
    { kind: 'text', key: 'other', label: 'Other' },
  ];
  const j = job(pump([{ id: 'read', ask }]));
  j.act({ do: 'pace', pace: 'brisk' });
  expect(j.act({ do: 'answer', step: 'read', place: 'job', key: 'heat', text: '20' })).toHaveLength(1);
  expect(j.state().view('read', 'job')?.question?.key).toBe('word');
});
