/** Which steps at which places a value was worked out from, so that it can be kept while others change. */
import type { Model } from '../../procedure/model.js';
import { rowsOf, slot } from '../journal/ledger-shape.js';

/** Bits that a word holds: as many as stay a small integer, which costs no memory of its own. */
const BITS = 30;

/** A set of slots as bits. */
export class Reads {
  readonly words: number[];

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

/** Things worked out, by their numbers. */
export class Memo<T> {
  private readonly kept: (Kept<T> | undefined)[] = [];
  /** What each was worked out from, a column for each word of it: an answer touches one slot, and only that column is gone through. */
  private readonly columns: Int32Array[] = [];

  /** With what was worked out before from nothing that was touched; where it is `spent`, `before` itself is used up. */
  constructor(before?: Memo<T>, { touched, spent }: TakenOver = { touched: undefined, spent: false }) {
    if (!before) return;
    this.kept = spent ? before.kept : before.kept.slice();
    this.columns = spent ? before.columns : before.columns.map((column) => column.slice());
    const { kept, columns } = this;
    for (let w = 0; w < columns.length; w++) {
      const word = touched?.words[w] ?? 0;
      if (word === 0) continue;
      const column = columns[w]!;
      for (let i = 0; i < kept.length; i++) if ((column[i]! & word) !== 0) kept[i] = undefined;
    }
  }

  get(number: number): Kept<T> | undefined {
    return this.kept[number];
  }

  set(number: number, kept: Kept<T>): void {
    const { words } = kept.reads;
    for (let w = 0; w < words.length; w++) {
      let column = this.columns[w];
      if (!column || column.length <= number) {
        const longer = new Int32Array(2 * number + 32);
        if (column) longer.set(column);
        column = longer;
        this.columns[w] = column;
      }
      column[number] = words[w]!;
    }
    this.kept[number] = kept;
  }

  drop(number: number): void {
    this.kept[number] = undefined;
  }
}
