/** Which steps at which places a value was worked out from, so that it can be kept while others change. */
import type { Model } from '../../procedure/model.js';
import { rowsOf, slot } from '../journal/ledger-shape.js';

/** Bits that a word holds: as many as stay a small integer, which costs no memory of its own. */
const BITS = 30;

/** A set of slots as bits. */
export class Reads {
  private readonly words: number[];

  constructor(slots: number) {
    this.words = new Array<number>(Math.ceil(slots / BITS)).fill(0);
  }

  add(bit: number): void {
    this.words[Math.floor(bit / BITS)]! |= 1 << (bit % BITS);
  }

  join(other: Reads): void {
    const { words } = this;
    for (let i = 0; i < words.length; i++) words[i]! |= other.words[i]!;
  }

  /** The one word that holds anything; -1 when several do. */
  get only(): number {
    const at = this.words.findIndex((w) => w !== 0);
    return this.words.findLastIndex((w) => w !== 0) === at ? Math.max(0, at) : -1;
  }

  meetsAt(other: Reads, word: number): boolean {
    return (this.words[word]! & other.words[word]!) !== 0;
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

/** The number of each step at each place, and of the rows of each log; the same for every state of a procedure. */
export function slotNumbers(model: Model): ReadonlyMap<string, number> {
  let numbers = numbered.get(model);
  if (!numbers) {
    const made = new Map<string, number>();
    for (const step of model.procedure.steps)
      for (const p of model.places) {
        if (p.kind !== step.at) continue;
        const name = slot(step.id, p.id);
        made.set(name, made.size);
        if (step.repeat) made.set(rowsOf(name), made.size);
      }
    numbered.set(model, made);
    numbers = made;
  }
  return numbers;
}

/** What a journal that grew takes over from before it grew. */
export interface TakenOver {
  /** Slots in which it has grown; none where only time went by. */
  readonly touched: Reads | undefined;
  /** Nobody asks what was before any more: it is taken itself, not a copy. */
  readonly spent: boolean;
}

/** These slots as bits. */
export function readsOf(model: Model, slots: Iterable<string>): Reads {
  const numbers = slotNumbers(model);
  const reads = new Reads(numbers.size);
  for (const s of slots) {
    const n = numbers.get(s);
    if (n !== undefined) reads.add(n);
  }
  return reads;
}

/** What was worked out from nothing that was touched; `kept` itself, with the rest taken out of it, where it is `spent`. */
export function untouched<T>(kept: (Kept<T> | undefined)[], { touched, spent }: TakenOver): (Kept<T> | undefined)[] {
  const left = spent ? kept : kept.slice();
  if (!touched) return left;
  // An answer touches one slot: only its word has to be looked at.
  const at = touched.only;
  for (let i = 0; i < left.length; i++) {
    const k = left[i];
    if (k && (at < 0 ? k.reads.meets(touched) : k.reads.meetsAt(touched, at))) left[i] = undefined;
  }
  return left;
}
