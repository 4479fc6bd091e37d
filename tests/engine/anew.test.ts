/** Whoever takes over is told the dangers and proves the same again: by person, by sitting, ahead of all work. */
import { describe, expect, it } from 'vitest';
import { Bench, built, modelFrom, pumpText } from './pump.js';

const step = (each: string, more = ''): string => `  - id: own-lock
    phase: prepare
    at: job
    title: Your own lock
    do: Hang your own lock.
    why: It sprays.
    hazard: true
    caution: [Oil under pressure goes through skin.]
    anew: { each: ${each}, after: [pressure] }
    ask:
      - { key: own_lock, kind: yes-no, label: It hangs }
    gates:
      - { id: hangs, must: own_lock, say: Hang it., overrule: never }
${more}`;
const withStep = (each: string) =>
  modelFrom(pumpText.replace('  - id: outlet-there\n', `${step(each)}  - id: outlet-there\n`));
const [byPerson, bySitting] = [withStep('person'), withStep('sitting')];

/** Where a branch proves the same. */
const proves = modelFrom(
  pumpText
    .replace('    title: Find the ring', '    hazard: true\n    caution: [Sharp.]\n    title: Find the ring')
    .replace(
      '  - id: outlet-there\n',
      `${step('person').replace('[pressure]', '[pressure, pick-up]')}  - id: outlet-there\n`,
    ),
);

/** A pump whose pressure was let off by AP, with the next step open. */
function begun(model = bySitting): Bench {
  return new Bench(model)
    .answer('start', 'job', { heads: 'one', name_a: '' })
    .do({ do: 'caution', step: 'pressure', place: 'job' })
    .answer('pressure', 'job', { gauge: '0' })
    .done('pressure', 'job');
}
const next = (b: Bench): string => b.state.available()[0]?.step.id ?? 'none';
const lock = (b: Bench, own: string): Bench =>
  b
    .do({ do: 'caution', step: 'own-lock', place: 'job' })
    .answer('own-lock', 'job', { own_lock: own })
    .done('own-lock', 'job');
const takenOver = (b: Bench, initials: string): Bench => {
  b.do({ do: 'operator', initials });
  b.by = initials;
  return b;
};

describe('a step that is asked anew', () => {
  it('is not asked of whoever has just proven the same', () => {
    const b = begun();
    expect(next(b)).toBe('outlet-there');
    expect(b.status('own-lock', 'job')).toBe('not-needed');
    expect(b.wait(59).status('own-lock', 'job')).toBe('not-needed');
  });
  it.each([
    ['person', byPerson],
    ['sitting', bySitting],
  ])('comes before everything for another person, by %s', (_, model) => {
    const b = takenOver(begun(model), 'BX');
    expect(next(b)).toBe('own-lock');
    expect(b.try({ do: 'answer', step: 'outlet-there', place: 'a', key: 'has_outlet', text: 'yes' })).toMatch(
      /“Your own lock” comes first/,
    );
    expect(b.state.view('own-lock', 'job')?.wants).toBe('caution');
    b.do({ do: 'caution', step: 'own-lock', place: 'job' }).answer('own-lock', 'job', { own_lock: 'no' });
    expect(
      b.try({ do: 'overrule', step: 'own-lock', place: 'job', gate: 'hangs', reason: 'late', initials: 'BX' }),
    ).toMatch(/can’t be overruled/);
    b.answer('own-lock', 'job', { own_lock: 'yes' }).done('own-lock', 'job');
    expect(next(b)).toBe('outlet-there');
  });
  it('is asked of the first one again who comes back', () => {
    const b = takenOver(lock(takenOver(begun(byPerson), 'BX'), 'yes'), 'CY');
    expect(next(b)).toBe('own-lock');
    expect(b.state.view('own-lock', 'job')?.answered).toEqual([]);
    expect(b.state.view('own-lock', 'job')?.wants).toBe('caution');
  });
  it('is asked of the same person where the clock was set back: how long the pause was is not known', () => {
    expect(next(begun(bySitting).wait(-2))).toBe('outlet-there');
    expect(next(begun(bySitting).wait(-3))).toBe('own-lock');
    expect(next(begun(byPerson).wait(-3))).toBe('outlet-there');
    expect(next(lock(begun(bySitting).wait(-3 * 1440), 'yes'))).toBe('outlet-there');
  });
  it('is asked of the same person after a pause where each sitting counts, and only there', () => {
    expect(next(begun(bySitting).wait(61))).toBe('own-lock');
    expect(next(begun(byPerson).wait(61))).toBe('outlet-there');
    const back = lock(begun(bySitting).wait(61), 'yes');
    expect(next(back)).toBe('outlet-there');
    expect(next(back.wait(61))).toBe('own-lock');
    // Danger, answer and confirmation are those of this sitting.
    const wants = () => back.state.view('own-lock', 'job')?.wants;
    expect(wants()).toBe('caution');
    back.do({ do: 'caution', step: 'own-lock', place: 'job' });
    expect(wants()).toBe('question');
    back.answer('own-lock', 'job', { own_lock: 'yes' });
    expect(wants()).toBe('confirm');
  });
  it('comes before what was unforeseen too', () => {
    const b = begun()
      .answer('outlet-there', 'a', { has_outlet: 'yes' })
      .do({ do: 'raise', branch: 'ring-dropped', place: 'a' });
    const own = next(b);
    expect(b.state.view(own, 'a')?.step.branch).toBe('ring-dropped');
    expect(next(takenOver(b, 'BX'))).toBe('own-lock');
  });
  it('gives way to a branch that proves the same', () => {
    const b = begun(proves).do({ do: 'raise', branch: 'ring-dropped', place: 'a' });
    expect(next(takenOver(b, 'BX'))).toBe('pick-up');
  });
  it('stays done where it was done, whatever proves the same afterwards', () => {
    const b = lock(takenOver(begun(proves), 'BX'), 'yes').do({ do: 'raise', branch: 'ring-dropped', place: 'a' });
    b.do({ do: 'caution', step: 'pick-up', place: 'a' }).answer('pick-up', 'a', { ring_found: 'yes' });
    expect(b.done('pick-up', 'a').status('own-lock', 'job')).toBe('done');
  });
  it('leaves done what the person before had done', () => {
    const b = takenOver(begun(), 'BX');
    expect(b.status('pressure', 'job')).toBe('done');
    expect(b.status('start', 'job')).toBe('done');
  });
});

