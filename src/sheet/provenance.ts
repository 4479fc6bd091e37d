/** Where a figure comes from, in short: for software that reads the sheet. The long way is told by the derivations. */

import type { State } from '../engine/state/state.js';
import type { Known } from '../engine/values/known.js';
import type { Provenance } from './sheet-data.js';

/** @param key whose value it is, at a place where it is known */
export function provenanceOf(state: State, key: string, value: Known): Provenance {
  const { origin } = value;
  const info = state.model.keys.get(key);
  switch (origin.from) {
    case 'answer': {
      const { entry } = origin;
      const step = info?.from.by === 'question' ? info.from.step.id : undefined;
      return {
        by: entry.kind === 'correct' ? 'correction' : 'reading',
        ...(step === undefined ? {} : { step }),
        ...{ at: entry.at, initials: entry.by, entry: entry.seq },
        ...(origin.typed === undefined ? {} : { typed: origin.typed }),
      };
    }
    case 'calc':
      return { by: 'calculation', calculation: origin.calc, result: origin.result };
    case 'fact':
      return { by: 'rule', from: origin.inputs };
    case 'rows':
      return { by: 'log' };
    case 'event':
      return { by: 'event' };
    case 'earlier':
      return { by: 'earlier-job' };
    default:
      return { by: 'assumed' };
  }
}
