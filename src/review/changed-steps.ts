/** What changed between two versions of a procedure, step by step, in the trade's words. */
import type { Calculator } from '../calc/types.js';
import { sayOf, whenOf } from '../procedure/caution.js';
import { type KeyInfo, keysOf } from '../procedure/model.js';
import { rangeOf } from '../procedure/questions/index.js';
import type { Gate, Procedure, Question, Step } from '../procedure/schema.js';
import { changedFigureKeys } from './changed-figures.js';
import { inWords } from './condition-words.js';
import {
  anewWords,
  answerWords,
  gateWords,
  labels,
  otherwiseWords,
  overruleWords,
  rangeWords,
  waitWords,
  waysWords,
  withLabels,
} from './question-words.js';

type Keys = ReadonlyMap<string, KeyInfo>;
type Calculators = Readonly<Record<string, Calculator>>;

interface ChangedStep {
  readonly id: string;
  /** One short sentence each. */
  readonly what: readonly string[];
}
export interface ChangedSteps {
  /** Ids of steps that only the new one has. */
  readonly added: readonly string[];
  readonly removed: readonly string[];
  readonly changed: readonly ChangedStep[];
}

/** Pure. Steps are the same when their ids are; without calculators their results keep their key as name. */
export function changedSteps(before: Procedure, after: Procedure, calculators: Calculators = {}): ChangedSteps {
  const old = new Map(before.steps.map((s) => [s.id, s]));
  const now = new Map(after.steps.map((s) => [s.id, s]));
  const oldKeys: Keys = new Map(keysOf(before, calculators).map((k) => [k.key, k]));
  const keys: Keys = new Map(keysOf(after, calculators).map((k) => [k.key, k]));
  const figures = changedFigureKeys(before, after);
  const moved = movedSteps(before, after);
  const phase = (p: Procedure, id: string): string => p.phases.find((f) => f.id === id)?.title ?? id;
  const changed = [...now.values()].flatMap((s): ChangedStep[] => {
    const was = old.get(s.id);
    if (!was) return [];
    const what: string[] = [];
    if (moved.has(s.id)) what.push(`It comes ${moved.get(s.id)}.`);
    if (was.phase !== s.phase)
      what.push(`It belongs to “${phase(after, s.phase)}”, before to “${phase(before, was.phase)}”.`);
    if (was.at !== s.at) what.push(`It is done once for each ${s.at}, before for each ${was.at}.`);
    what.push(...stepChanges(was, s, oldKeys, keys));
    const touched = [...new Set([...(s.show ?? []), ...(s.rests_on ?? [])])].filter((k) => figures.has(k));
    if (touched.length) what.push(`Worked out differently: ${labels(touched, keys)}.`);
    return what.length ? [{ id: s.id, what }] : [];
  });
  return {
    added: [...now.keys()].filter((id) => !old.has(id)),
    removed: [...old.keys()].filter((id) => !now.has(id)),
    changed,
  };
}

/** Steps that overtook others: the fewest that explain the new order. */
function movedSteps(before: Procedure, after: Procedure): Map<string, string> {
  const place = new Map(before.steps.map((s, i) => [s.id, i]));
  const order = after.steps.flatMap(({ id, title }) => {
    const was = place.get(id);
    return was === undefined ? [] : [{ id, title, was }];
  });
  const kept = longestRising(order.map((s) => s.was));
  const out = new Map<string, string>();
  for (const [i, { id, was }] of order.entries()) {
    const neighbour = order[i - 1];
    if (!kept.has(was)) out.set(id, neighbour ? `now after “${neighbour.title}”` : 'now first');
  }
  return out;
}

function longestRising(list: readonly number[]): ReadonlySet<number> {
  const longest = (runs: readonly (readonly number[])[]): readonly number[] =>
    runs.reduce((a, b) => (b.length > a.length ? b : a), []);
  /** For each item the longest run that ends with it. */
  const runs: (readonly number[])[] = [];
  for (const item of list) runs.push([...longest(runs.filter((run) => (run.at(-1) ?? item) < item)), item]);
  return new Set(longest(runs));
}

