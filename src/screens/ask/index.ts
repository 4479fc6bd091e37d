/** The way in which a question is asked to what asks it. */
import type { Asked } from '../../procedure/questions/base.js';
import { kindOf, ownUnitOf, type Question, quantityOf } from '../../procedure/questions/index.js';
import type { Control, Controls } from '../../procedure/questions/kind.js';
import type { Asker } from './asker.js';
import { askChoice } from './choice.js';
import { askChoiceFromTable } from './choice-from-table.js';
import { askCounter } from './counter.js';
import { askDimensions } from './dimensions.js';
import { leftOut } from './edit-line.js';
import { askNumber } from './number.js';
import { askQuantity } from './quantity.js';
import { askSeries } from './series.js';
import { askText } from './text.js';
import { askYesNo } from './yes-no.js';

const askers: { readonly [C in Control]: Asker<Controls[C]> } = {
  pick: askChoice,
  row: askChoiceFromTable,
  yesNo: askYesNo,
  measure: askQuantity,
  lengths: askDimensions,
  figures: askNumber,
  words: askText,
  series: askSeries,
  count: askCounter,
};

/** A kind names only a control that its questions can feed: the compiler sees to that where the kind is written. */
export function askerFor(question: Question): Asker {
  const asker = askers[kindOf(question).control] as Asker<Asked>;
  return {
    ...asker,
    press(input, key, context) {
      const pressed = asker.press(input, key, context);
      return (pressed && leftOut(input, pressed.input, key)) ?? pressed;
    },
  };
}

/** The question as its control wants it: with the quantity and the unit that its kind says. */
export function asAsked(q: Question): Asked {
  const [quantity, unit] = [quantityOf(q), ownUnitOf(q)];
  const measured = quantity && unit !== undefined ? { quantity, unit } : {};
  return { ...q, ...measured };
}

/** What is typed into its field: figures, which a unit may follow, or any letters; none where it is picked or counted. */
const typed: Readonly<Record<Control, 'figures' | 'letters' | 'none'>> = {
  pick: 'none',
  row: 'figures',
  yesNo: 'none',
  measure: 'figures',
  lengths: 'figures',
  figures: 'figures',
  words: 'letters',
  series: 'none',
  count: 'none',
};
/** True when digits are typed into a field. */
export const takesDigits = (q: Question): boolean => typed[kindOf(q).control] === 'figures';
/** True when it is typed into a field. */
export const isTyped = (q: Question): boolean => typed[kindOf(q).control] !== 'none';
