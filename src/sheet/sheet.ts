/** The job sheet of a state. Pure; it names no step of any procedure and takes its choice of figures from it. */
import { found } from '../engine/state/found.js';
import { entriesOf, namesOf, type State } from '../engine/state/state.js';
import { type StopLine, stopsOf } from '../engine/state/stops.js';
import { whereOf } from '../engine/state/told.js';
import { unfitSentence } from '../engine/state/unfit.js';
import { fillIn } from '../engine/values/texts.js';
import { lifeOf } from '../life/history.js';
import { Derivations } from './derivations.js';
import { figureAt, figuresOfKey } from './figures.js';
import { decisionsOf, findingsOf } from './findings.js';
import { frontOf } from './front.js';
import { isFilledIn, overrulesOf, peopleOf, refusalsOf, signaturesOf } from './people.js';
import { photosOf } from './photos.js';
import {
  cautionsOf,
  correctionsOf,
  eventsOf,
  notesOf,
  predictionsOf,
  remediesOf,
  setAsideOf,
  unfoundedOf,
  waitsOf,
} from './record.js';
import type { DerivationRow, Figure, Head, Sheet } from './sheet-data.js';
import { logsOf, picturesOf, stripOf } from './shown.js';
import { takenBackOf } from './taken-back.js';
import { unusualOf } from './unusual.js';
import { verdictOf } from './verdict.js';

/** Open steps named on an unfinished sheet. */
const OPEN_MOST = 5;

/** What the state does not know of itself. */
export interface MadeWith {
  /** Number of the job where it is kept. */
  readonly number?: string | undefined;
  /** ISO instant at which the sheet is made. */
  readonly issued?: string | undefined;
  /** Check number over all entries, as the job's file has it. */
  readonly check?: string | undefined;
  /** The small picture of a kept one as a data URI. */
  readonly picture?: (file: string) => string | undefined;
  /** Stops that were met, where whoever did the job has noted them; else they are looked for in its journal. */
  readonly stops?: readonly StopLine[];
}

function headOf(state: State, { number, issued, check }: MadeWith): Head {
  const { procedure, hash } = state.model;
  const job = state.ledger.job;
  const { done, total } = state.progress;
  const first = state.entries[0];
  const last = state.entries.at(-1);
  const unfit = unfitSentence(state);
  const begun = job?.practice === undefined ? undefined : procedure.phases.find((p) => p.id === job.from);
  const names = namesOf(state);
  return {
    ...(number === undefined ? {} : { number }),
    ...(issued === undefined ? {} : { issued }),
    job: job?.name ?? '(no name)',
    procedure: job?.procedure ?? procedure.procedure,
    procedureTitle: procedure.title,
    version: procedure.version,
    hash,
    ...(check === undefined ? {} : { check }),
    ...(begun ? { begunAt: begun.title } : {}),
    ...(state.model.shop ? { shop: true as const } : {}),
    versions: [
      ...(job && (job.version !== procedure.version || job.hash !== hash)
        ? [{ at: job.at, by: job.by, version: job.version, hash: job.hash }]
        : []),
      ...entriesOf(state, 'procedure').map((e) => ({ at: e.at, by: e.by, version: e.version, hash: e.hash })),
    ],
    ...(job?.practice ? { practice: job.practice } : {}),
    ...(job?.earlier ? { earlier: job.earlier } : {}),
    ...(first ? { started: first.at } : {}),
    ...(last ? { lastEntry: last.at } : {}),
    people: peopleOf(state),
    ...(names.has('customer') ? { customer: names.get('customer') ?? '' } : {}),
    ...(names.has('issuer') ? { issuer: names.get('issuer') ?? '' } : {}),
    ...(unfit ? { unfit } : {}),
    finished: state.finished,
    done,
    total,
    open: state
      .available()
      .slice(0, OPEN_MOST)
      .map((v) => {
        const where = whereOf(state, v.place).where;
        return `${fillIn(state.values, v.step.title, v.place)}${where ? ` (${where})` : ''}`;
      }),
  };
}

/** Places of a key at which a condition of its place holds, or cannot be told yet; of the whole job it is not asked in a group. */
const toldPlaces = (state: State, key: string, when: string | undefined, group?: 'group'): readonly string[] =>
  state.values
    .placesOf(key)
    .filter((p) => when === undefined || (group && p === 'job') || state.values.holds(when, p) !== false);