describe('dangers of a step that somebody else began', () => {
  it('are read by whoever goes on with it, and not by who comes to what is done', () => {
    const b = new Bench(bySitting)
      .answer('start', 'job', { heads: 'one', name_a: '' })
      .do({ do: 'caution', step: 'pressure', place: 'job' });
    expect(b.state.view('pressure', 'job')?.wants).toBe('question');
    takenOver(b, 'BX');
    expect(b.state.view('pressure', 'job')?.wants).toBe('caution');
    expect(b.try({ do: 'answer', step: 'pressure', place: 'job', key: 'gauge', text: '0' })).toMatch(/caution/);
    b.do({ do: 'caution', step: 'pressure', place: 'job' }).answer('pressure', 'job', { gauge: '0' });
    takenOver(b, 'B.X.');
    expect(b.state.view('pressure', 'job')?.wants).toBe('confirm');
    takenOver(b, 'BX').do({ do: 'caution', step: 'pressure', place: 'job' }).done('pressure', 'job');
    takenOver(b, 'AP');
    expect(b.status('pressure', 'job')).toBe('done');
  });
});

it('dangers are not read again by who comes to sign', () => {
  const sharp = pumpText.replace(
    '    title: Second pair of eyes',
    '    hazard: true\n    caution: [Sharp.]\n    title: Second pair of eyes',
  );
  const b = built(new Bench(modelFrom(sharp))).do({ do: 'caution', step: 'witness', place: 'job' });
  b.answer('witness', 'job', { looks: 'yes' }).done('witness', 'job');
  expect(takenOver(b, 'BX').state.view('witness', 'job')?.wants).toBe('sign');
});

describe('a gate that a second person answers for', () => {
  const model = modelFrom(
    pumpText.replace('{gauge}. Bleed on.", overrule: never', '{gauge}. Bleed on.", overrule: second-person'),
  );
  const held = (b: Bench): Bench =>
    b
      .answer('start', 'job', { heads: 'one', name_a: '' })
      .do({ do: 'caution', step: 'pressure', place: 'job' })
      .answer('pressure', 'job', { gauge: '5' });
  const overrule = (initials: string) =>
    ({
      do: 'overrule',
      step: 'pressure',
      place: 'job',
      gate: 'no-pressure',
      reason: 'the gauge sticks',
      initials,
    }) as const;
  it('is not let pass by who works, with and without a mentor', () => {
    const b = held(new Bench(model));
    expect(b.try(overrule('a.p.'))).toMatch(/a\.p\. works on this; a second person answers for going on/);
    expect(b.state.view('pressure', 'job')?.wants).toBe('gate');
    expect(b.try(overrule('BX'))).toBeUndefined();
    expect(b.state.view('pressure', 'job')?.wants).toBe('confirm');
    expect(held(new Bench(model, { mentor: 'MN' })).try(overrule('AP'))).toMatch(/the mentor, answers/);
  });
  it('stays shut for a journal from elsewhere in which one person let it pass alone', () => {
    const b = held(new Bench(model));
    b.add({
      kind: 'overrule',
      step: 'pressure',
      place: 'job',
      gate: 'no-pressure',
      reason: 'why',
      initials: 'A.P',
      by: 'AP',
    });
    expect(b.state.view('pressure', 'job')?.wants).toBe('gate');
  });
});