const wordings: readonly (readonly [keyof Step, string])[] = [
  ['title', 'Title'],
  ['do', 'What to do'],
  ['why', 'Why'],
  ['otherwise', 'What goes wrong if skipped'],
  ['tell', 'How to tell that it is right'],
  ['remedy', 'Remedy after a change'],
  ['mark', 'Line on the sheet'],
  ['picture', 'Picture asked for'],
];

function stepChanges(was: Step, now: Step, oldKeys: Keys, keys: Keys): string[] {
  const out: string[] = [];
  const differ = (name: string, a: string | undefined, b: string | undefined): void => {
    if (a === b) return;
    if (a === undefined) out.push(`${name}, new: ${b}`);
    else if (b === undefined) out.push(`${name}, no longer: ${a}`);
    else out.push(`${name}: “${b}”, before “${a}”.`);
  };
  for (const [field, name] of wordings) differ(name, text(was[field], oldKeys), text(now[field], keys));
  differ('Condition', was.when && inWords(was.when, oldKeys), now.when && inWords(now.when, keys));
  const noRemedy = ({ no_remedy: n }: Step, k: Keys): string | undefined =>
    n && `${text(n.say, k)} When ${inWords(n.when, k)}.`;
  differ('No remedy', noRemedy(was, oldKeys), noRemedy(now, keys));
  differ('Waiting time', waitWords(was, oldKeys), waitWords(now, keys));
  differ('Asked anew', anewWords(was), anewWords(now));
  differ('Hold point', was.hold?.say, now.hold?.say);
  differ('Hold point alone', was.hold?.self_check, now.hold?.self_check);
  differ(
    'Log runs until',
    was.repeat && inWords(was.repeat.until, oldKeys),
    now.repeat && inWords(now.repeat.until, keys),
  );
  const pauseWords = ({ repeat }: Step, k: Keys): string | undefined => repeat?.pause && inWords(repeat.pause, k);
  differ('Pause from row to row', pauseWords(was, oldKeys), pauseWords(now, keys));
  differ('Not to be interrupted with', was.together, now.together);
  differ('Belongs to the branch', was.branch, now.branch);
  for (const [field, name] of [
    ['show', 'Figures shown'],
    ['rests_on', 'Rests on'],
    ['predict', 'Predicted by an apprentice'],
  ] as const)
    differ(name, was[field] && labels(was[field], oldKeys), now[field] && labels(now[field], keys));
  differ('Things taken', was.uses?.join(', '), now.uses?.join(', '));
  differ('Things laid out', laidOut(was), laidOut(now));
  differ('How near a person comes', nearness(was), nearness(now));
  flag(was.makes_safe, now.makes_safe, 'marked as making the rotor safe', out);
  flag(was.hazard, now.hazard, 'marked as hazardous', out);
  flag(was.physical, now.physical, 'marked as work on the rotor', out);
  flag(was.decision, now.decision, 'a decision', out);
  const [old, fresh] = [cautionLines(was, oldKeys), cautionLines(now, keys)];
  for (const c of fresh) if (!old.includes(c)) out.push(`Caution, new: ${c}`);
  for (const c of old) if (!fresh.includes(c)) out.push(`Caution, no longer: ${c}`);
  out.push(...gateChanges(was.gates ?? [], now.gates ?? [], oldKeys, keys));
  out.push(...questionChanges(was.ask ?? [], now.ask ?? [], oldKeys, keys));
  if (JSON.stringify(was.draw) !== JSON.stringify(now.draw)) out.push('The drawing is another one.');
  if (JSON.stringify(was.reopens ?? []) !== JSON.stringify(now.reopens ?? []))
    out.push('Other steps than before are done again with it after an event.');
  if (JSON.stringify(was.not_after ?? []) !== JSON.stringify(now.not_after ?? []))
    out.push('It waits for other steps than before.');
  return out;
}

const cautionLines = (s: Step, keys: Keys): string[] =>
  (s.caution ?? []).map((c) => {
    const when = whenOf(c);
    return when === undefined ? sayOf(c) : `${sayOf(c)} Only if ${inWords(when, keys)}.`;
  });
const laidOut = (s: Step): string | undefined => s.lays_out?.map((g) => `${g.for}: ${g.things.join(', ')}`).join('; ');
const nearness = (s: Step): string | undefined =>
  s.stays_at && (s.stays_at === 'papers' ? 'papers only' : 'outside the guard');

