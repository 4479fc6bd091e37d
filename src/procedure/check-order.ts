/** Hands come after safety, and a thing is on the bench before a step takes it. */
import { type Complain, quoted } from './problem.js';
import type { Procedure } from './schema.js';

/** Before the last step that makes the rotor safe, each other one says how far from the rotor a person stays. */
export function checkHands(p: Procedure, complain: Complain): void {
  const safe = p.steps.findLastIndex((s) => s.makes_safe && !s.branch);
  p.steps.forEach((s, i) => {
    if (i < safe && !s.branch && !s.makes_safe && !s.stays_at)
      complain(
        'hands-before-safe',
        ['steps', i, 'id'],
        `The step “${s.id}” may bring a hand to the rotor before “${p.steps[safe]?.id}” makes it safe.`,
        'Put it behind that step, or say with “stays_at” that it needs papers only or is done outside the guard.',
      );
  });
}

/** Only where a procedure lays things out at all: each that is taken was laid out before, each laid out is taken. */
export function checkThings(p: Procedure, complain: Complain): void {
  const kits = p.steps.flatMap((s, i) => (s.lays_out ?? []).map((g, j) => ({ g, i, j })));
  if (kits.length === 0) return;
  const laid = new Map<string, number>();
  for (const { g, i } of kits) for (const t of g.things) if (!laid.has(t)) laid.set(t, i);
  const used = new Set<string>();
  p.steps.forEach((s, i) => {
    (s.uses ?? []).forEach((thing, j) => {
      used.add(thing);
      const at = laid.get(thing);
      if (at !== undefined && (at <= i || s.branch)) return;
      complain(
        'thing-not-laid-out',
        ['steps', i, 'uses', j],
        `No step before “${s.id}” lays out “${quoted(thing)}”.`,
        'Name it in “lays_out” of an earlier step, as it is called there.',
      );
    });
  });
  for (const { g, i, j } of kits)
    g.things.forEach((thing, n) => {
      if (!used.has(thing))
        complain(
          'thing-not-used',
          ['steps', i, 'lays_out', j, 'things', n],
          `“${quoted(thing)}” is laid out, and no step takes it.`,
          'Name it in “uses” of the step that takes it, or take it out.',
        );
    });
}
