/** A witness's own figure against the one that is signed: how far they are apart. Pure. */
import type { Step } from '../../procedure/schema.js';
import { parseQuantity } from '../../units/parse.js';
import { labelAt, showKey, showValue } from '../values/texts.js';
import type { State } from './state.js';

/** Further apart than the hold point allows. */
export interface Apart {
  /** What the figure is called that is signed. */
  readonly label: string;
  /** With their units, as they are shown. */
  readonly own: string;
  readonly signed: string;
  /** Of the one that is signed, in percent, and how many are allowed. */
  readonly percent: number;
  readonly allowed: number;
}

type OwnRead = { readonly ok: true; readonly apart?: Apart } | { readonly ok: false; readonly message: string };

/** As it is read in the usual unit of what it is held against; undefined where nothing is to be held against a figure. */
export function readOwn(state: State, step: Step, text: string): ReturnType<typeof parseQuantity> | undefined {
  const key = step.hold?.near?.key;
  const info = key === undefined ? undefined : state.model.keys.get(key);
  if (!info?.quantity) return undefined;
  const question = info.from.by === 'question' ? info.from.question : undefined;
  return parseQuantity(text, info.quantity, question?.kind === 'quantity' ? question.unit : undefined);
}

/** Whether it is a figure, and too far away. Where the guide has none nothing is told. */
export function ownFigure(state: State, step: Step, place: string, text: string): OwnRead | undefined {
  const near = step.hold?.near;
  const read = near && readOwn(state, step, text);
  if (!near || !read) return undefined;
  if (!read.ok) return { ok: false, message: read.message };
  const home = state.values.enclosing(state.model.keys.get(near.key)?.at ?? '', place) ?? place;
  const signed = state.values.get(near.key, home);
  if (!signed.known || typeof signed.value !== 'number' || signed.value === 0) return { ok: true };
  const percent = (100 * Math.abs(read.value - signed.value)) / Math.abs(signed.value);
  // A tenth of a tenth is no difference: 0.99 of 0.90 is ten percent, whatever its last bit says.
  if (percent <= near.percent + 1e-9) return { ok: true };
  const apart = {
    label: labelAt(state.values, near.key, home),
    own: showValue(state.model, near.key, read.value),
    signed: showKey(state.values, near.key, home),
    percent,
    allowed: near.percent,
  };
  return { ok: true, apart };
}

/** Both figures and the difference, in one sentence. Rounded up: nobody reads a difference that is allowed. */
export const apartWords = ({ label, own, signed, percent, allowed }: Apart): string =>
  `Own figure ${own}, ${label.toLowerCase()} ${signed}: ${Math.ceil(percent - 1e-9)} % apart, ${allowed} % is allowed.`;