const text = (value: unknown, keys: Keys): string | undefined =>
  typeof value === 'string' ? withLabels(value, keys) : undefined;

function flag(was: boolean | undefined, now: boolean | undefined, words: string, out: string[]): void {
  if (Boolean(was) !== Boolean(now)) out.push(now ? `It is now ${words}.` : `It is no longer ${words}.`);
}

function gateChanges(was: readonly Gate[], now: readonly Gate[], oldKeys: Keys, keys: Keys): string[] {
  const out: string[] = [];
  for (const g of now) {
    const old = was.find((x) => x.id === g.id);
    if (!old) {
      out.push(`Gate, new: ${gateWords(g, keys)}. ${overruleWords(g)}`);
      continue;
    }
    const [a, b] = [gateWords(old, oldKeys), gateWords(g, keys)];
    if (old.must !== g.must || old.when !== g.when || old.at !== g.at) out.push(`Gate “${g.id}”: ${b}, before: ${a}.`);
    if (old.overrule !== g.overrule)
      out.push(
        g.overrule === 'never'
          ? `Gate “${g.id}” can no longer be overruled.`
          : `Gate “${g.id}” can now be overruled ${g.overrule === 'second-person' ? 'by a second person' : 'with a reason'}.`,
      );
    const ways = waysWords(g, keys);
    if (ways !== waysWords(old, oldKeys)) out.push(`Gate “${g.id}”: ${ways || 'Nothing of its own is offered there.'}`);
    if (old.say !== g.say)
      out.push(`What gate “${g.id}” says: “${withLabels(g.say, keys)}”, before “${withLabels(old.say, oldKeys)}”.`);
  }
  for (const g of was) if (!now.some((x) => x.id === g.id)) out.push(`Gate, no longer: ${gateWords(g, oldKeys)}.`);
  return out;
}

function questionChanges(was: readonly Question[], now: readonly Question[], oldKeys: Keys, keys: Keys): string[] {
  const out: string[] = [];
  for (const q of now) {
    const old = was.find((x) => x.key === q.key);
    if (!old) out.push(`Question, new: ${q.label} (${answerWords(q, keys)}).`);
    else out.push(...oneQuestion(old, q, oldKeys, keys));
  }
  for (const q of was) if (!now.some((x) => x.key === q.key)) out.push(`Question, no longer: ${q.label}.`);
  const shared = (list: readonly Question[], other: readonly Question[]): string =>
    list
      .map((q) => q.key)
      .filter((k) => other.some((q) => q.key === k))
      .join();
  if (shared(was, now) !== shared(now, was)) out.push('The questions come in another order.');
  return out;
}

function oneQuestion(was: Question, now: Question, oldKeys: Keys, keys: Keys): string[] {
  const out: string[] = [];
  const name = `“${now.label}”`;
  const differ = (what: string, a: string | undefined, b: string | undefined): void => {
    if (a !== b) out.push(`${what} of ${name}: ${b ?? 'none'}, before ${a ?? 'none'}.`);
  };
  if (was.label !== now.label) out.push(`Question ${name}, before “${was.label}”.`);
  differ('Answers', answerWords(was, oldKeys), answerWords(now, keys));
  const inWordsOf = (q: Question, range: readonly [number, number] | undefined): string | undefined =>
    range && rangeWords(q, range);
  differ('Limits', inWordsOf(was, rangeOf(was)), inWordsOf(now, rangeOf(now)));
  const usual = (q: Question): string | undefined => inWordsOf(q, 'plausible' in q ? q.plausible : undefined);
  differ('Usual range', usual(was), usual(now));
  const spread = (q: Question): string | undefined =>
    'plus_minus' in q && q.plus_minus ? `± ${q.plus_minus}` : undefined;
  differ('Half width', spread(was), spread(now));
  differ('Condition', was.when && inWords(was.when, oldKeys), now.when && inWords(now.when, keys));
  differ('Value while unanswered', otherwiseWords(was), otherwiseWords(now));
  if (was.help !== now.help) out.push(`The help for ${name} reads otherwise.`);
  if (Boolean(was.optional) !== Boolean(now.optional))
    out.push(`${name} ${now.optional ? 'may now be left empty' : 'has to be answered now'}.`);
  return out;
}
