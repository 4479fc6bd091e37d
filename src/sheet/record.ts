/** What happened beside the readings: corrections, remedies, events, cautions, waits, notes, predictions. */

import type { Entry } from '../engine/journal/entry.js';
import { related, slot } from '../engine/journal/ledger.js';
import { type Of, raisedAt } from '../engine/journal/ledger-shape.js';
import { entriesOf, State } from '../engine/state/state.js';
import { type OfStep, ofStep, partLabel, textOf, whereOf } from '../engine/state/told.js';
import { cautionWords } from '../engine/steps/cautions.js';
import { lackedOf } from '../engine/steps/look.js';
import { fillIn } from '../engine/values/texts.js';
import { keepsTyped, withReopened } from '../procedure/model.js';
import { stepOfEntry } from './people.js';
import { type How, saidAt } from './said.js';
import type {
  CautionLine,
  Correction,
  EventLine,
  NoteLine,
  PredictionLine,
  RemedyLine,
  SetAside,
  WaitLine,
} from './sheet-data.js';

export function correctionsOf(state: State): Correction[] {
  const bySeq = new Map(state.entries.map((e) => [e.seq, e]));
  return entriesOf(state, 'correct').map((e) => {
    const of = bySeq.get(e.of);
    const old =
      of && (of.kind === 'answer' || of.kind === 'correct')
        ? textOf(state, e.key, of.value, of.plusMinus)
        : 'not known';
    return {
      ...stepOfEntry(state, e),
      at: e.at,
      by: e.by,
      label: partLabel(state, e.key, e.place),
      old,
      now: textOf(state, e.key, e.value, e.plusMinus),
      ...(e.typed && keepsTyped(state.model.keys.get(e.key)) ? { typed: e.typed } : {}),
      reason: e.reason,
    };
  });
}

/** @param led the state by which work is led: what is to be done is said as on the screen, though the job is not at its end */
export function remediesOf(state: State, led = state): RemedyLine[] {
  const open = led.outdated.map((r) => ({
    ...ofStep(state, r.view),
    text: r.text,
    ...(r.nothing === undefined ? {} : { nothing: r.nothing }),
    changed: r.changed.map((c) => ({ label: partLabel(state, c.key, r.view.place), old: c.old, now: c.now })),
  }));
  const settled = entriesOf(state, 'settle').map((e) => ({
    ...stepOfEntry(state, e),
    text: 'Work done under a figure that was corrected since.',
    changed: [],
    settled: { at: e.at, by: e.by, reason: e.reason },
  }));
  return [...open, ...settled];
}

/** Work of the hands that was done although a figure that it rests on had no value. */
export function unfoundedOf(state: State): (OfStep & { readonly lacks: string })[] {
  return state.views.flatMap((view) => {
    const { step, place, ledger, status } = view;
    const lacked = status === 'done' && ledger?.done ? lackedOf(state.values, step, place, ledger.done) : [];
    const lacks = lacked.map((key) => partLabel(state, key, place)).join(', ');
    return lacks ? [{ ...ofStep(state, view), lacks }] : [];
  });
}

interface Raised {
  readonly branch: string;
  readonly place: string;
}

/** The procedure's own words for how it ended, the first that hold. */
function endedWords(state: State, event: Raised, how: How = {}, meanwhile = false): string | undefined {
  for (const line of state.model.procedure.sheet?.front?.ended ?? []) {
    const fits = line.event === event.branch && (!meanwhile || line.meanwhile);
    const told = fits ? saidAt(state, line, event.place, how) : undefined;
    if (told) return told.text;
  }
  return undefined;
}

/** What was said of one that another event set aside, as it stood right before that. */
function endedUntil(state: State, event: Of<'raise'>): string {
  const after = (seq: number): State =>
    new State(state.model, state.entries.slice(0, seq), Date.parse(event.at), state.options);
  const by = entriesOf(state, 'raise').find(
    (e) =>
      e.seq > event.seq && raisedAt(state.model, after(e.seq).ledger.raised, event.branch, event.place).length === 0,
  );
  return by ? endedBefore(state, by, event) : '';
}

/** How an unforeseen event ended: what is still open, the procedure's own words, else the marks of its steps. */
function endingOf(state: State, led: State, event: Of<'raise'>): string {
  const { branches = [] } = state.model.procedure;
  if (raisedAt(state.model, state.ledger.raised, event.branch, event.place).length === 0)
    return [endedUntil(state, event), 'Counts no longer: the work was to be done again after another event']
      .filter(Boolean)
      .join('. ');
  const again = withReopened(state.model.procedure, branches.find((b) => b.id === event.branch)?.reopens ?? []);
  const near = state.views.filter((v) => related(v.place, event.place));
  const own = near.filter((v) => v.step.branch === event.branch);
  const open = [...own, ...near.filter((v) => again.has(v.step.id))].find(
    (v) => v.status !== 'done' && v.status !== 'not-needed',
  );
  if (open)
    return [
      endedWords(state, event, { led, whole: true }, true),
      `NOT SETTLED, still to do: ${fillIn(state.values, open.step.title, open.place)}`,
    ]
      .filter(Boolean)
      .join('. ');
  return (
    endedWords(state, event, { led }) ??
    own.flatMap((v) => (v.step.mark && v.ledger?.done ? [fillIn(state.values, v.step.mark, v.place)] : [])).join('. ')
  );
}

