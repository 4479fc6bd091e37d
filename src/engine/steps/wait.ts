/** How long a step still has to be waited for, by a clock that may have been set meanwhile. */
import type { Step } from '../../procedure/schema.js';
import type { Entry } from '../journal/entry.js';
import { related, type StepLedger } from '../journal/ledger.js';
import type { Values } from '../values/values.js';
import type { Wait } from './step-view.js';

/** So many ms the clock went on by more than the time between an entry and a later one, or now. */
const gainedSince = (values: Values, from: number, to = Number.POSITIVE_INFINITY): number =>
  values.ledger.clockGains.reduce((sum, { seq, gained }) => sum + (seq > from && seq <= to ? gained : 0), 0);

/** An entry since which a wait may be counted, and the stamp before which the clock ran as it did then. */
interface Anchor {
  readonly entry: Entry;
  readonly before: number;
}

/** Whether a later step of this place was worked on once the wait was over, by the clock as it ran after one of these. */
function wentOn(values: Values, step: Step, place: string, anchors: readonly Anchor[], span: number): boolean {
  const { order } = values.model;
  const own = order.get(step.id) ?? -1;
  for (const [name, { last }] of values.ledger.steps) {
    if (!last) continue;
    const at = Date.parse(last.at);
    const over = ({ entry, before }: Anchor): boolean =>
      last.seq > entry.seq &&
      at >= Date.parse(entry.at) + span + gainedSince(values, entry.seq, last.seq) &&
      at < before;
    if (!anchors.some(over)) continue;
    const [id = '', where = ''] = name.split('@');
    if (related(where, place) && (order.get(id) ?? -1) > own) return true;
  }
  return false;
}

export function waitOf(values: Values, now: number, step: Step, place: string, ledger: StepLedger): Wait | undefined {
  if (!step.wait || !ledger.last) return undefined;
  const minutes = values.evaluate(step.wait.minutes, place);
  // A time that is not known yet is no time that is over: it holds until it is known or somebody answers for it.
  const time = minutes.known ? minutes.value : undefined;
  const span = typeof time === 'number' && Number.isFinite(time) ? time * 60_000 : Number.POSITIVE_INFINITY;
  if (span <= 0) return undefined;
  const answers = [...ledger.answers.values()].map((g) => g.first);
  const begun =
    ledger.done ?? answers.reduce<Entry | undefined>((a, b) => (a && a.seq > b.seq ? a : b), undefined) ?? ledger.last;
  // Where the clock was set back since, the wait counts anew by the clock as it now runs. Once it reads later than before
  // it may have been put right meanwhile: what passed is then no more than since the latest of these.
  // By how much it was, is sometimes known: then nothing is lost.
  const known = new Set(values.ledger.clockGains.map((g) => g.seq));
  const jumps = values.ledger.clockJumps.filter((j) => j.after.seq > begun.seq && !known.has(j.after.seq));
  const anchors = [
    { entry: begun, before: Number.POSITIVE_INFINITY },
    ...jumps.map((j) => ({ entry: j.after, before: Date.parse(begun.at) })),
  ];
  /** When it was by the clock as it runs now. */
  const instant = ({ at, seq }: Entry): number => Date.parse(at) + gainedSince(values, seq);
  const counts = anchors
    .filter((a) => !(instant(a.entry) > now))
    .reduce<Anchor | undefined>((a, b) => (a && instant(a.entry) > instant(b.entry) ? a : b), undefined);
  const since = counts?.entry ?? begun;
  const from = instant(since);
  // What was gone on with once the wait was over, by the clock of that time, is not waited for again.
  const gone = now < from + span && wentOn(values, step, place, anchors, span);
  const clockBack = !counts && !gone;
  const skipped = ledger.overrules.findLast((o) => o.gate === 'wait' && o.seq > begun.seq);
  // A time that can't be read counts as just now.
  const left = skipped || gone ? 0 : clockBack || Number.isNaN(from) ? span : Math.max(0, from + span - now);
  return {
    label: step.wait.label,
    since: since.seq,
    from,
    until: from + span,
    left,
    clockBack,
    ...(skipped ? { skipped } : {}),
  };
}
