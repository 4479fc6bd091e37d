/** What can be expected of a figure that is a word: picked from a list, so that nothing hangs on how it is worded. Pure. */
import { wordsOf } from '../../procedure/domain.js';
import type { Model } from '../../procedure/model.js';
import { optionsOf } from '../../procedure/questions/index.js';
import type { Option } from '../../procedure/questions/kind.js';

/** Recorded when somebody expects nothing; it is not judged. */
export const noneGiven = 'none given';

const shown = (word: string): string => {
  const text = word.replaceAll(/[-_]/g, ' ');
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
};

/** Every word that this key can be, the last one for no idea; empty for numbers and for what is not limited. */
export function predictionOptions(model: Model, key: string): readonly Option[] {
  const info = model.keys.get(key);
  const options = ((): readonly Option[] => {
    if (!info) return [];
    if (info.type === 'bool') return optionsOf({ kind: 'yes-no', key, label: info.label }, model.tables);
    if (info.type !== 'string') return [];
    if (info.from.by === 'question') return optionsOf(info.from.question, model.tables);
    const words = wordsOf(key, model.keys, model.tables, (text) => model.environment.parse(text).ast) ?? [];
    return [...new Set(words)].filter(Boolean).map((value) => ({ value, label: shown(value) }));
  })();
  return options.length ? [...options, { value: noneGiven, label: 'No idea' }] : [];
}
