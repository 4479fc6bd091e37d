/** How a rotor is gone about, from several sources: the later one wins. Pure. */
import type { PracticePlan } from './rotor-file.js';

export function joinPlans(plans: readonly (PracticePlan | undefined)[]): PracticePlan {
  const all = plans.flatMap((p) => p ?? []);
  return {
    ways: Object.assign({}, ...all.map((p) => p.ways)),
    answers: Object.assign({}, ...all.map((p) => p.answers)),
    gates: Object.assign({}, ...all.map((p) => p.gates)),
    raise: all.flatMap((p) => p.raise ?? []),
    ...all.reduce<PracticePlan>((e, p) => (p.ends ? { ends: p.ends } : e), {}),
  };
}

/** A catalogue that was written and read back holds the same in other objects. */
const alike = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** What a plan has besides the one that it is built on. */
export function onlyOwn(plan: PracticePlan | undefined, base: PracticePlan | undefined): PracticePlan {
  const less = <T>(a: Readonly<Record<string, T>> = {}, b: Readonly<Record<string, T>> = {}): Record<string, T> =>
    Object.fromEntries(Object.entries(a).filter(([k, v]) => !alike(b[k], v)));
  return {
    ways: less(plan?.ways, base?.ways),
    answers: less(plan?.answers, base?.answers),
    gates: less(plan?.gates, base?.gates),
    raise: (plan?.raise ?? []).filter((r) => !base?.raise?.some((b) => alike(b, r))),
    ...(plan?.ends !== base?.ends && plan?.ends ? { ends: plan.ends } : {}),
  };
}
