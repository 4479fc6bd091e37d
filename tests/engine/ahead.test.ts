/** How far a job is and what is still to come, on the invented pump: every figure counted by hand. */
import { describe, expect, it } from 'vitest';
import { ahead, phaseRows } from '../../src/engine/state/ahead.js';
import { Bench, finished, measured, modelFrom, prepared, pumpText, readyToFill } from './pump.js';

/** `a 4/5 waiting glue`: place, done of all, what stands first there, and the step. */
const phase = (bench: Bench, id: string): string[] =>
  (phaseRows(bench.state).find((r) => r.id === id)?.cells ?? []).map(
    (c) => `${c.place} ${c.done}/${c.total} ${c.status} ${c.next?.step.id ?? '-'}`,
  );
const screwed = (): Bench => {
  const bench = readyToFill();
  for (const h of ['a', 'b']) bench.done('fill', h).answer('screws', h, { screws: 4 });
  return bench.done('glue', 'a').done('polish', 'a');
};
const gauged = (gauge: number): Bench =>
  new Bench()
    .answer('start', 'job', { heads: 'one', name_a: '' })
    .do({ do: 'caution', step: 'pressure', place: 'job' })
    .answer('pressure', 'job', { gauge });

describe('each phase at each place', () => {
  it.each<[string, () => Bench, string, string[]]>([
    ['begun', () => new Bench(), 'prepare', ['job 0/2 open start', 'a 0/0 none -', 'b 0/0 none -']],
    // Outlet, bore, two valves looked at and perhaps lapped, the decision.
    ['begun', () => new Bench(), 'measure', ['job 0/0 none -', 'a 0/7 later outlet-there', 'b 0/7 later outlet-there']],
    ['begun', () => new Bench(), 'build', ['job 0/1 later oil-kind', 'a 0/5 later fill', 'b 0/5 later fill']],
    ['of one head', () => gauged(0).done('pressure', 'job'), 'prepare', ['job 2/2 done -', 'a 0/0 none -']],
    ['under pressure', () => gauged(12), 'prepare', ['job 1/2 stopped pressure', 'a 0/0 none -']],
    // No outlet and a good seat: outlet, bore, one valve, the decision.
    [
      'half measured',
      () => measured(prepared(), 'a').answer('outlet-there', 'b', { has_outlet: 'no' }),
      'measure',
      ['job 0/0 none -', 'a 4/4 done -', 'b 1/5 open bore'],
    ],
    [
      'corrected',
      () => readyToFill().correct('bore', 'a', 'bore', '36'),
      'measure',
      ['job 0/0 none -', 'a 3/4 open decide', 'b 4/4 done -'],
    ],
    ['glued', screwed, 'build', ['job 1/1 done -', 'a 4/5 waiting glue', 'b 2/5 open glue']],
    // Before the wait stands what can be worked on meanwhile.
    [
      'glued on both',
      () => screwed().done('glue', 'b'),
      'build',
      ['job 1/1 done -', 'a 4/5 waiting glue', 'b 3/5 open polish'],
    ],
    ['finished', finished, 'finish', ['job 2/2 done -', 'a 0/0 none -', 'b 0/0 none -']],
  ])('of a job %s', (_, bench, id, cells) => {
    expect(phase(bench(), id)).toEqual(cells);
  });

  it('is left out where nothing of it applies', () => {
    const model = modelFrom(
      pumpText
        .replace('    title: Second pair of eyes', `    when: "heads == 'two'"\n    title: Second pair of eyes`)
        .replace('    title: Run and log', `    when: "heads == 'two'"\n    title: Run and log`),
    );
    const ids = (heads: string) => phaseRows(prepared(new Bench(model), heads).state).map((r) => r.id);
    expect(ids('two')).toEqual(['prepare', 'measure', 'build', 'finish']);
    expect(ids('one')).toEqual(['prepare', 'measure', 'build']);
  });
});

