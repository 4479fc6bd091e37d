/** The few words that the first screen shows of a job without reading it. */
import { related } from '../../engine/ledger.js';
import type { State } from '../../engine/state.js';
import type { Summary } from '../app-contract.js';
import { placeWords } from './entry-words.js';

/** @param place where one works: the next step there is named first */
export function summaryOf(state: State, place: string): Summary {
  const open = state.available(place);
  const next = open.find((v) => related(v.place, place)) ?? open[0];
  const wait = [...state.waiting].sort((a, b) => (a.wait?.until ?? 0) - (b.wait?.until ?? 0))[0];
  return {
    by: state.ledger.operator,
    finished: state.finished,
    ...(next ? { next: `${placeWords(state, next.place)}: ${next.step.title}` } : {}),
    ...(wait?.wait && Number.isFinite(wait.wait.until)
      ? { waits: wait.wait.label, until: new Date(wait.wait.until).toISOString() }
      : {}),
  };
}