function derivationsOf(state: State, whole: State): readonly DerivationRow[] {
  const all = new Derivations(state);
  const { figures = [], groups = [] } = state.model.procedure.sheet ?? {};
  // Figures that decide first; then every other number on the sheet that was worked out.
  for (const { key, when } of figures) for (const place of toldPlaces(whole, key, when)) all.add(key, place);
  for (const { keys, when } of groups)
    for (const key of keys)
      for (const place of toldPlaces(whole, key, when, 'group')) {
        const value = state.values.get(key, place);
        if (value.known && typeof value.value === 'number') all.add(key, place);
      }
  return all.list;
}

/** False for a rule that does not apply here, such as a time that nobody took: it is not told as lacking. */
function applies(state: State, { key, place, known }: Figure): boolean {
  const from = state.model.keys.get(key)?.from;
  const when = from?.by === 'fact' && 'when' in from.fact ? from.fact.when : undefined;
  return known || when === undefined || state.values.holds(when, place) !== false;
}

/** What follows from the job as a whole is not settled before its end, such as what is left to do. */
function settledFigure(state: State, figure: Figure): Figure {
  const by = state.model.keys.get(figure.key)?.from.by;
  if (state.finished || by === 'question' || by === 'rows') return figure;
  const { key, label, unit, place, where } = figure;
  const text = 'Not settled: the job is not finished';
  return { key, label, unit, place, where, known: false, lacks: 'not asked yet', value: null, text };
}

export function sheetOf(whole: State, made: MadeWith = {}): Sheet {
  const state = found(whole);
  const spec = state.model.procedure.sheet;
  const notice = state.model.procedure.notice;
  const strip = stripOf(state);
  const head = headOf(state, made);
  const signatures = signaturesOf(state);
  const refusals = refusalsOf(state);
  const corrections = correctionsOf(state);
  const events = eventsOf(state, whole);
  const clockJumps = state.ledger.clockJumps.map((j) => ({ before: j.before.at, after: j.after.at }));
  const stops = (made.stops ?? stopsOf(whole)).filter((s) => !s.ended || !isFilledIn(state, s.ended));
  const overruled = overrulesOf(state, stops);
  const decisions = decisionsOf(state, overruled);
  const remedies = remediesOf(state, whole);
  const { clockGains } = state.ledger;
  const journal = { head, stops, overruled, signatures, refusals, decisions, remedies, events, corrections };
  const told = { ...journal, unfounded: unfoundedOf(state), clockJumps, clockGains };
  const front = frontOf(state, whole, unusualOf(told));
  let derivations: readonly DerivationRow[] | undefined;
  let findings: Sheet['findings'] | undefined;
  return {
    sheet: 2,
    head,
    verdict: verdictOf(
      { head, decisions, overruled, remedies, stopped: stops, barred: front.barred, says: front.verdict },
      spec?.decisions?.at(-1),
    ),
    front,
    ...(notice ? { notice } : {}),
    stops,
    headline: [
      ...(spec?.headline ?? []).flatMap((key) => figuresOfKey(state, key)),
      ...(spec?.figures ?? []).flatMap((f) =>
        toldPlaces(whole, f.key, f.when).map((p) => figureAt(state, f.key, p, f.heading)),
      ),
    ].filter((f) => applies(state, f)),
    next: (spec?.next ?? []).flatMap((key) => figuresOfKey(state, key)).map((f) => settledFigure(state, f)),
    groups: (spec?.groups ?? []).map((g) => ({
      title: g.title,
      ...(g.appendix ? { appendix: true as const } : {}),
      figures: g.keys.flatMap((key) => toldPlaces(whole, key, g.when, 'group').map((p) => figureAt(state, key, p))),
    })),
    decisions,
    overruled,
    signatures,
    refusals,
    remedies,
    corrections,
    events,
    // Only the whole record tells these two, and nothing else of a sheet takes as long.
    get findings() {
      findings ??= findingsOf(state);
      return findings;
    },
    get derivations() {
      derivations ??= derivationsOf(state, whole);
      return derivations;
    },
    ...(strip ? { strip } : {}),
    life: state.ledger.job?.life?.length ? lifeOf(state, made.number) : [],
    logs: logsOf(state),
    pictures: picturesOf(state),
    photos: photosOf(state, made.picture),
    cautions: cautionsOf(state),
    waits: waitsOf(state),
    notes: notesOf(state),
    predictions: predictionsOf(state),
    setAside: setAsideOf(state),
    clockJumps,
    undone: state.entries.filter((e) => e.kind !== 'undo' && state.takenBack(e)).length,
    takenBack: takenBackOf(state),
    entries: state.entries.length,
  };
}