describe('what is still to come', () => {
  it('in steps, logs, signatures and minutes of waiting', () => {
    const told = (bench: Bench) => {
      const { done, total, logs, holds, waits, openWaits } = ahead(bench.state);
      expect(bench.state.progress).toEqual({ done, total });
      return [done, total, logs.map((v) => v.step.id), holds, waits, openWaits];
    };
    // 2 + 14 + 11 + 2 steps; glue sets for 30 min on each head.
    expect(told(new Bench())).toEqual([0, 29, ['run'], 1, 60, 0]);
    // One has 29 min 59 s to go, the other is to be glued; then both run side by side.
    expect(told(screwed())).toEqual([17, 23, ['run'], 1, expect.closeTo(30 + 29 + 59 / 60, 9), 0]);
    expect(told(screwed().wait(10).done('glue', 'b'))).toEqual([18, 23, ['run'], 1, 30, 0]);
    expect(told(screwed().done('glue', 'b').wait(10).done('polish', 'b'))).toEqual([
      ...[19, 23, ['run'], 1],
      ...[expect.closeTo(20 - 1 / 60, 9), 0],
    ]);
    expect(told(finished())).toEqual([23, 23, [], 0, 0, 0]);
  });

  it('counts a wait that nobody knows the length of yet apart', () => {
    const model = modelFrom(
      pumpText
        .replace(
          'ask:\n      - key: heads',
          'ask:\n      - { key: cure, kind: number, label: Cure, limits: [0, 99], optional: true }\n      - key: heads',
        )
        .replace('minutes: "30.0"', 'minutes: cure'),
    );
    const bench = new Bench(model).answer('start', 'job', { cure: '', heads: 'two', name_a: '' });
    expect(ahead(bench.state)).toMatchObject({ waits: 0, openWaits: 2 });
    expect(ahead(bench.correct('start', 'job', 'cure', '20').state)).toMatchObject({ waits: 40, openWaits: 0 });
    bench.correct('start', 'job', 'cure', '');
    bench.do({ do: 'caution', step: 'pressure', place: 'job' }).answer('pressure', 'job', { gauge: 0 });
    measured(bench.done('pressure', 'job'), 'a');
    measured(bench, 'b').answer('oil-kind', 'job', { oil: 'thin' });
    for (const h of ['a', 'b']) bench.done('fill', h).answer('screws', h, { screws: 4 });
    expect(ahead(bench.done('glue', 'a').state)).toMatchObject({ waits: 0, openWaits: 1 });
  });

  /** Each entry takes the pump's bench one second besides. */
  it('in minutes of work, from those that steps took until now', () => {
    const bench = new Bench().wait(3).answer('start', 'job', { heads: 'two' });
    // A long pause was no work.
    bench.wait(20).answer('start', 'job', { name_a: '' });
    expect(ahead(bench.state).work).toBeUndefined();
    bench.wait(2).do({ do: 'caution', step: 'pressure', place: 'job' });
    // 3:01 and 2:01: the greater of two in the middle for 26 steps without a past; the log takes as long as it takes.
    expect(ahead(bench.state).work).toBeCloseTo(26 * (3 + 1 / 60) + (2 + 1 / 60), 9);
    bench.answer('pressure', 'job', { gauge: 0 }).done('pressure', 'job');
    // 2:03 for the pressure now. 10:01 for the outlet: 3:01 is in the middle, 10:01 for the other outlet.
    bench.wait(10).answer('outlet-there', 'a', { has_outlet: 'yes' });
    expect(ahead(bench.state).work).toBeCloseTo(24 * (3 + 1 / 60) + (10 + 1 / 60), 9);
  });

  it('takes what belongs to no step for no step', () => {
    const bench = new Bench().wait(1).answer('start', 'job', { heads: 'one' });
    // One step is no past to judge by.
    expect(ahead(bench.wait(9).do({ do: 'note', place: 'a', text: 'rusty' }).state).work).toBeUndefined();
  });

  it('counts a quarter of an hour as work, and a clock set back as none', () => {
    const second = 1000;
    const bench = new Bench().wait(1).answer('start', 'job', { heads: 'one' });
    bench.now += 15 * 60 * second - second;
    bench.answer('start', 'job', { name_a: '' });
    bench.now -= 2 * 3600 * second;
    bench.do({ do: 'caution', step: 'pressure', place: 'job' });
    expect(ahead(bench.state).work).toBeUndefined();
    bench.wait(1).answer('pressure', 'job', { gauge: 0 });
    // 16:01 at the start, 1:01 under pressure: one confirmation there, and 14 steps without a past.
    expect(ahead(bench.state).work).toBeCloseTo(14 * (16 + 1 / 60) + (1 + 1 / 60), 9);
  });
});
