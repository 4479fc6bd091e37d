/**
 * Figures, conditions and cautions that can't do what they are there for: a wait of no length, a gate that holds nobody,
 * a half width as wide as all that can be answered, a value that the question itself refuses, a warning of nothing.
 */
import type { Tables } from '../calc/types.js';
import { sayOf } from './caution.js';
import type { Judge } from './judge.js';
import type { KeyInfo } from './model.js';
import type { Complain, Path } from './problem.js';
import { kindOf, type Question, quantityOf, rangeOf } from './questions/index.js';
import type { Procedure, Step } from './schema.js';
import { sentencesOf } from './sentences.js';
import type { ConditionTrial } from './trial.js';

interface Around {
  /** Steps of which the condition itself is wrong. */
  readonly late: ReadonlySet<Step>;
  readonly keys: ReadonlyMap<string, KeyInfo>;
  readonly judge: Pick<Judge, 'sound'>;
  readonly trial: ConditionTrial;
  readonly tables: Tables;
}

const nothing = (): boolean => false;

export function checkPurpose(p: Procedure, around: Around, complain: Complain): void {
  p.steps.forEach((s, i) => {
    const path: Path = ['steps', i];
    checkWait(s.wait?.minutes, [...path, 'wait', 'minutes'], 'wait', around, complain);
    checkWait(s.fresh?.minutes, [...path, 'fresh', 'minutes'], 'time', around, complain);
    checkCautions(s, path, complain);
    if (!around.late.has(s)) checkGates(s, path, around, complain);
    (s.ask ?? []).forEach((q, j) => {
      checkRange(q, [...path, 'ask', j], around, complain);
    });
  });
}

/** What comes of a condition, where all that it reads can be tried. */
function outcomes({ judge, trial }: Around, condition: string, of: string) {
  return judge.sound(of) ? trial.can(condition, nothing) : undefined;
}

/** In minutes: nobody waits longer for anything at a bench. */
const A_YEAR = 525_600;

function checkWait(minutes: string | undefined, path: Path, what: string, around: Around, complain: Complain): void {
  if (minutes === undefined) return;
  const above = outcomes(around, `(${minutes}) > 0.0`, minutes);
  const below = outcomes(around, `(${minutes}) < 0.0`, minutes);
  if ((above && !above.true && above.false) || below?.true)
    complain(
      'wait-nought',
      path,
      `This ${what} is not above nought: nobody waits.`,
      'Write the minutes, such as "10.0".',
    );
  const long = outcomes(around, `(${minutes}) > ${A_YEAR}.0`, minutes);
  if (long?.true && !long.false)
    complain(
      'wait-long',
      path,
      `This ${what} is longer than a year.`,
      `It counts in minutes: a day is 1440. Write fewer than ${A_YEAR}.0.`,
    );
}

/** A gate that lets everybody pass, whatever is answered, holds nobody. */
function checkGates(s: Step, path: Path, around: Around, complain: Complain): void {
  (s.gates ?? []).forEach((g, j) => {
    const read = [...around.trial.reads(g.must)];
    // What may have no value holds the gate by that alone; what is the same in each job may be another in the next procedure.
    if (read.length === 0 || !read.every((key) => isAnswered(key, s, around))) return;
    const applies = [s.when, g.when].filter((t) => t !== undefined).map((t) => `(${t})`);
    const sound = [s.when, g.when, g.must].every((t) => t === undefined || around.judge.sound(t));
    // Of one that never counts that is told, and nothing else.
    if (!sound || (applies.length > 0 && !around.trial.can(applies.join(' && '), nothing)?.true)) return;
    const held = around.trial.can([...applies, `!(${g.must})`].join(' && '), nothing);
    if (held && !held.true && !held.unsettled)
      complain(
        'gate-never-holds',
        [...path, 'gates', j, 'must'],
        `The gate “${g.id}” never holds: whatever is answered, it opens.`,
        'Change the condition or take the gate out.',
      );
  });
}

