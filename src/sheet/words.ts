/** Sentences and headings that the Markdown and the HTML sheet share, so that they never differ. */

import { sameInitials } from '../engine/journal/initials.js';
import type { StopLine } from '../engine/state/stops.js';
import { lasting } from '../engine/state/told.js';
import { sentencesOf } from '../procedure/sentences.js';
import type {
  AnswerLine,
  CautionLine,
  EventLine,
  Figure,
  Head,
  Overrule,
  Said,
  Sheet,
  Signature,
  StepLine,
  WaitLine,
} from './sheet-data.js';
import { withTimes } from './when.js';

export type Show = (iso: string) => string;
export const dayOf = (show: Show, at: string): string => show(at).split(',')[0] ?? at;
export const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

export const headings = {
  job: 'This job',
  stops: 'Stops met',
  unusual: 'Out of the ordinary',
  headline: 'At a glance',
  figures: 'Figures of the work',
  watch: 'Watch and listen for',
  instruments: 'Instruments',
  ink: 'Signed in ink',
  inkVouches: 'Initials of a witness were typed in the sitting of the one who worked. The ink here vouches for them.',
  next: 'Next look',
  remedies: 'Work to look at again',
  decisions: 'Decisions and signatures',
  curve: 'Run-in',
  life: 'This rotor over the years',
  typedBy: 'Typed by: in whose session the initials were typed, and how long after the entry before them.',
  photos: 'Pictures',
  restsOn: 'What the decisions rest on',
  vouched: 'What the signatures say',
  overruled: 'Overruled stops',
  corrections: 'Corrections',
  events: 'Unforeseen',
  findings: 'What was found and done',
  derivations: 'How the figures were worked out',
  logs: 'Logs',
  pictures: 'Drawings',
  cautions: 'Cautions acknowledged',
  waits: 'Waiting times',
  notes: 'Notes and handovers',
  predictions: 'Predicted before shown',
  setAside: 'Readings that no longer count',
  takenBack: 'Taken back',
  record: 'About this record',
} as const;

/** Big words over a sheet that is no record of real work. */
export const practiceWords = (head: Head): { big: string; small: string } | undefined =>
  head.practice === undefined
    ? undefined
    : {
        big: 'PRACTICE',
        small: `Not a record of real work: ${head.practice}. Nothing here may be used on a machine.`,
      };

/** More than this in brackets is a list: it stands under “Stops met”. */
const ASIDE = /\s?\((?:[^()]|\([^()]*\)){60,}\)/g;
export const withoutLists = (says: string): string => says.replace(ASIDE, '');

/** A first sentence of fewer letters says too little by itself. */
const LITTLE = 25;
/** What a stop said, in short: the whole of it stands under “Stops met”. */
export function inShort(says: string): string {
  const [first = '', second] = sentencesOf(withoutLists(says)).map((s) => s.text);
  return second && first.length < LITTLE ? `${first} ${second}` : first;
}

export const placeName = (where: string): string => (where === '' ? 'Whole job' : where);
export const whoWhen = (x: { at: string; by: string }, show: Show): string => `${x.by}, ${show(x.at)}`;
/** A line with the name of its place. */
export const saidThere = (s: Said): string => (s.where ? `${s.where}: ${s.text}` : s.text);
export const atPlace = (title: string, where: string): string => (where ? `${title}, ${where}` : title);

export function answerText(a: AnswerLine): string {
  const typed = a.typed ? ` (typed “${a.typed}”)` : '';
  const from = a.from ? `, confirmed as in the job “${a.from.name}” of ${a.from.at.slice(0, 10)}` : '';
  return `${a.text}${typed}${from}${a.corrected ? ', corrected' : ''}`;
}

export const statusWords: Readonly<Record<StepLine['status'], string>> = {
  done: '',
  waiting: 'still waiting',
  unfinished: 'not finished',
  reopened: 'to be decided again: its figures changed',
  stopped: 'stopped by a check',
};

/** When a stop was met and what ended it. */
export const stopEnd = (s: StopLine, show: Show): string =>
  s.ended ? `${withTimes(s.ended.how, show)} (${whoWhen(s.ended, show)})` : 'STILL STOPS THE WORK';

