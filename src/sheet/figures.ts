/** Single values of a job as lines of the sheet. */

import { type Lacks, lacksOf, silenceOf } from '../engine/state/found.js';
import { restsOnShop } from '../engine/state/shop-mark.js';
import type { State } from '../engine/state/state.js';
import { partLabel, whereOf } from '../engine/state/told.js';
import type { Unknown } from '../engine/values/known.js';
import { showKey } from '../engine/values/texts.js';
import type { KeyInfo } from '../procedure/model.js';
import { provenanceOf } from './provenance.js';
import type { Figure, ToldSource } from './sheet-data.js';

export const sameSource = (a: ToldSource, b: ToldSource): boolean => a.tag === b.tag && a.says === b.says;

/** What is lacking for an unknown value, in words; each name once. */
export function lackingWords(state: State, { missing, refusal }: Unknown, place: string): string {
  if (refusal) return `not known: ${refusal}`;
  const names = missing.filter((k) => state.model.keys.has(k)).map((k) => partLabel(state, k, place));
  return names.length ? `not known, needs ${[...new Set(names)].join(', ')}` : 'not known';
}

function unknownText(state: State, info: KeyInfo | undefined, v: Unknown, place: string, lacks: Lacks): string {
  if (lacks !== 'unknown') return lacks;
  // Of a step that was finished without it nobody still waits for its answer.
  if (info?.from.by !== 'question' || !info.from.question.optional) return lackingWords(state, v, place);
  const given = state.view(info.from.step.id, place)?.ledger?.answers.get(info.from.question.key);
  return given ? `left empty by ${given.entry.by}` : '(left empty)';
}

/** Canonical unit; of a plain number the first word that may stand behind it, such as hours. */
function unitOf(info: KeyInfo | undefined): string {
  const question = info?.from.by === 'question' ? info.from.question : undefined;
  return info?.unit || (question?.kind === 'number' ? (question.units?.[0] ?? '') : '');
}

export function figureAt(state: State, key: string, place: string, heading?: string): Figure {
  const info = state.model.keys.get(key);
  const home = (info && state.values.enclosing(info.at, place)) ?? place;
  const v = state.values.get(key, home);
  const base = { ...whereOf(state, home), key, label: heading ?? partLabel(state, key, home), unit: unitOf(info) };
  if (!v.known) {
    const lacks = lacksOf(state, key, home);
    return { ...base, known: false, lacks, value: null, text: unknownText(state, info, v, home, lacks) };
  }
  const silence = silenceOf(state, key, home);
  if (silence === 'does not apply') return { ...base, known: false, lacks: silence, value: null, text: silence };
  // At the end of the work that nothing was reported is a finding.
  if (silence !== undefined && !state.finished)
    return { ...base, known: false, lacks: 'not asked yet', value: null, text: silence };
  return {
    ...base,
    known: true,
    value: v.value,
    ...(v.plusMinus === undefined ? {} : { plusMinus: v.plusMinus }),
    text: showKey(state.values, key, home, true) || '(left empty)',
    provenance: provenanceOf(state, key, v),
    ...(restsOnShop(state, key, home) ? { shop: true as const } : {}),
  };
}

/** A key at every place of its kind that takes part. */
export function figuresOfKey(state: State, key: string): Figure[] {
  return state.values.placesOf(key).map((p) => figureAt(state, key, p));
}

/** Two texts that differ by more than blanks and the case of a letter. */
export const saysMore = (typed: string, text: string): boolean =>
  typed.replace(/[\s\u00a0]+/g, '').toLowerCase() !== text.replace(/[\s\u00a0]+/g, '').toLowerCase();