/** It has a value as soon as somebody gets as far as that step, and one that somebody gave. */
function isAnswered(key: string, at: Step, { keys, trial }: Around): boolean {
  const from = keys.get(key)?.from;
  if (from?.by === 'fact')
    return 'is' in from.fact && from.fact.when === undefined && trial.reads(from.fact.is).size > 0;
  if (from?.by !== 'question') return from?.by === 'place';
  const { question: q, step } = from;
  if (q.otherwise !== undefined) return true;
  return !q.optional && q.when === undefined && (step === at || (step.when === undefined && step.branch === undefined));
}

function checkRange(q: Question, path: Path, around: Around, complain: Complain): void {
  const range = rangeOf(q);
  if (!range) return;
  const [low, high] = range;
  if ('plus_minus' in q && q.plus_minus !== undefined && low < high && q.plus_minus * 2 >= high - low)
    complain(
      'plus-minus-wide',
      [...path, 'plus_minus'],
      `“${q.key}” is good to ± ${q.plus_minus}, which is all that can be answered: ${low} to ${high}.`,
      'Write what one reading may be off by, in the canonical unit like the limits.',
    );
  const refused = (name: string, why: string): void =>
    complain(
      'limits-refuse',
      [...path, name],
      `“${name}” of “${q.key}” is refused by its limits ${low} to ${high}${why}.`,
      'Mend the value or the limits; both are in the canonical unit.',
    );
  // Of what was not measured nought stands for none, and a bare number may stand for what it can't be.
  const { otherwise } = q;
  if (
    typeof otherwise === 'number' &&
    otherwise !== 0 &&
    quantityOf(q) &&
    kindOf(q).type === 'double' &&
    kindOf(q).unfit(q, otherwise, around.tables) !== undefined
  )
    refused('otherwise', '');
  const { wanted, most } = kindOf(q).bounds?.(q) ?? {};
  for (const [name, text] of [
    ['suggest', q.suggest],
    ['wanted', wanted],
  ] as const) {
    if (text === undefined) continue;
    const fits = outcomes(around, `(${text}) >= ${point(low)} && (${text}) <= ${point(high)}`, text);
    if (fits?.false && !fits.true) refused(name, ', whatever is answered');
  }
  const room = most === undefined ? undefined : outcomes(around, `(${most}) >= ${point(low)}`, most);
  if (room?.false && !room.true) refused('no_more_than', ', whatever is answered');
}

/** A number as expressions take it. */
const point = (n: number): string => (Number.isInteger(n) ? n.toFixed(1) : String(n));

/** Words that warn of nothing: what hurts and how to prevent it has to stand there. */
const vague =
  /^(?:(?:danger|warning|caution|notice|attention)\b[:!]?\s*)?(?:please\s+)?(?:always\s+)?(?:(?:be|stay|work|act|proceed|go on|handle|use|take|exercise|pay|watch|look|mind|safety|caution|danger|attention|dangerous|careful|hazard|risk)\b\s*)?(?:very\s+|extra\s+|great\s+|due\s+|all\s+|with\s+)*(?:careful(?:ly)?|care|cautious(?:ly)?|caution|safe(?:ly)?|attention|attentive|alert|out|first|it|this|yourself|here|your (?:hands|fingers|step))?(?:\s+(?:here|now|with it|with this|at all times|please))*[.!]*$/i;

function checkCautions(s: Step, path: Path, complain: Complain): void {
  (s.caution ?? []).forEach((c, j) => {
    if (!sentencesOf(sayOf(c)).every((x) => vague.test(x.text))) return;
    complain(
      'caution-says-nothing',
      [...path, 'caution', j, ...(typeof c === 'string' ? [] : ['say'])],
      'This caution says neither what hurts nor what to do.',
      'Name the danger and how to prevent it, such as “Hot oil burns the skin. Wear long gloves.”',
    );
  });
}
