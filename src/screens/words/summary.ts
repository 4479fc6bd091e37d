/** The few words that the first screen shows of a job without reading it. */
import { related } from '../../engine/journal/ledger.js';
import { State } from '../../engine/state/state.js';
import type { StepView } from '../../engine/steps/step-view.js';
import { type LifeMark, lifeMarkOf } from '../../life/life-mark.js';
import type { JobSummary } from '../app-contract.js';
import { placeWords } from './entry-words.js';

/** What the list of what is due reads, without opening the job. */
function lifeWords(mark: LifeMark | undefined): JobSummary {
  if (!mark) return {};
  const { rotor, machine, did, hours, due } = mark;
  return {
    rotor,
    machine,
    did,
    ...(hours === undefined ? {} : { hours }),
    ...(due === undefined ? {} : { due }),
  };
}

const waitingAt = (state: State, { place, wait }: StepView): string =>
  `${wait?.label ?? ''}${place === 'job' ? '' : ` (${placeWords(state, place)})`}`;

/** @param place where one works: the next step there is named first */
export function summaryOf(state: State, place: string): JobSummary {
  const first = (s: State): string => {
    const all = s.available(place);
    const v = all.find((o) => related(o.place, place)) ?? all[0];
    return v ? `${placeWords(s, v.place)}: ${v.step.title}` : '';
  };
  const wait = [...state.waiting].sort((a, b) => (a.wait?.until ?? 0) - (b.wait?.until ?? 0))[0];
  const next = first(state);
  /** What is next once that wait is over, since nobody opens the job to look. */
  const after = (until: number): string =>
    first(new State(state.model, state.entries, until, { ...state.options, before: state }));
  return {
    by: state.ledger.operator,
    finished: state.finished,
    ...lifeWords(lifeMarkOf(state)),
    ...(next ? { next } : {}),
    ...(wait?.wait && Number.isFinite(wait.wait.until)
      ? { waits: waitingAt(state, wait), until: new Date(wait.wait.until).toISOString(), after: after(wait.wait.until) }
      : {}),
  };
}
