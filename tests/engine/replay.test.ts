/** Jobs from files of readings: what each item does, and the sentence with which a wrong one is refused. */
import { describe, expect, it } from 'vitest';
import { replay } from '../../src/engine/replay/replay.js';
import { type ReplayFile, type ReplayItem, replaySchema } from '../../src/engine/replay/replay-file.js';
import { State } from '../../src/engine/state/state.js';
import { modelFrom, pump, pumpText } from './pump.js';

const head = { replay: 1 as const, name: 'Pump', procedure: 'hand-pump', by: 'AP', start: '2026-03-02T08:00:00Z' };
const start: ReplayItem[] = [
  { step: 'start', answers: { heads: 'one' } },
  { step: 'pressure', answers: { gauge: 0 } },
  { step: 'outlet-there', at: 'a', answers: { has_outlet: false } },
  { step: 'bore', at: 'a', answers: { bore: '40', stroke: '50', lid: '80x60' } },
  { step: 'valve-look', at: 'a.inlet', answers: { seat: 'good' } },
  { step: 'decide', at: 'a', answers: { keep: 'keep' } },
  { step: 'oil-kind', answers: { oil: 'thin' } },
];
const middle: ReplayItem[] = [
  { step: 'fill', at: 'a' },
  { step: 'screws', at: 'a', answers: { screws: '4' } },
  { step: 'glue', at: 'a' },
  { step: 'polish', at: 'a' },
];
const end: ReplayItem[] = [
  { step: 'badge', at: 'a', after: '30 min', answers: { letters: ['x', 'y'] } },
  { step: 'witness', answers: { looks: 'yes' }, sign: 'ZZ' },
  { step: 'run', rows: [{ leak: '2' }, { after: '10 min', leak: '1' }, { leak: '0.5 mL' }] },
];
const run = (steps: ReplayItem[], more: Partial<ReplayFile> = {}) =>
  replay(pump, replaySchema.parse({ ...head, ...more, steps }) as ReplayFile);
const refused = (steps: ReplayItem[], more: Partial<ReplayFile> = {}): string => {
  const outcome = run(steps, more);
  if (outcome.ok) throw new Error('it was not refused');
  return outcome.message;
};