/** What was said of one that came again: as it stood right before the next of its kind was recorded. */
function endedBefore(state: State, next: Entry, event: Raised): string {
  const then = new State(state.model, state.entries.slice(0, next.seq - 1), Date.parse(next.at), state.options);
  return endedWords(then, event) ?? '';
}

export function eventsOf(state: State, led = state): EventLine[] {
  const raised = entriesOf(state, 'raise');
  return raised.map((e) => {
    const branch = state.model.procedure.branches?.find((b) => b.id === e.branch);
    const next = raised.find((r) => r.branch === e.branch && r.place === e.place && r.seq > e.seq);
    const ended = next ? endedBefore(state, next, e) : endingOf(state, led, e);
    return {
      ...whereOf(state, e.place),
      at: e.at,
      by: e.by,
      title: branch?.title ?? e.branch,
      mark: fillIn(state.values, branch?.mark ?? e.branch, e.place),
      ...(e.text ? { text: e.text } : {}),
      ...(ended ? { ended } : {}),
    };
  });
}

function cautionsOfStep(state: State, e: { readonly step: string; readonly place: string }): readonly string[] {
  const step = state.model.steps.get(e.step);
  return step ? cautionWords(state.values, step, e.place) : [];
}

export function cautionsOf(state: State): CautionLine[] {
  const confirmed = entriesOf(state, 'caution').filter((e) => !e.known);
  return confirmed.flatMap((e) =>
    [e.place, ...(e.also ?? [])].map((place) => ({
      ...stepOfEntry(state, { ...e, place }),
      at: e.at,
      by: e.by,
      cautions: cautionsOfStep(state, e).map((c) => fillIn(state.values, c, e.place)),
    })),
  );
}

export function waitsOf(state: State): WaitLine[] {
  return state.views.flatMap((view) => {
    const w = view.wait;
    if (!w) return [];
    const begun = view.ledger?.done?.seq ?? 0;
    const cut = view.overruled.some((o) => o.gate === 'wait' && o.seq > begun);
    return [
      {
        ...ofStep(state, view),
        label: w.label,
        from: new Date(w.from).toISOString(),
        ...(Number.isFinite(w.until)
          ? { until: new Date(w.until).toISOString(), minutes: (w.until - w.from) / 60_000 }
          : {}),
        state: cut ? 'cut short' : w.left > 0 ? 'running' : 'over',
        clockBack: w.clockBack,
      } as const,
    ];
  });
}

export function notesOf(state: State): NoteLine[] {
  return state.ledger.notes.map((n) => ({
    ...whereOf(state, n.kind === 'note' ? n.place : 'job'),
    at: n.at,
    by: n.by,
    kind: n.kind,
    text: n.text,
  }));
}

export function predictionsOf(state: State): PredictionLine[] {
  return entriesOf(state, 'predict').map((e) => {
    const v = state.values.get(e.key, e.place);
    return {
      ...stepOfEntry(state, e),
      at: e.at,
      by: e.by,
      label: partLabel(state, e.key, e.place),
      predicted: e.typed ?? textOf(state, e.key, e.value),
      actual: v.known ? textOf(state, e.key, v.value, v.plusMinus) : 'not known',
    };
  });
}

/** Readings that stand in the journal and do not count, or no longer do. */
export function setAsideOf(state: State): SetAside[] {
  const unfit = new Map(state.ledger.unfit.map((u) => [u.entry.seq, u.why]));
  const current = new Set<number>();
  for (const { answers, rows } of state.ledger.steps.values())
    for (const given of [answers, ...rows]) for (const g of given.values()) current.add(g.first.seq);
  return [...entriesOf(state, 'answer'), ...entriesOf(state, 'correct').filter((e) => unfit.has(e.seq))]
    .sort((a, b) => a.seq - b.seq)
    .flatMap((e) => {
      const why = unfit.get(e.seq);
      if (why === undefined && (!state.model.steps.has(e.step) || current.has(e.seq))) return [];
      const again = (state.ledger.reopened.get(slot(e.step, e.place)) ?? 0) > e.seq;
      const because = again ? 'asked again after an unforeseen event' : 'answered again';
      return [
        {
          ...stepOfEntry(state, e),
          at: e.at,
          by: e.by,
          label: partLabel(state, e.key, e.place),
          text: textOf(state, e.key, e.value, e.plusMinus),
          because: why === undefined ? because : `does not fit its question: ${why}`,
        },
      ];
    });
}
