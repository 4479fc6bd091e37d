/** The kinds of question that there are, and what is asked of them. A new one is a file beside this and a line here. */
import type { Tables } from '../../calc/types.js';
import { isList } from '../../guards/guards.js';
import type { QuantityKind } from '../../units/kinds.js';
import type { Answer } from '../answer.js';
import { choice } from './choice.js';
import { choiceFromTable } from './choice-from-table.js';
import { counter } from './counter.js';
import { dimensions } from './dimensions.js';
import type { Bounds, Option, QuestionKind, ReadAnswer } from './kind.js';
import { number } from './number.js';
import { quantity } from './quantity.js';
import { noReading } from './reading.js';
import { series } from './series.js';
import { text } from './text.js';
import { yesNo } from './yes-no.js';

export const questionKinds = {
  choice,
  'choice-from-table': choiceFromTable,
  'yes-no': yesNo,
  quantity,
  dimensions,
  number,
  text,
  series,
  counter,
};

type Kinds = typeof questionKinds;
type AskedBy<K> = K extends QuestionKind<infer Q> ? Q : never;
/** A question of any kind; it names its kind by the name under which that stands above. */
export type Question = { [N in keyof Kinds]: AskedBy<Kinds[N]> & { kind: N } }[keyof Kinds];

export const kindOf = (q: Question): QuestionKind<Question> =>
  questionKinds[q.kind] as unknown as QuestionKind<Question>;

/** Read what was typed (or picked, by the option's value). */
export function readAnswer(q: Question, raw: unknown, tables: Tables, bounds: Bounds = {}): ReadAnswer {
  const typed = Array.isArray(raw)
    ? raw.join(',')
    : typeof raw === 'boolean'
      ? raw
        ? 'yes'
        : 'no'
      : String(raw ?? '');
  const kind = kindOf(q);
  if (typed.trim() === '' && q.optional) return { ok: true, value: '' };
  if (typed.trim() === '' && !kind.empty) return noReading(`${q.label}: nothing was typed; give an answer first.`);
  return kind.read(q, typed, tables, bounds);
}

/**
 * Why a recorded answer does not fit its question, in a few words; undefined when it does. A journal may come from
 * elsewhere, or from an older procedure: what the guide would have refused when it was typed must not count because it
 * stands in a file.
 */
export const unfit = (q: Question, value: Answer, tables: Tables): string | undefined =>
  value === '' && q.optional ? undefined : kindOf(q).unfit(q, value, tables);

/** The options of a question that is picked from a list. */
export const optionsOf = (q: Question, tables: Tables): readonly Option[] => kindOf(q).options?.(q, tables) ?? [];

export const quantityOf = (q: Question): QuantityKind | undefined => kindOf(q).quantity?.(q);
export const ownUnitOf = (q: Question): string | undefined => kindOf(q).unit?.(q);
export const rangeOf = (q: Question): readonly [number, number] | undefined => kindOf(q).range?.(q);
export const partsOf = (q: Question): readonly string[] => kindOf(q).parts?.(q) ?? [];

/** The value of a part: a length of its list, or what the kind reads in what was typed. */
export function partOf(
  q: Question,
  part: number,
  { value, typed }: { readonly value: Answer; readonly typed: string | undefined },
  tables: Tables,
): Answer | undefined {
  const own = kindOf(q).partOf;
  if (own) return own(q, typed ?? String(value), tables);
  return isList(value) ? value[part] : undefined;
}

/** A list of picks as recorded or typed, each in the words of its option. */
export function pickedWords(q: Question, typed: string, tables: Tables): string {
  const options = optionsOf(q, tables);
  const one = (value: string): string => options.find((o) => o.value === value)?.label ?? value;
  if (!kindOf(q).type.startsWith('list') || !options.length) return one(typed);
  return typed
    .split(/[,;\s]+/)
    .filter(Boolean)
    .map(one)
    .join(', ');
}
