/** Bounds of a procedure, so that neither a slip nor malice makes the program slow. */
// @ts-nocheck

import type { Complain } from './problem.js';
import type { Procedure } from './schema.js';

const most = {
  steps: 400,
  facts: 600,
  calcs: 300,
  branches: 100,
  phases: 60,
  questions: 40,
  asked: 1500,
  gates: 20,
  choices: 60,
  places: 60,
};

/** True when it is small enough to be checked further. */
export function checkSize(p: Procedure, complain: Complain): boolean {
  let fine = true;
  const bound = (n: number, limit: number, path: (string | number)[], what: string): void => {
    if (n <= limit) return;
    fine = false;
    complain('too-large', path, `There are ${n} ${what}, more than ${limit}.`, 'Split the procedure in two.', -1);
  };
  for (const k of ['steps', 'facts', 'calcs', 'branches', 'phases'] as const) bound(p[k]?.length ?? 0, most[k], [k], k);
  bound(
    p.steps.reduce((n, s) => n + (s.ask?.length ?? 0), 0),
    most.asked,
    ['steps'],
    'questions in all',
  );
  p.steps.forEach((s, i) => {
    bound(s.ask?.length ?? 0, most.questions, ['steps', i, 'ask'], 'questions in one step');
    bound(s.gates?.length ?? 0, most.gates, ['steps', i, 'gates'], 'gates in one step');
    (s.ask ?? []).forEach((q, j) => {
      if ('options' in q) bound(q.options?.length ?? 0, most.choices, ['steps', i, 'ask', j, 'options'], 'choices');
    });
  });
  const count = new Map([['job', 1]]);
  for (const k of p.places) count.set(k.id, (count.get(k.within ?? 'job') ?? 1) * Math.min(k.instances.length, 1000));
  bound(
    [...count.values()].reduce((a, b) => a + b, -1),
    most.places,
    ['places'],
    'places in all',
  );
  return fine;
}
