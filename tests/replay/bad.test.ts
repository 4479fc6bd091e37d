/** Bad files of readings, given to the real program: one clear sentence with its place, and an exit code that says no. */
import { describe, expect, it } from 'vitest';
import { bent, goodText, lineOf, replayed, written } from './program.js';

interface Bad {
  readonly name: string;
  readonly text: string | Uint8Array;
  readonly says: RegExp;
  /** Part of the file on whose line the sentence points; no line can be named where it is left out. */
  readonly at?: string;
}

const twoItems = (text: string, step: string, place: string): string => {
  // Takes a step out: what follows has to be refused.
  const line = text.split('\n').find((l) => l.includes(`step: ${step}, at: ${place}`)) ?? '';
  return bent(`${line}\n`, '', text);
};

const bad: readonly Bad[] = [
  {
    name: 'a word where a number belongs',
    text: bent('top_speed: "14000 rpm"', 'top_speed: fast'),
    says: /step duty: Top speed: .*fast/,
    at: 'step: duty',
  },
  {
    name: 'a wrong unit',
    text: bent('syringe_bore_calliper: 12.4 mm', 'syringe_bore_calliper: 12.4 g'),
    says: /step syringe: Inside diameter[^:]*: .*g.*mass.*length/,
    at: 'step: syringe',
  },
  {
    name: 'a negative bore',
    text: bent('syringe_bore_calliper: 12.4 mm', 'syringe_bore_calliper: -12.4 mm'),
    says: /step syringe: Inside diameter[^:]*: .*negative/,
    at: 'step: syringe',
  },
  {
    name: 'a run-in without a seal seated',
    text: twoItems(twoItems(goodText, 'refit', 'b.front'), 'seals-seated', 'b'),
    says: /step solvent-out: “Take the solvent out” is not next: .*comes first/,
    at: 'step: solvent-out',
  },
  {
    name: 'a seal that stands off, and then a run-in',
    text: bent(
      'step: refit-back, at: b, answers: { back_seated: all-round }',
      'step: refit-back, at: b, answers: { back_seated: stands-off }',
    ),
    says: /step refit-back at b: .*not seated.*can’t be overruled/,
    at: 'step: refit-back, at: b',
  },
  {
    name: 'a soak of nitrile rubber in n-heptane',
    text: bent(
      'step: seal-solvent, at: a.front, predict: { seal_soak: never }, answers: { seal_way: wipe }',
      'step: seal-solvent, at: a.front, predict: { seal_soak: allowed }, answers: { seal_way: soak }',
    ),
    says: /step seal-solvent at a\.front: .*attacks this seal.*can’t be overruled/,
    at: 'step: seal-solvent, at: a.front',
  },
  {
    name: 'polyurea over lithium without proven cleaning',
    text: bent(
      'step: white-cloth, at: a, after: 15 min, answers: { dry_now: yes, cloth: white }',
      'step: white-cloth, at: a, after: 15 min, answers: { dry_now: yes, cloth: stained }, overrule: { gate: cloth-white, reason: no time, initials: MN }',
      bent('new_thickener: lithium-complex', 'new_thickener: polyurea'),
    ),
    says: /step grease-fit at a: .*thickener are not proven compatible/,
    at: 'step: grease-fit, at: a',
  },
  {
    name: 'an unknown step',
    text: bent('step: prove-ring, at: a', 'step: proof-ring, at: a'),
    says: /no step “proof-ring”.*did you mean “prove-ring”/,
    at: 'step: proof-ring',
  },
  {
    name: 'an unknown key',
    text: bent('answers: { solvent: n-heptane, rinse: isopropanol }', 'answers: { solvant: n-heptane }'),
    says: /step solvent-choice: .*no “solvant”.*did you mean “solvent”/,
    at: 'solvant',
  },
  {
    name: 'an unknown name in an item',
    text: bent('- { step: machine, answers:', '- { step: machine, anwsers:'),
    says: /“anwsers”.*answers/,
    at: 'anwsers',
  },
  { name: 'an empty file', text: '', says: /empty|nothing/i },
  { name: 'a binary file', text: Uint8Array.from({ length: 4096 }, (_, i) => (i * 7919) % 256), says: /text|read/ },
  { name: 'zeros, as a hard stop may leave them', text: new Uint8Array(4096), says: /text|read|empty/ },
  {
    name: 'another YAML file',
    text: 'procedure: regrease-in-place\nname: x\nby: AP\nsteps: [ { step: machine } ]\n',
    says: /“replay” is missing/,
  },
  {
    name: 'a wait of the wrong sign',
    text: bent('step: fill-syringe, after: 10 min', 'step: fill-syringe, after: -10 min'),
    says: /after: /,
    at: 'step: fill-syringe',
  },
  {
    name: 'a dose signed by the apprentice',
    text: bent(
      'dose_set: 1.4 mL }, own: 1.38 mL, sign_after: 3 min, sign: MN',
      'dose_set: 1.4 mL }, own: 1.38 mL, sign_after: 3 min, sign: AP',
    ),
    says: /AP did the work; another person, the mentor, signs here/,
    at: 'dose_due: 1.4 mL }',
  },
  {
    name: 'an unknown place',
    text: bent('step: wash, at: b, after: 10 min', 'step: wash, at: c, after: 10 min'),
    says: /done at a or b, not at “c”/,
    at: 'step: wash, at: c',
  },
  {
    name: 'an unknown procedure',
    text: bent('procedure: regrease-in-place', 'procedure: regrease'),
    says: /no procedure “regrease”.*regrease-in-place/,
  },
];

describe('a bad file of readings', () => {
  it.each(bad.map((b) => [b.name, b] as const))('%s', async (_name, b) => {
    const file = written(b.text);
    const { code, out, err } = await replayed(file);
    expect(err).toMatch(b.says);
    expect(code === 1 || code === 2).toBe(true);
    expect(out).toBe('');
    expect(err.trimEnd().split('\n').length, err).toBe(1);
    expect(err).toMatch(/[.?!”)]\s*$/);
    expect(err).not.toMatch(/undefined|\[object|at .*\.js:\d/);
    if (b.at && typeof b.text === 'string') expect(err).toContain(`${file}:${lineOf(b.text, b.at)}:`);
  });

  it('that is not there, or is a folder', async () => {
    for (const path of ['/no/such/file.yaml', '/tmp']) {
      const { code, err } = await replayed(path);
      expect(code).toBe(2);
      expect(err).toContain(path);
      expect(err.trimEnd().split('\n').length).toBe(1);
    }
  });
});
