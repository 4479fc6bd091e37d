/** One hazard, one signal word, wherever it is warned of: DANGER kills, WARNING may, CAUTION hurts. */
import { describe, expect, it } from 'vitest';
import { sayOf } from '../../src/procedure/caution.js';
import { modelFor } from '../procedure/library.js';

const cautions = ['regrease-in-place', 'inspect-after-run'].flatMap((name) =>
  modelFor(name).procedure.steps.flatMap((s) =>
    (s.caution ?? []).map((c) => ({ step: s.id, says: sayOf(c), hazard: s.hazard })),
  ),
);
/** What hurts stands before the colon. */
const hazardOf = (says: string): string => says.slice(says.indexOf(':') + 1).split(/[:.]/)[0] ?? '';

describe.each([
  ['DANGER', 'voltage', /voltage|live|power is on/i],
  ['WARNING', 'fire', /fire|sparks?\b|lights? vapour/i],
  ['WARNING', 'dizzy', /dizzy/i],
  ['WARNING', 'burns', /hot .*burns?/i],
  ['WARNING', 'acid', /burns to the bone/i],
  ['WARNING', 'crushing', /crush/i],
  ['WARNING', 'implants', /pacemaker/i],
  ['WARNING', 'turning parts', /spinning|turning part|pulls (hands|in gloves)/i],
  ['WARNING', 'what flies at the eye', /at the eye/i],
  ['WARNING', 'grease gun', /grease gun/i],
  ['CAUTION', 'grease from a needle', /grease from a needle/i],
  ['CAUTION', 'skin', /(old grease|oil) hurts the skin/i],
  ['CAUTION', 'what cuts', /\bcuts?\b/i],
] as const)('%s: %s', (word, _, pattern) => {
  const all = cautions.filter(({ says }) => pattern.test(hazardOf(says)));
  it('is said of it everywhere', () => {
    expect(all.length).toBeGreaterThan(0);
    const others = all.filter(({ says }) => !says.startsWith(`${word}: `));
    expect(others.map(({ step, says }) => `${step}: ${says}`)).toEqual([]);
  });
});

it('a notice protects things, never people', () => {
  const people = /hand|skin|eye|breath|smell|finger|safety data sheet|switch off/i;
  const said = cautions.filter(({ says }) => says.startsWith('NOTICE') && people.test(says));
  expect(said.map(({ step, says }) => `${step}: ${says}`)).toEqual([]);
});

it('a caution has one danger', () => {
  const two = [/springs.*burn/i, /burn.*springs/i, /skin.*catch fire/i, /crush.*spark/i];
  expect(cautions.filter(({ says }) => two.some((t) => t.test(says))).map(({ step }) => step)).toEqual([]);
});

it('a turn by hand at a magnet rotor is warned of before it, and its leads are apart before any', () => {
  const { steps } = modelFor('regrease-in-place').procedure;
  const at = (id: string): number => steps.findIndex((s) => s.id === id);
  const turning = steps.filter(
    (s) => !s.branch && (s.caution ?? []).some((c) => /turning magnet rotor/.test(sayOf(c))),
  );
  expect(turning.length).toBeGreaterThan(7);
  expect(turning.filter((s) => at(s.id) < at('part-leads')).map((s) => s.id)).toEqual([]);
});

it('each place where it is proven dead asks for AC and for DC', () => {
  const proofs = ['regrease-in-place', 'inspect-after-run'].flatMap((name) =>
    modelFor(name).procedure.steps.filter((s) =>
      (s.ask ?? []).some(
        (q) => 'options' in q && (q.options as { value: string }[]).some((o) => o.value === 'zero-only'),
      ),
    ),
  );
  expect(proofs.map((s) => s.id).sort()).toEqual([
    'machine-dead',
    'noise-stop',
    'own-lock',
    'own-lock',
    'popped-stop',
    'prove-dead',
    'seal-stop',
    'shield-stop',
    'standstill',
    'switch-off',
  ]);
  for (const s of proofs) {
    expect(s.do).toMatch(/AC/);
    expect(s.do).toMatch(/DC/);
    const q = (s.ask ?? []).find(
      (x) => 'options' in x && (x.options as { value: string }[]).some((o) => o.value === 'zero-only'),
    );
    const values = (q as unknown as { options: { value: string }[] }).options.map((o) => o.value);
    expect(values.slice(0, 4)).toEqual(['proven', 'one-kind', 'zero-only', 'live']);
  }
});

it('the second solvent is confirmed by itself in the brisk pace: its gloves are others', () => {
  const { steps } = modelFor('regrease-in-place').procedure;
  const kinds = (id: string) =>
    (steps.find((s) => s.id === id)?.caution ?? []).map((c) => (typeof c === 'string' ? c : c.kind));
  expect(kinds('rinse-bearing').filter((k) => !kinds('wash').includes(k))).toEqual(['vapour-rinse']);
});
