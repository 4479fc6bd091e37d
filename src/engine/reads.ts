/** Which steps at which places a value was worked out from, so that it can be kept while others change. */
import type { Model } from '../procedure/model.js';
import { slot } from './ledger.js';

/** A set of slots as bits. */
export class Reads {
  private readonly words: Uint32Array;

  constructor(slots: number) {
    this.words = new Uint32Array((slots + 31) >>> 5);
  }

  add(bit: number): void {
    this.words[bit >>> 5]! |= 1 << (bit & 31);
  }

  join(other: Reads): void {
    const { words } = this;
    for (let i = 0; i < words.length; i++) words[i]! |= other.words[i]!;
  }

  meets(other: Reads): boolean {
    const { words } = this;
    for (let i = 0; i < words.length; i++) if (words[i]! & other.words[i]!) return true;
    return false;
  }
}

/** Something worked out, with what it was worked out from. */
export interface Kept<T> {
  readonly value: T;
  readonly reads: Reads;
}

const numbered = new WeakMap<Model, ReadonlyMap<string, number>>();

/** The number of each step at each place; the same for every state of a procedure. */
export function slotNumbers(model: Model): ReadonlyMap<string, number> {
  let numbers = numbered.get(model);
  if (!numbers) {
    const made = new Map<string, number>();
    for (const step of model.procedure.steps)
      for (const p of model.places) if (p.kind === step.at) made.set(slot(step.id, p.id), made.size);
    numbered.set(model, made);
    numbers = made;
  }
  return numbers;
}

/** Copies what was worked out from nothing that was touched. */
export function carry<T>(from: ReadonlyMap<string, Kept<T>>, to: Map<string, Kept<T>>, touched: Reads): void {
  for (const [id, kept] of from) if (!kept.reads.meets(touched)) to.set(id, kept);
}
