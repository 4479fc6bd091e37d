/** What the journal shows that a usual job has not: told at the top of the sheet, not at its end. Pure. */
import type { StopLine, StopResult } from '../engine/state/stops.js';
import { type AtPlace, lasting, type OfStep } from '../engine/state/told.js';
import type {
  Correction,
  DecisionMade,
  EventLine,
  Head,
  Overrule,
  RefusedSignature,
  RemedyLine,
  Said,
  Signature,
} from './sheet-data.js';
import { isToDo } from './verdict.js';
import { atPlace, count, eventText, inShort, overruleNow, withoutLists } from './words.js';

interface Of {
  readonly head: Head;
  readonly stops: readonly StopLine[];
  readonly overruled: readonly Overrule[];
  readonly signatures: readonly Signature[];
  readonly refusals: readonly RefusedSignature[];
  readonly decisions: readonly DecisionMade[];
  readonly remedies: readonly RemedyLine[];
  readonly events: readonly EventLine[];
  readonly corrections: readonly Correction[];
  /** Work of the hands that was done without a figure that it rests on. */
  readonly unfounded: readonly (OfStep & { readonly lacks: string })[];
  readonly clockJumps: readonly { readonly before: string; readonly after: string }[];
  /** By how many ms the clock was set, where that is known. */
  readonly clockGains: readonly { readonly gained: number }[];
}

const line = (x: AtPlace, text: string): Said => ({ place: x.place, where: x.where, text, keys: [] });
const whole: AtPlace = { place: 'job', where: '' };

/** By less than this, in seconds, a clock is only put right. */
const SLACK = 60;
const backBy = (j: Of['clockJumps'][number]): number => Math.round((Date.parse(j.before) - Date.parse(j.after)) / 1000);

/** Those of one kind at one place together: how often, how each ended, what was noted. */
function eventLines(events: readonly EventLine[]): Said[] {
  const same = (a: EventLine, b: EventLine): boolean => a.title === b.title && a.place === b.place;
  return events.flatMap((e) => {
    const all = events.filter((o) => same(o, e));
    if (all.at(-1) !== e) return [];
    const noted = all.flatMap((o) => o.text ?? []).join('; ');
    const how = all.flatMap((o) => o.ended ?? []);
    const ended = [...new Set(how)]
      .map((h) => [h, how.filter((o) => o === h).length] as const)
      .map(([h, times]) => (times > 1 ? `${h}, ${times} times` : h))
      .join('; ');
    const text = eventText({ ...e, ...(ended ? { ended } : {}), ...(noted ? { text: noted } : {}) });
    return [line(e, `Unforeseen${all.length > 1 ? `, ${all.length} times` : ''}: ${text}.`)];
  });
}

/** Which they are, each once with the places at which it was. */
function checksOf(signatures: readonly Signature[]): string {
  return [...new Set(signatures.map((s) => s.title))]
    .map((title) => {
      const where = signatures.flatMap((s) => (s.title === title && s.where ? [s.where] : []));
      return where.length ? `${title} (${where.join(', ')})` : title;
    })
    .join('; ');
}

/** Corrections that are named on page 1. */
const NAMED_MOST = 3;
function correctedOf(all: readonly Correction[]): string {
  const named = all.slice(0, NAMED_MOST).map((c) => `${atPlace(c.label, c.where)}, ${c.old} → ${c.now} (${c.reason})`);
  return [...named, ...(all.length > NAMED_MOST ? [`${all.length - NAMED_MOST} more`] : [])].join('; ');
}