/** The words that tell the two kinds of signature apart at one look. */
export function roleWords(s: Signature): string {
  if (s.role !== 'witnessed') return `self-checked by ${s.initials}, no witness`;
  if (s.invalid) return `signed by ${s.initials}, NO WITNESS`;
  return `WITNESSED by ${s.initials}${s.insteadOf ? `, ANOTHER MENTOR than ${s.insteadOf}` : ''}`;
}

/** Whose hands typed a signature and how soon; nothing where everybody typed their own. */
export function handsWords(s: Signature): string {
  const own = s.own
    ? `own finding: ${s.own}${s.apart ? `. ${s.apart.replace(/\.$/, '')}` : ''}`
    : s.noOwn
      ? 'no own finding'
      : '';
  if (sameInitials(s.hands, s.initials)) return own;
  const soon = s.after === undefined ? '' : `, ${lasting(s.after)} later`;
  return [own, `typed by ${s.hands}${soon}`].filter(Boolean).join('; ');
}

export function standsWords(s: Signature): string {
  if (s.invalid) return 'does not count: who did the work can’t witness it, and a mentor was to sign';
  return s.stands ? '' : 'no longer stands: something under it changed';
}

export const overruleNow = (o: Overrule): string =>
  ({
    'in force': o.gate === 'wait' ? 'the time was not made up' : 'not put right since',
    lapsed: o.next ? `no longer counts, next reading: ${o.next}` : 'no longer counts: readings were changed since',
    'not needed': 'no longer needed: the check is satisfied now',
  })[o.now];

/** What happened and how it ended; what the ending says too is not said twice. */
export function eventText({ mark, ended, text }: EventLine): string {
  const all = ended === undefined ? mark : ended.startsWith(mark) ? ended : `${mark}. ${ended}`;
  return text ? `${all} (noted: “${text}”)` : all;
}

export function waitText(w: WaitLine): string {
  const state = {
    over: 'kept',
    running: 'still running when this sheet was made',
    'cut short': 'CUT SHORT, see overruled stops',
  }[w.state];
  return w.clockBack ? `${state}; the clock of the computer was set back meanwhile` : state;
}

const shopWords = 'the shop’s own';

/** The procedure with its id and version; a shop's own is never taken for one that comes with the program. */
export const procedureText = (head: Head): string =>
  `${head.procedureTitle} (${head.procedure} ${head.version})${head.shop ? `, ${shopWords}` : ''}`;

/** A figure as it is told; one that rests on a row of the shop's own tables says so. */
export const figureText = (f: Figure): string => (f.shop ? `${f.text} (rests on ${shopWords} row)` : f.text);

export function undoneText(sheet: Sheet): string {
  const n = sheet.undone;
  if (n === 0) return 'No entry was taken back.';
  return `${n} ${n === 1 ? 'entry was' : 'entries were'} taken back by undo and ${n === 1 ? 'counts' : 'count'} for nothing; “${headings.takenBack}” lists ${n === 1 ? 'it' : 'them'}.`;
}

/** How many entries, and how paper and file are shown to belong together. */
export function recordText({ head, entries }: Sheet): string {
  const held = `This record holds ${entries} entries`;
  return head.check === undefined
    ? `${held}.`
    : `${held}, check number ${head.check}. rotorside sheet ${head.number ?? 'JOB'} works it out anew.`;
}

export const peopleText = (head: Head, which: (p: Head['people'][number]) => boolean = () => true): string =>
  head.people
    .filter(which)
    .map((p) => `${p.name ? `${p.name}, ` : ''}${p.initials} (${p.role})`)
    .join(', ');

/** The same caution at several places told once. */
export function cautionsByStep(cautions: readonly CautionLine[]): CautionLine[][] {
  const by = new Map<string, CautionLine[]>();
  for (const c of cautions) {
    const key = `${c.step}\n${c.cautions.join('\n')}`;
    by.set(key, [...(by.get(key) ?? []), c]);
  }
  return [...by.values()];
}
