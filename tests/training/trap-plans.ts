/** How each trap of the catalogue is gone about: by a careful person, and by one who wants to be done. */
import type { State } from '../../src/engine/state.js';
import { plans, sensible } from './plans.js';
import type { Plan } from './walk.js';

type Both = { readonly caught: Partial<Plan>; readonly fell: Partial<Plan> };
const waysOf = (key: string, caught: readonly string[], fell: readonly string[]): Both => ({
  caught: { ways: { [key]: caught } },
  fell: { ways: { [key]: fell } },
});

export const trapPlans: Readonly<Record<string, Both>> = {
  ...plans,
  'top-speed': {
    caught: { ways: { top_speed: ['drive'] } },
    fell: { ways: { top_speed: ['usual'] }, gates: { 'residue-agrees': { overrule: 'most of it had run out' } } },
  },
  'cold-night': waysOf('coldest_start', ['where'], ['today']),
  'coolant-line': waysOf('got_in', ['above'], ['card']),
  // What takes up water is not proven on a nylon cage that lies in it.
  'wrong-bottle': {
    caught: { ways: { solvent: ['fits'] }, answers: { clean_way: 'swab' } },
    fell: {
      ways: { solvent: ['strongest'] },
      gates: { 'takes-coolant': { overrule: 'it takes off everything else' } },
    },
  },
  weekend: {
    caught: { ways: { cloth: ['now', 'fresh'] }, gates: { 'cloth-white': { raise: 'not-clean' } } },
    fell: { ways: { cloth: ['friday'] } },
  },
  'touching-lip': waysOf('seal_kind', ['light'], ['glance']),
  'proud-seal': {
    caught: { ways: { seal_condition: ['compare'] }, gates: { 'torn-raised': { raise: 'seal-torn' } } },
    fell: { ways: { seal_condition: ['turn'] } },
  },
  'calliper-zero': waysOf('syringe_bore_calliper', ['closed'], ['straight']),
  'third-full': {
    caught: { ways: { share_set: ['band'] } },
    fell: {
      ways: { share_set: ['rule'] },
      gates: {
        'share-band': { overrule: 'a third has never failed the pump shop' },
        'residue-agrees': { overrule: 'most of it had run out' },
      },
    },
  },
  'seat-sensor': {
    caught: { ways: { sensor_at: ['near'] } },
    fell: { ways: { sensor_at: ['clip'] }, gates: { 'seat-reads-low': { overrule: 'it will not be so much' } } },
  },
  'twin-tins': waysOf('tin_read', ['batch', 'fetched'], ['colour']),
  'dead-display': waysOf('stop_dead', ['meter'], ['display']),
  'half-mask': waysOf('masked', ['drop'], ['rag']),
};

/** What a plan answers of its own; what is sensible everywhere stays as it is. */
const own = (answers: Plan['answers'] = {}): Plan['answers'] =>
  Object.fromEntries(Object.entries(answers).filter(([k, v]) => sensible.answers[k] !== v));

/** One plan for a rotor that has these traps set. Where several ways are open and nothing is planned, the first is taken. */
export function planFor(lenders: readonly string[], how: 'caught' | 'fell'): Plan {
  const parts = lenders.map((id) => trapPlans[id]?.[how] ?? {});
  // A share that is asked in ways of its own is read there.
  const { share_set: _, ...rest } = sensible.answers;
  const within = (s: State): string => {
    const at = (key: string): number => {
      const v = s.values.get(key, 'a');
      return v.known ? Number(v.value) : 15;
    };
    return `${Math.round(10 * Math.min(at('share_high'), Math.max(at('share_low'), 15))) / 10} %`;
  };
  const answers = lenders.includes('third-full') ? rest : { ...rest, share_set: within };
  const join = <T>(of: (p: Partial<Plan>) => Readonly<Record<string, T>> | undefined): Record<string, T> =>
    Object.assign({}, ...parts.map((p) => of(p) ?? {}));
  return {
    ...sensible,
    ...Object.assign(
      {},
      ...parts
        .map(({ raise, end, correct, rowMinutes = sensible.rowMinutes }) => ({ raise, end, correct, rowMinutes }))
        .filter((p) => p.raise ?? p.end ?? p.correct),
    ),
    mentor: 'MN',
    answers: { ...answers, ...join((p) => own(p.answers)) },
    ways: join((p) => p.ways),
    gates: join((p) => p.gates),
  };
}
