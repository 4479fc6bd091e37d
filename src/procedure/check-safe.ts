/** What makes the rotor safe is proven: each answer there is held by a stop that nobody overrules, or said to go on. */
import type { Tables } from '../calc/types.js';
import type { Answer } from './answer.js';
import type { Judge } from './judge.js';
import { near } from './near.js';
import { type Complain, listed, type Path, quoted } from './problem.js';
import { kindOf, type Question } from './questions/index.js';
import type { Gate, Procedure, Step } from './schema.js';
import type { ConditionTrial } from './trial.js';

interface Around {
  readonly judge: Pick<Judge, 'sound'>;
  readonly trial: ConditionTrial;
  readonly tables: Tables;
}
type Picked = Extract<Question, { kind: 'yes-no' | 'choice' }>;

const nothing = (): boolean => false;
const isPicked = (q: Question): q is Picked => q.kind === 'yes-no' || q.kind === 'choice';
const wordOf = (a: Answer): string => (a === true ? 'yes' : a === false ? 'no' : String(a));

export function checkSafe(p: Procedure, around: Around, complain: Complain): void {
  p.steps.forEach((s, i) => {
    if (!s.makes_safe) return;
    const gates = (s.gates ?? []).filter((g) => g.overrule === 'never');
    const wrong = [s.when, ...gates.flatMap((g) => [g.when, g.must])].some((t) => t && !around.judge.sound(t));
    (s.ask ?? []).forEach((q, j) => {
      const path: Path = ['steps', i, 'ask', j];
      if (isPicked(q)) {
        nameless(q, path, around.tables, complain);
        if (!wrong && (q.when === undefined || around.judge.sound(q.when))) loose(s, q, gates, path, around, complain);
      } else if (!q.optional && gates.length === 0)
        complain(
          'safe-without-stop',
          [...path, 'key'],
          `The step “${s.id}” makes safe, and whatever is answered to “${q.key}” goes on.`,
          'Add a gate with “overrule: never”.',
        );
    });
  });
}

/** Words under `goes_on` that are no answers. */
function nameless(q: Picked, path: Path, tables: Tables, complain: Complain): void {
  const all = q.kind === 'choice' ? q.options.map((o) => o.value) : (kindOf(q).all?.(q, tables) ?? []).map(String);
  (q.goes_on ?? []).forEach((a, n) => {
    if (!all.includes(String(a)))
      complain(
        'word-impossible',
        [...path, 'goes_on', n],
        `“${q.key}” can never be “${quoted(a)}”.`,
        near(String(a), all) || `It can be: ${listed(all)}.`,
      );
  });
}

/** Answers that are neither held nor said to go on. */
function loose(
  s: Step,
  q: Picked,
  gates: readonly Gate[],
  path: Path,
  { trial, tables }: Around,
  complain: Complain,
): void {
  const fine: readonly Answer[] = q.goes_on ?? (q.kind === 'yes-no' ? [true] : []);
  const applies = [s.when, q.when].filter((t) => t !== undefined).map((t) => `(${t})`);
  const opens = gates.map((g) => (g.when === undefined ? `(${g.must})` : `(!(${g.when}) || (${g.must}))`));
  const ways = [[...applies, ...opens], ...opens.map((o) => [...applies, o]), ...opens.map((o) => [o])];
  const held = (answer: Answer): boolean =>
    opens.length > 0 &&
    ways.some((all) => trial.can(all.join(' && '), nothing, new Map([[q.key, answer]]))?.true === false);
  // Left empty it counts as what stands in for it.
  const unasked = q.optional && q.otherwise !== undefined ? [q.otherwise] : [];
  const answers: readonly Answer[] = [...(kindOf(q).all?.(q, tables) ?? []), ...unasked];
  const open = [...new Set(answers)].filter((a) => !fine.includes(a) && !held(a));
  if (open.length === 0) return;
  // Of a choice the one way on is the safe one, where every other answer is held.
  if (q.kind === 'choice' && !q.goes_on && open.length === 1 && answers.length > 1) return;
  const named = open.map((a) => `“${wordOf(a)}”`).join(' and ');
  complain(
    'safe-without-stop',
    [...path, 'key'],
    `The step “${s.id}” makes safe, and whoever answers ${named} to “${q.key}” goes on.`,
    `Add a gate with “overrule: never” that holds it, such as “must: ${q.kind === 'yes-no' ? q.key : `${q.key} == '${String(answers.find((a) => !open.includes(a)) ?? answers[0])}'`}”; or name each answer that is safe enough in “goes_on: [${[...fine, ...open].join(', ')}]”.`,
  );
}

/** An answer that hangs on a need: in a part alone, for only there it is known whether the procedure has it. */
export function checkOffered(s: Step, path: Path, part: boolean, judge: Judge, complain: Complain): void {
  (s.ask ?? []).forEach((q, j) => {
    if (q.kind !== 'choice') return;
    q.options.forEach((o, n) => {
      const at: Path = [...path, 'ask', j, 'options', n, 'only_with'];
      if (part) judge.expression(o.only_with, s.at, 'bool', at);
      else if (o.only_with !== undefined)
        complain('value-not-allowed', at, '“only_with” belongs into a part.', 'Take it out.', -1);
    });
  });
}
