/** The way in which a question is asked to what asks it. */
// @ts-nocheck

import type { Asked } from '../../procedure/questions/base.js';
import { kindOf, type Question } from '../../procedure/questions/index.js';
import type { Control, Controls } from '../../procedure/questions/kind.js';
import type { Asker } from './asker.js';
import { choice } from './choice.js';
import { choiceFromTable } from './choice-from-table.js';
import { counter } from './counter.js';
import { dimensions } from './dimensions.js';
import { number } from './number.js';
import { quantity } from './quantity.js';
import { series } from './series.js';
import { text } from './text.js';
import { yesNo } from './yes-no.js';

const askers: { readonly [C in Control]: Asker<Controls[C]> } = {
  pick: choice,
  row: choiceFromTable,
  yesNo,
  measure: quantity,
  lengths: dimensions,
  figures: number,
  words: text,
  series,
  count: counter,
};

/** A kind names only a control that its questions can feed: the compiler sees to that where the kind is written. */
export const askerFor = (question: Question): Asker => askers[kindOf(question).control] as Asker<Asked>;

const measured: ReadonlySet<Control> = new Set(['measure', 'figures', 'lengths', 'row']);
/** True when digits are typed into a field. */
export const isMeasured = (q: Question): boolean => measured.has(kindOf(q).control);
/** True when it is typed into a field. */
export const isTyped = (q: Question): boolean => isMeasured(q) || kindOf(q).control === 'words';