export function unusualOf(of: Of): Said[] {
  const { head, stops, overruled, signatures, refusals, decisions, remedies, events, corrections } = of;
  const alone = signatures.filter((s) => s.stands && s.role === 'self-checked' && !s.invalid);
  const blind = signatures.filter((s) => s.stands && s.noOwn && !s.invalid);
  const by = (...results: readonly StopResult[]): readonly StopLine[] =>
    stops.filter((s) => s.ended && results.includes(s.ended.result));
  const put = by('put right');
  const led = by('unforeseen');
  const confirmed = by('confirmed');
  return [
    ...(head.begunAt === undefined
      ? []
      : [line(whole, `What comes before “${head.begunAt}” was filled in by the guide: nobody did it.`)]),
    ...stops.filter((s) => !s.ended).map((s) => line(s, `STILL STOPS THE WORK: ${s.title}. ${withoutLists(s.says)}`)),
    ...(put.length
      ? [
          line(
            whole,
            `${count(put.length, 'check', 'checks')} stopped the work and ${put.length === 1 ? 'was' : 'were'} put right; see “Stops met”.`,
          ),
        ]
      : []),
    ...by('answered after a correction').map((s) => line(s, `Asked anew: ${s.title}, ${s.ended!.how}.`)),
    ...(confirmed.length
      ? [
          line(
            whole,
            `Stopped, then confirmed as the stop asks: ${confirmed.map((s) => `${atPlace(s.title, s.where)}, ${s.ended!.how}`).join('; ')}.`,
          ),
        ]
      : []),
    ...(led.length
      ? [
          line(
            whole,
            `${count(led.length, 'check', 'checks')} stopped the work, and something unforeseen was recorded; see “Stops met”.`,
          ),
        ]
      : []),
    ...by('taken back', 'asked no more').map((s) =>
      line(
        s,
        `NOT PUT RIGHT, ${s.ended!.result === 'taken back' ? s.ended!.how : `asked no more (${s.ended!.how})`}: ${s.title}. It had stopped the work: ${inShort(s.says)}`,
      ),
    ),
    ...by('answer changed').map((s) =>
      line(s, `ANOTHER ANSWER ended a stop, ${s.ended!.how}: ${s.title}. It had stopped the work: ${inShort(s.says)}`),
    ),
    ...overruled.map((o) =>
      line(
        o,
        `OVERRULED by ${o.initials}: ${o.title}. ${inShort(o.says)}${o.reading ? ` Read then: ${o.reading}.` : ''} Reason given: ${o.reason} (${overruleNow(o)}).`,
      ),
    ),
    ...of.unfounded.map((w) => line(w, `DONE WITHOUT ITS FIGURE: ${w.title}. Not known then: ${w.lacks}.`)),
    ...remedies.filter(isToDo).map((r) => line(r, `STILL TO BE PUT RIGHT: ${r.title}. ${r.text}`)),
    ...decisions.filter((d) => d.reopened).map((d) => line(d, `TO BE DECIDED AGAIN: ${d.title}. Its figures changed.`)),
    ...signatures
      .filter((s) => s.invalid)
      .map((s) => line(s, `NO WITNESS: ${s.title} was signed by ${s.initials}, who had done the work.`)),
    ...signatures
      .filter((s) => s.insteadOf && s.stands)
      .map((s) => line(s, `ANOTHER MENTOR: ${s.title} was signed by ${s.initials} instead of ${s.insteadOf}.`)),
    ...signatures
      .filter((s) => s.apart && s.stands)
      .map((s) => line(s, `SIGNED AGAINST THE OWN FIGURE of ${s.initials}: ${s.title}. ${s.apart}`)),
    ...refusals.map((r) => line(r, `A SIGNATURE WAS REFUSED by ${r.initials}: ${r.title}. ${r.reason}`)),
    ...(alone.length
      ? [line(whole, `NO WITNESS: ${count(alone.length, 'check was', 'checks were')} signed by the technician alone.`)]
      : []),
    ...(blind.length
      ? [
          line(
            whole,
            `NO OWN FINDING: ${count(blind.length, 'check was', 'checks were')} signed by the mentor without one: ${checksOf(blind)}.`,
          ),
        ]
      : []),
    ...eventLines(events),
    ...remedies.filter((r) => r.settled).map((r) => line(r, `Put right afterwards: ${atPlace(r.title, '')}.`)),
    ...(corrections.length
      ? [
          line(
            whole,
            `${count(corrections.length, 'reading was', 'readings were')} corrected afterwards: ${correctedOf(corrections)}; see “Corrections”.`,
          ),
        ]
      : []),
    ...(head.versions.length ? [line(whole, 'The job went through more than one version of the procedure.')] : []),
    ...of.clockJumps
      .map(backBy)
      .filter((s) => s > SLACK)
      .map((s) =>
        line(
          whole,
          `The clock of the computer was set back by ${lasting(s)} during the job. Entries stand in the order in which they were made; times before and after it do not compare.`,
        ),
      ),
    ...of.clockGains
      .map((g) => Math.round(g.gained / 1000))
      .filter((s) => s > SLACK)
      .map((s) =>
        line(
          whole,
          `The clock of the computer was set forward by ${lasting(s)} during the job. Waits went by the time that passed; times before and after it do not compare.`,
        ),
      ),
    ...(head.unfit ? [line(whole, head.unfit)] : []),
  ];
}