describe('a file of readings', () => {
  it('runs to the end; optional questions stay empty, cautions and confirmations follow from the step', () => {
    const outcome = run([...start, ...middle, ...end]);
    expect(outcome.ok ? '' : outcome.message).toBe('');
    expect(outcome.state.finished).toBe(true);
    const name = outcome.state.values.get('name_a', 'job');
    expect(name.known && name.value).toBe('Left head');
    const elapsed = outcome.state.values.get('elapsed_run', 'job');
    expect(elapsed.known && (elapsed.value as number[])[1]).toBeCloseTo(10, 1);
    expect(outcome.state.entries[0]?.at).toBe('2026-03-02T08:00:01.000Z');
    const named = run(start, { earlier: 'before.replay.yaml' }).state.ledger.job;
    expect([named?.earlier, named?.practice]).toEqual(['before.replay.yaml', undefined]);
    expect(run(start, { invented: true }).state.ledger.job?.practice).toBe('invented readings');
    expect(run(start, { pace: 'brisk' }).state.ledger.pace).toBe('brisk');
  });

  it('takes notes, handovers, another person, events, corrections and settlings', () => {
    const outcome = run([
      ...start,
      { note: 'a note', at: 'a' },
      { note: 'another' },
      { handover: 'tomorrow' },
      { raise: 'ring-dropped', at: 'a', text: 'one' },
      { step: 'pick-up', at: 'a', by: 'QQ', answers: { ring_found: 'yes' } },
      { step: 'bore', at: 'a', answers: { bore: '40', stroke: '50', lid: '80x60' } },
      { step: 'decide', at: 'a', answers: { keep: 'keep' } },
      { step: 'fill', at: 'a' },
      { correct: { step: 'bore', at: 'a', key: 'bore', value: '36', reason: 'read wrongly' } },
      { settle: { step: 'fill', at: 'a', reason: 'took some out' } },
      { step: 'decide', at: 'a', answers: { keep: 'keep' } },
      ...middle.slice(1),
      ...end,
    ]);
    expect(outcome.ok ? '' : outcome.message).toBe('');
    expect(outcome.state.finished).toBe(true);
    expect(outcome.state.ledger.operator).toBe('QQ');
    expect(outcome.state.ledger.notes.map((n) => [n.text, 'place' in n ? n.place : ''])).toEqual([
      ['a note', 'a'],
      ['another', 'job'],
      ['tomorrow', ''],
    ]);
    expect(outcome.state.remedies).toEqual([]);
  });

  it('waits, or overrules the wait with a reason', () => {
    const early = { ...end[0], after: undefined } as ReplayItem;
    expect(refused([...start, ...middle, early])).toMatch(
      /“Glue the badge” \(Left head\) still takes \d+ min \(glue setting\)/,
    );
    const wait = { gate: 'wait', reason: 'fast glue', initials: 'AP' };
    expect(run([...start, ...middle, { step: 'glue', at: 'a', overrule: wait }, early]).ok).toBe(true);
  });

  it('overrules gates by name', () => {
    const wide = start.map((x) =>
      'step' in x && x.step === 'bore' ? { ...x, answers: { ...x.answers, bore: '60' } } : x,
    );
    expect(refused(wide)).toMatch(/is too much/);
    const overrule = { gate: 'too-wide', reason: 'no spare', initials: 'AP' };
    const passed = wide.map((x) => ('step' in x && x.step === 'decide' ? { ...x, overrule: [overrule] } : x));
    expect(run(passed).ok).toBe(true);
    const never = { gate: 'no-pressure', reason: 'in a hurry', initials: 'AP' };
    const hurry = start.map((x) =>
      'step' in x && x.step === 'pressure' ? { ...x, answers: { gauge: 3 }, overrule: never } : x,
    );
    expect(refused(hurry)).toMatch(/can’t be overruled/);
  });

  it('leaves a step where a gate holds it, if that is said, and goes on with what deals with it', () => {
    const gauge = (value: number, more = {}): ReplayItem => ({ step: 'pressure', answers: { gauge: value }, ...more });
    const held = run([start[0]!, gauge(3, { held: 'no-pressure' }), gauge(0), ...start.slice(2)]);
    expect(held.ok ? '' : held.message).toBe('');
    const sentence = '“Let the pressure off”: The gauge shows 3. Bleed on. This can’t be overruled.';
    expect(refused([start[0]!, gauge(3, { held: 'another' })])).toBe(sentence);
    expect(refused([start[0]!, gauge(3)])).toBe(sentence);
    const worn: ReplayItem[] = [
      ...start.slice(0, 4),
      { step: 'valve-look', at: 'a.inlet', answers: { seat: 'worn', wear: '2' } },
      { step: 'lap', at: 'a.inlet' },
      ...start.slice(5),
      ...middle,
      end[0]!,
    ];
    // An answer that was to follow the gate is refused by the gate.
    expect(refused([...worn, { step: 'witness', held: 'seats-good', answers: { looks: 'yes' } }])).toBe(
      'A worn seat is too deep.',
    );
  });

  it('leaves a log where a gate stops it once its rows are taken, and goes on with what deals with it', () => {
    const dry = '{ id: dry, must: "!all_leak.exists(l, l > 5.0)", say: Too much., overrule: with-reason }';
    const model = modelFrom(
      pumpText.replace('    mark: Ran with {leak}', `    gates: [ ${dry} ]\n    mark: Ran with {leak}`),
    );
    const wet: ReplayItem = { step: 'run', rows: [{ leak: '6' }, { leak: '1' }, { leak: '0.5' }] };
    const ran = (...more: ReplayItem[]) =>
      replay(model, replaySchema.parse({ ...head, steps: [...start, ...middle, ...end.slice(0, 2), wet, ...more] }));
    expect(ran()).toMatchObject({ ok: true });
    expect(ran().state.view('run', 'job')?.status).toBe('stopped');
    const overrule = { gate: 'dry', reason: 'new seal', initials: 'AP' };
    expect(ran({ step: 'run', overrule }).state.finished).toBe(true);
    expect(ran({ step: 'run' })).toMatchObject({ ok: false, message: '“Run and log”: Too much.' });
  });

  it('overrules each of two gates by its name, in any order', () => {
    const second = '{ id: too-long, must: stroke <= 40.0, say: Too long., overrule: with-reason }';
    const both = modelFrom(
      pumpText.replace('    gates:\n      - { id: too-wide', `    gates:\n      - ${second}\n      - { id: too-wide`),
    );
    const wide = start.map((x) =>
      'step' in x && x.step === 'bore' ? { ...x, answers: { ...x.answers, bore: '60' } } : x,
    );
    const over = (...gates: string[]): ReplayItem => ({
      ...{ step: 'decide', at: 'a', answers: { keep: 'keep' } },
      overrule: gates.map((gate) => ({ gate, reason: 'no spare', initials: 'AP' })),
    });
    const decided = (item: ReplayItem) =>
      replay(both, replaySchema.parse({ ...head, steps: [...wide.slice(0, 5), item] }) as ReplayFile);
    expect(decided(over('too-wide', 'too-long')).ok).toBe(true);
    expect(decided(over('too-wide'))).toMatchObject({ ok: false, message: expect.stringMatching(/: Too long\.$/) });
    for (const held of ['too-wide', 'too-long'])
      expect(decided({ step: 'decide', at: 'a', held, answers: { keep: 'keep' } }).ok, held).toBe(true);
    const kept = decided(over('too-long', 'too-wide', 'too-long'));
    expect(kept).toMatchObject({
      message: 'No gate “too-long” was holding “decide”; take the overrule out.',
    });
  });

  it('leaves an optional question empty before a confirmation, and before another question', () => {
    const model = modelFrom(
      pumpText
        .replace(
          '- { key: gauge,',
          '- { key: remark, kind: text, label: Remark, optional: true }\n      - { key: gauge,',
        )
        .replace(
          'limits: [0, 300] }',
          'limits: [0, 300] }\n      - { key: last, kind: text, label: Last, optional: true }',
        ),
    );
    const outcome = replay(model, replaySchema.parse({ ...head, steps: start.slice(0, 2) }) as ReplayFile);
    expect(outcome.ok ? '' : outcome.message).toBe('');
    expect(outcome.state.view('pressure', 'job')?.status).toBe('done');
    const answers = outcome.state.entries.flatMap((e) => (e.kind === 'answer' ? [[e.key, e.value]] : []));
    expect(answers.slice(-3)).toEqual([
      ['remark', ''],
      ['gauge', 0],
      ['last', ''],
    ]);
  });

  it('predicts for an apprentice, and says so when nothing was predicted', () => {
    const outcome = run([...start, { step: 'fill', at: 'a', predict: { oil_due: '30 mL' } }], {
      apprentice: 'AP',
      mentor: 'MN',
    });
    expect(outcome.state.ledger.steps.get('fill@a')?.predictions[0]?.typed).toBe('30 mL');
    const none = run([...start, ...middle.slice(0, 1)], { apprentice: 'AP', mentor: 'MN' });
    expect(none.state.ledger.steps.get('fill@a')?.predictions[0]?.typed).toBe('none given');
  });

  it.each<[string, ReplayItem[], RegExp]>([
    ['an unknown step', [{ step: 'strat' }], /no step “strat”.*“start”/],
    ['an unknown place', [{ step: 'bore', at: 'x' }], /at a or b, not at “x”/],
    ['a missing answer', [{ step: 'start', answers: {} }], /“Name the pump” needs an answer for heads \(Heads\)/],
    ['an unknown key', [{ step: 'start', answers: { head: 'one' } }], /no “head”.*“heads”/],
    [
      'an answer that does not apply',
      [...start.slice(0, 4), { step: 'valve-look', at: 'a.inlet', answers: { seat: 'good', wear: '1' } }],
      /“Depth of wear” does not apply here/,
    ],
    [
      'a step out of order',
      [{ step: 'oil-kind', answers: { oil: 'thin' } }],
      /“Choose the oil” is not next: “Name the pump” comes first/,
    ],
    ['a step twice', [start[0]!, start[0]!], /is done already/],
    ['a step that is not needed', [...start, { step: 'lap', at: 'a.inlet' }], /does not apply to this job/],
    ['rows in a step that is no log', [{ step: 'start', rows: [{ heads: 'one' }] }], /is no log/],
    [
      'too many rows',
      [
        ...start,
        ...middle,
        ...end.slice(0, 2),
        { step: 'run', rows: [{ leak: '0' }, { leak: '0' }, { leak: '0' }, { leak: '0' }] },
      ],
      /finished before its last row/,
    ],
    [
      'an unknown key in a row',
      [...start, ...middle, ...end.slice(0, 2), { step: 'run', rows: [{ leek: '0' }] }],
      /no “leek”.*“leak”/,
    ],
    [
      'a key in a row that does not apply',
      [...start, ...middle, ...end.slice(0, 2), { step: 'run', rows: [{ leak: '0', noise: 'no' }] }],
      /“Noise” does not apply here/,
    ],
    [
      'a hold without a signature',
      [...start, ...middle, end[0]!, { step: 'witness', answers: { looks: 'yes' } }],
      /is a hold point; add “sign:”/,
    ],
    ['a signature where none is asked', [{ ...start[0], sign: 'ZZ' } as ReplayItem], /is no hold point/],
    [
      'an overrule of a gate that holds nothing',
      [{ ...start[0], overrule: { gate: 'no-pressure', reason: 'why not', initials: 'AP' } } as ReplayItem],
      /No gate “no-pressure” was holding/,
    ],
    [
      'a prediction that nobody wants',
      [{ ...start[0], predict: { oil_due: '3' } } as ReplayItem],
      /Nothing is to be predicted for “oil_due”/,
    ],
    ['time that runs backwards', [{ step: 'start', after: '-1 h', answers: { heads: 'one' } }], /after: /],
    ['a time that is none', [{ step: 'start', after: 'soon', answers: { heads: 'one' } }], /after: /],
    ['an event that is unknown', [{ raise: 'ring-drop', at: 'a' }], /did you mean “ring-dropped”/],
    ['an event at a place left out', [...start, { raise: 'ring-dropped', at: 'b' }], /takes no part/],
    [
      'a correction of nothing',
      [{ correct: { step: 'bore', at: 'a', key: 'bore', value: '36', reason: 'read wrongly' } }],
      /no reading yet/,
    ],
    [
      'a correction without a reason',
      [...start, { correct: { step: 'bore', at: 'a', key: 'bore', value: '36', reason: '' } }],
      /reason in words/,
    ],
    [
      'a count corrected to a wrong one',
      [
        ...start,
        ...middle.slice(0, 2),
        { correct: { step: 'screws', at: 'a', key: 'screws', value: '3', reason: 'counted again' } },
      ],
      /4 screws are to be done/,
    ],
    ['an empty note', [{ note: ' ' }], /empty/],
    ['bad initials', [{ ...start[0], by: '12' } as ReplayItem], /Initials/],
  ])('refuses %s', (_name, steps, sentence) => {
    const outcome = run(steps);
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    expect(outcome.message).toMatch(sentence);
    expect(outcome.item).toBe(steps.length - 1);
  });

  it('in the brisk pace says what is filled in where the file says it, and takes the rest as due', () => {
    const model = modelFrom(
      pumpText
        .replace('label: Noise, when: "heads == \'two\'" }', 'label: Noise, suggest: "false", filled: true }')
        .replace('rows_run >= 3.0 && last(all_leak) < 1.0', 'rows_run >= 4.0'),
    );
    const rows = [{ leak: '2' }, { leak: '1', noise: 'yes' }, { noise: 'yes', leak: '0.5' }, { leak: '0.2' }];
    const whole = (pace: 'brisk' | 'learning', log: typeof rows) =>
      replay(
        model,
        replaySchema.parse({
          ...head,
          pace,
          steps: [...start, ...middle, ...end.slice(0, 2), { step: 'run', rows: log }],
        }),
      );
    const said = (o: ReturnType<typeof whole>) => {
      const v = o.state.values.get('all_noise', 'job');
      return o.ok ? v.known && v.value : o.message;
    };
    expect(said(whole('brisk', rows))).toEqual([false, true, true, false]);
    expect(said(whole('learning', rows))).toBe('“Run and log” needs an answer for noise (Noise).');
    expect(
      said(
        whole(
          'learning',
          rows.map((r) => ({ noise: 'no', ...r })),
        ),
      ),
    ).toEqual([false, true, true, false]);
  });

  it('tells once what is unusual', () => {
    const wide = { bore: '90', stroke: '50', lid: '80x60' };
    const outcome = run([
      { step: 'start', answers: { heads: 'two' } },
      start[1]!,
      ...['a', 'b'].flatMap((at): ReplayItem[] => [
        { step: 'outlet-there', at, answers: { has_outlet: 'no' } },
        { step: 'bore', at, answers: wide },
      ]),
    ]);
    expect(outcome.ok && outcome.warnings).toEqual([expect.stringMatching(/10 mm to 80 mm/)]);
  });

  it('keeps the way of measuring, a refused signature, and the state after each entry', () => {
    const looked = { step: 'witness', answers: { looks: 'yes' } };
    const steps: ReplayItem[] = [
      ...start.map((x) => ('step' in x && x.step === 'bore' ? { ...x, ways: { bore: 'calliper' } } : x)),
      ...middle,
      end[0]!,
      { ...looked, refuse: { reason: 'too dark', initials: 'ZZ' } },
      { step: 'witness', sign: 'ZZ' },
      end[2]!,
    ];
    const seen: number[] = [];
    const outcome = replay(pump, replaySchema.parse({ ...head, steps }) as ReplayFile, {}, (then) =>
      seen.push(then.entries.length),
    );
    expect(outcome.ok ? '' : outcome.message).toBe('');
    expect(seen).toEqual(outcome.state.entries.map((e) => e.seq));
    const ways = outcome.state.entries.flatMap((e) => (e.kind === 'answer' && e.way ? [`${e.key} ${e.way}`] : []));
    expect(ways).toEqual(['bore calliper']);
    expect(outcome.state.ledger.steps.get('witness@job')).toMatchObject({
      refusals: [{ reason: 'too dark' }],
      signs: [{ initials: 'ZZ' }],
    });
    expect(refused([{ ...start[0], refuse: { reason: 'no', initials: 'ZZ' } } as ReplayItem])).toMatch(
      /is no hold point/,
    );
  });

  it.each<[string, Partial<ReplayFile>]>([
    ['mentor: The mentor is another person than the one who does the work; name that person.', { mentor: 'a.p.' }],
    [
      'mentor: The mentor is another person than the one who does the work; name that person.',
      { apprentice: 'BX', mentor: 'BX' },
    ],
    ['by: Initials are one to eight Latin letters or digits, a letter first, such as AP.', { by: '1' }],
    ['mentor: Initials are one to eight Latin letters or digits, a letter first, such as AP.', { mentor: '1' }],
    ['start: This is no instant; write one such as 2026-03-02T08:00:00Z.', { start: 'soon' }],
    [
      'start: Only the years 1970 to 9998 can be reckoned with; write 2026-03-02T08:00:00Z.',
      { start: '1969-12-31T23:59:59Z' },
    ],
    [
      'start: Only the years 1970 to 9998 can be reckoned with; write 2026-03-02T08:00:00Z.',
      { start: '9998-12-31T00:00:01Z' },
    ],
  ])('%s', (message, more) => {
    expect(run(start, more)).toMatchObject({ ok: false, item: 0, message });
  });

  it('takes the first and the last instant, and waits no further', () => {
    const ok = (more: Partial<ReplayFile>, steps = start) => run(steps, more).ok;
    expect([ok({ start: '1970-01-01T00:00:00Z' }), ok({ start: '9998-12-31T00:00:00Z' })]).toEqual([true, true]);
    expect(ok({ mentor: 'AP', apprentice: 'BX' })).toBe(true);
    expect(refused([start[0]!, { ...start[1], after: '71000000 h' } as ReplayItem])).toBe(
      'after: 71000000 h is too long to wait; write a time such as 20 min.',
    );
    expect(refused([start[0]!, { ...start[1], after: '-1 min' } as ReplayItem])).toMatch(/^after: /);
    expect(run([start[0]!, { ...start[1], after: '0 min' } as ReplayItem]).ok).toBe(true);
  });

  it('a signature does not outlast an overrule in the same step', () => {
    const outcome = run([...start, ...middle, ...end]);
    const { state } = outcome;
    const seq = state.entries.length + 1;
    const at = new Date(state.now + 1000).toISOString();
    const overrule = {
      kind: 'overrule',
      step: 'witness',
      place: 'job',
      gate: 'seats-good',
      reason: 'late',
      initials: 'AP',
      by: 'AP',
      seq,
      at,
    } as const;
    const later = new State(pump, [...state.entries, overrule], state.now + 1000);
    expect(later.view('witness', 'job')?.wants).toBe('sign');
  });
});
