/** What a debrief marks: names are free, a fault takes one mark and adds none, what was put right is told as that. */
import { describe, expect, it } from 'vitest';
import { fillTo } from '../../src/commands/fill-practice.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { debriefOf } from '../../src/training/debrief.js';
import { debriefText } from '../../src/training/debrief-lines.js';
import { workedSolution } from '../../src/training/expected.js';
import { attemptOf } from '../../src/training/progress.js';
import { personOf, progressTable } from '../../src/training/progress-table.js';
import { bareJob } from './bare-job.js';
import { rotorNamed } from './library.js';
import { planFor } from './plans.js';
import { walk } from './walk.js';

const rotor = rotorNamed('quiet-one');
const { entries, state } = walk(rotor.model, rotor, planFor(rotor, 'caught'));
type Answered = Extract<Entry, { kind: 'answer' }>;
const isOf = (e: Entry, key: string, place = 'job'): e is Answered =>
  e.kind === 'answer' && e.key === key && e.place === place;
const typed = (given: Readonly<Record<string, Answered['value']>>) =>
  debriefOf(
    new State(
      rotor.model,
      entries.map((e) => (e.kind === 'answer' && e.key in given ? { ...e, value: given[e.key]! } : e)),
      state.now,
    ),
    rotor,
  );
const whole = debriefOf(state, rotor);

describe('a name', () => {
  it('of an end, of a machine and of a rotor in own words is no misread one', () => {
    expect(typed({ name_a: 'DE', machine: 'wCollege motor 1', rotor: 'Q' }).misread).toEqual([]);
  });
  it('with another number is another rotor', () => {
    expect(typed({ rotor: 'Practice rotor X' }).misread.map((m) => m.key)).toEqual(['rotor']);
    expect(typed({ rotor: 'Practice rotor' }).misread.map((m) => m.key)).toEqual(['rotor']);
  });
});

describe('marks', () => {
  it('are of as many for whoever misreads as for whoever does not, so that two can be compared', () => {
    const poor = typed({ pair_price: 40, coldest_start: 20, run_temp: 90 });
    expect(poor.misread.map((m) => m.key)).toEqual(['run_temp', 'coldest_start', 'pair_price']);
    expect(whole.care?.marks).toBe(whole.care?.of);
    expect(poor.care).toEqual({ ...whole.care, marks: (whole.care?.marks ?? 0) - 3 });
    expect(poor.care?.readings).toBeGreaterThan(50);
    expect(debriefText(poor)).toContain(`It cost marks: 3 of ${poor.care?.readings} readings misread.`);
  });
  it('stand in the table of all as misread of so many readings', () => {
    const poor = typed({ pair_price: 40 });
    const kept = { 'practice j': attemptOf('j', poor)?.value ?? '' };
    expect(progressTable([personOf('AP', kept)])).toMatch(new RegExp(`^Misread +1 of ${poor.care?.readings}$`, 'm'));
  });
});

it('beside a misread one stands what there was to be seen, and what it meant', () => {
  const at = entries.findIndex((e) => isOf(e, 'seal_kind', 'a.back'));
  const changed = entries.map((e, i) => (i === at ? ({ ...e, value: 'contact' } as Entry) : e));
  const text = debriefText(debriefOf(new State(rotor.model, changed, state.now), rotor));
  expect(text).toMatch(
    /Misread: Closed by.* - it showed “[^”]*between (its lip|it) and the inner ring\.” That is: Rubber - does not touch.*You typed Rubber - touches the inner ring/,
  );
});

it('what was typed otherwise at first and put right is told, and not that all was typed as it showed', () => {
  const at = entries.findIndex((e) => isOf(e, 'leak'));
  const right = entries[at] as Answered;
  const first = { ...right, value: true };
  const again = [...entries.slice(0, at), first, right, ...entries.slice(at + 1)].map(
    (e, i) => ({ ...e, seq: i + 1 }) as Entry,
  );
  const made = debriefOf(new State(rotor.model, again, state.now), rotor);
  const text = debriefText(made);
  expect(made.misread).toEqual([]);
  expect(text).toContain('Put right: Grease outside a bearing - yes at first, then no');
  expect(text).not.toContain('Everything was typed as it showed');
  expect(debriefText(whole)).toContain('Everything was typed as it showed');
});

it('what was corrected on the way is named', () => {
  const at = entries.findIndex((e) => isOf(e, 'pair_price'));
  const own = entries[at] as Answered;
  const fix = {
    ...own,
    kind: 'correct',
    of: own.seq,
    reason: 'another dealer',
    seq: entries.length + 1,
  } as unknown as Entry;
  const text = debriefText(debriefOf(new State(rotor.model, [...entries, fix], state.now), rotor));
  expect(text).toMatch(/^Corrected on the way\nPrice of a proven pair$/m);
});

it('time at the keys stands apart from what was let pass, and a phase of no minutes is left out', () => {
  const text = debriefText({ ...whole, keys: 4.2 });
  expect(text).toMatch(/^Time\n4 min {2}at the keys\nBy the job’s clock, with what was let pass:\n/m);
  expect(text).not.toMatch(/^0 min {2}/m);
});

