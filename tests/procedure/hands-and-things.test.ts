/** Hands come after safety, and each thing is on the bench before a step takes it. */
import { describe, expect, it } from 'vitest';
import { modelFor } from './library.js';
import { changed, says } from './sound.js';

const shipped = ['regrease-in-place', 'inspect-after-run'];
/** What can only be had with a hand, a rule or an eye at the rotor, whatever the step says of itself. */
const takesAHand = (q: { kind: string; quantity?: string }): boolean =>
  q.kind === 'choice-from-table' ||
  q.kind === 'dimensions' ||
  q.kind === 'counter' ||
  ['length', 'mass', 'volume'].includes(q.quantity ?? '');

describe.each(shipped)('%s', (name) => {
  const { procedure } = modelFor(name);
  const own = procedure.steps.filter((s) => !s.branch);
  const last = own.findLastIndex((s) => s.makes_safe);

  it('measures and picks nothing at the rotor before it is safe', () => {
    expect(last).toBeGreaterThan(0);
    const before = own.slice(0, last);
    expect(before.filter((s) => (s.ask ?? []).some((q) => takesAHand(q as never))).map((s) => s.id)).toEqual([]);
    expect(before.filter((s) => !s.makes_safe && !s.stays_at).map((s) => s.id)).toEqual([]);
    expect(before.filter((s) => s.physical).map((s) => s.id)).toEqual([]);
  });

  it('isolates first of all that makes it safe, by a stop that nobody overrules', () => {
    const first = own.find((s) => s.makes_safe);
    expect(first?.gates?.length).toBeGreaterThan(0);
    expect(first?.gates?.every((g) => g.overrule === 'never')).toBe(true);
  });

  it('lays everything out before a step takes it', () => {
    const laid = new Set<string>();
    for (const s of own) {
      for (const g of s.lays_out ?? []) for (const t of g.things) laid.add(t);
      expect((s.uses ?? []).filter((t) => !laid.has(t))).toEqual([]);
    }
    expect(laid.size).toBeGreaterThan(10);
  });
});

it('warns of magnets before the size is read', () => {
  const ids = modelFor('regrease-in-place').procedure.steps.map((s) => s.id);
  for (const safe of ['kit', 'isolate', 'prove-dead', 'magnets', 'cover-magnets'])
    expect(ids.indexOf(safe)).toBeLessThan(ids.indexOf('size'));
  for (const reading of ['size', 'make', 'seal-make', 'caps'])
    expect(ids.indexOf(reading)).toBeLessThan(ids.indexOf('first-feel'));
});

it('measures a seat that let the ring creep before a seal comes off, so that no chip falls in', () => {
  const ids = modelFor('regrease-in-place').procedure.steps.map((s) => s.id);
  expect(ids.indexOf('seat')).toBeLessThan(ids.indexOf('open-front'));
});

describe('check', () => {
  const safe = (text?: string): string =>
    changed(
      'label: State,',
      'label: State, goes_on: [whole, torn],',
      changed('hazard: true', 'hazard: true\n    makes_safe: true', text),
    );

  it('finds a step that may bring a hand to the rotor before it is safe', () => {
    expect(says(safe())).toEqual([
      '20:9: The step “start” may bring a hand to the rotor before “open” makes it safe. Put it behind that step, or say with “stays_at” that it needs papers only or is done outside the guard.',
      '30:9: The step “measure” may bring a hand to the rotor before “open” makes it safe. Put it behind that step, or say with “stays_at” that it needs papers only or is done outside the guard.',
    ]);
  });

  it('lets papers and what is done outside the guard come first', () => {
    const papers = changed('title: Start', 'title: Start\n    stays_at: papers');
    expect(says(safe(changed('title: Measure', 'title: Measure\n    stays_at: outside-guard', papers)))).toEqual([]);
  });

  it('finds a thing that is taken before it is laid out, and one that nobody takes', () => {
    const kit = 'title: Measure\n    uses: [hook]\n    lays_out:\n      - { for: To look, things: [hook, lamp] }';
    expect(says(changed('title: Start', 'title: Start\n    uses: [hook]', changed('title: Measure', kit)))).toEqual([
      '24:12: No step before “start” lays out “hook”. Name it in “lays_out” of an earlier step, as it is called there.',
      '37:40: “lamp” is laid out, and no step takes it. Name it in “uses” of the step that takes it, or take it out.',
    ]);
  });

  it('asks for no list where a procedure has none', () => {
    expect(says(changed('title: Start', 'title: Start\n    uses: [hook]'))).toEqual([]);
  });
});