it('earlier than the next look may be due is on the safe side, and close only within what the estimate is good for', () => {
  const said = (value: number) => {
    const all = entries.map((e) =>
      e.kind === 'predict' && e.key === 'inspect_after' ? ({ ...e, value, typed: String(value) } as Entry) : e,
    );
    return debriefOf(new State(rotor.model, all, state.now), rotor).predictions.find((p) => p.key === 'inspect_after');
  };
  const [, most] = /From 24 to (\d+) may be set/.exec(said(100)?.says ?? '') ?? [];
  expect(said(100)?.verdict).toBe('on the safe side');
  expect(said(Number(most) - 1)?.verdict).toBe('on the safe side');
  expect(said(Number(most))?.verdict).toBe('close');
  // Later is on no safe side.
  expect(said(Number(most) * 10)?.verdict).toBe('wrong');
  expect(said(23)?.verdict).toBe('wrong');
});

it('of a late start the debrief says that a trap lies before it, and reads nothing off before something was typed', async () => {
  const late = bareJob(rotor, 'run-in');
  await fillTo(late.job, rotor, 'run-in', late.clock);
  const text = debriefText(debriefOf(late.state(), rotor));
  expect(text).toContain('A trap of this rotor lies before “Run in”: not in this job.');
  expect(text).not.toContain('There were none in this job');
  expect(text).toContain('Nothing was read off yet.');
  // What the guide did takes nobody any time.
  expect(text).toMatch(/^Time\n0 min {2}in all$/m);
});

describe('what was left empty where that is offered', () => {
  const empty = typed({ seal_depth: '' });
  it('is not measured, no misreading, and costs no mark', () => {
    expect(empty.misread).toEqual([]);
    expect(empty.notTaken.map((m) => m.key)).toEqual(['seal_depth', 'seal_depth'].slice(0, empty.notTaken.length));
    expect(empty.notTaken.length).toBeGreaterThan(0);
    expect(empty.care?.marks).toBe(empty.care?.of);
    const text = debriefText(empty);
    expect(text).toMatch(/^Not measured: Depth of a seal.* - left empty, it showed 1\.2 mm\. It costs no mark\.$/m);
    expect(text).not.toContain('you typed left empty');
  });
  it('and measured later is told neither as not measured nor as put right', () => {
    const twice = (e: Entry): Entry[] => (isOf(e, 'seal_depth', 'a') ? [{ ...e, value: '' }, e] : [e]);
    const all = entries.flatMap(twice);
    const later = debriefOf(
      new State(
        rotor.model,
        all.map((e, i) => ({ ...e, seq: i + 1 })),
        state.now,
      ),
      rotor,
    );
    expect(later.care).toEqual(whole.care);
    expect([later.putRight, later.notTaken]).toEqual([[], []]);
  });
});

it('a trap that was fallen into and can still be put right is not given away, and costs nothing yet', () => {
  const careless = walk(rotor.model, rotor, planFor(rotor, 'fell'));
  const soon = careless.entries.findIndex((e) => e.kind === 'answer' && e.key === 'cloth') + 1;
  const made = debriefOf(new State(rotor.model, careless.entries.slice(0, soon), state.now), rotor);
  expect(made.traps[0]).toMatchObject({ end: 'fell', openUntil: expect.any(String) });
  const text = debriefText(made);
  expect(text).toContain('Still open: one trap can be put right until');
  expect(text).not.toContain(made.traps[0]!.lesson);
  expect(text).not.toContain('1 missed');
  expect(JSON.parse(attemptOf('j', made)?.value ?? '')).toMatchObject({ fell: 0, traps: [] });
});

it('whoever waits for a signature has reached a hold point', () => {
  const waiting = { ...whole, holds: [], stands: { at: 'Ball material', phase: 4, by: 'hold' as const } };
  expect(debriefText(waiting)).toMatch(/^Hold points\nNone is signed yet\.$/m);
});

it('a line of the working stands under the name of what it works out', () => {
  const lines = workedSolution(state, 'grease_overall', 'a');
  expect(lines).toContain('n d: n d = 14000 x 25 = 350000 mm/min');
  expect(lines.find((l) => l.includes(': n dm = '))).toMatch(/^Speed factor n dm/);
});

it('no total of marks stands above a trap that was missed', () => {
  const text = debriefText(debriefOf(walk(rotor.model, rotor, planFor(rotor, 'fell')).state, rotor));
  expect(text).toContain('1 trap missed: that outweighs what was right.');
  expect(text).not.toMatch(/\d+ of \d+ marks/);
});

it('a bare figure that was expected is shown with the unit in which it is taken', () => {
  const all = entries.map((e) =>
    e.kind === 'predict' && e.key === 'dose_due' ? ({ ...e, value: '5', typed: '5' } as Entry) : e,
  );
  const made = debriefOf(new State(rotor.model, all, state.now), rotor);
  expect(made.predictions.find((p) => p.key === 'dose_due')?.typed).toBe('5 mL');
});
