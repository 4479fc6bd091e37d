/** A debrief as plain text, for printing and for a page that is read. Pure. */

import { FILLED_BY } from '../engine/journal/initials.js';
import { showDuration } from '../units/show.js';
import type { Debrief, DebriefTrap } from './debrief.js';
import type { Effect } from './effects.js';
import type { JudgedPrediction } from './predictions.js';
import { skillName } from './progress-table.js';

export interface DebriefLine {
  readonly text: string;
  /** head: a heading with a line of air above it; more: belongs to the line above. */
  readonly as: 'head' | 'good' | 'bad' | 'plain' | 'more';
}

const head = (text: string): DebriefLine => ({ text, as: 'head' });
const plain = (text: string): DebriefLine => ({ text, as: 'plain' });
const more = (text: string): DebriefLine => ({ text, as: 'more' });
/** 2026-11-27 is 27 November 2026. */
const dayWords = (day: string): string =>
  new Date(day).toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' });
const at = (where: string): string => (where ? ` (${where})` : '');
const count = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;
const times = (n: number): string => (n === 1 ? 'once' : `${n} times`);

/** What you saw, what you took it for, what it was. */
const causeLines = ({ cause }: DebriefTrap): DebriefLine[] =>
  cause
    ? [more(`You saw: ${cause.seen}`), more(`You took it for: ${cause.takenFor}`), more(`It was: ${cause.was}`)]
    : [];

/** Name it first, then what it would have done, then what to keep. */
export function trapLines(t: DebriefTrap): DebriefLine[] {
  const name = `${t.title}${at(t.where)}`;
  if (t.by !== undefined)
    return [
      plain(`${t.end === 'fell' ? 'Missed' : 'Caught'} by ${t.by}: ${name}`),
      more(`It brings and costs no mark. Keep: ${t.lesson}`),
    ];
  switch (t.end) {
    case 'caught':
      return [
        { text: `Caught: ${name}`, as: 'good' },
        ...(t.cause ? [more(`It was: ${t.cause.was}`)] : []),
        more(`It would have ended so: ${t.wouldHave}`),
      ];
    case 'caught-late':
      return [
        { text: `Caught late: ${name}`, as: 'good' },
        more('You fell into it first and put it right in time.'),
        ...causeLines(t),
        more(`It would have ended so: ${t.wouldHave}`),
        more(`Keep: ${t.lesson}`),
      ];
    case 'fell':
      if (t.openUntil !== undefined)
        return [
          plain(
            `Still open: one trap can be put right until “${t.openUntil}” is done. Look once more at what you took for granted.`,
          ),
        ];
      return [
        { text: `Missed: ${name}`, as: 'bad' },
        ...causeLines(t),
        more(`What it would have done: ${t.wouldHave}`),
        more(`A careful person: ${t.lesson}`),
      ];
    default:
      // What is still ahead is not given away.
      return [plain('One trap was not met yet.')];
  }
}

function predictionLines(p: JudgedPrediction): DebriefLine[] {
  const name = `${p.label}${at(p.where)}`;
  const of = p.byFalseReadings;
  const said = of
    ? `you said ${p.typed}, the rotor is ${p.actual}`
    : `you said ${p.typed}, the guide ${p.actual || 'does not know yet'}`;
  const back = p.takenBack ? [more('It was taken back after the answer was seen; what was said first counts.')] : [];
  if (p.again) return [plain(`Not counted: ${name} - ${said}`), more('Said once more, after the answer was seen.')];
  if (of && p.verdict === 'wrong' && (of.verdict === 'right' || of.verdict === 'close'))
    return [
      { text: `Right by false readings only: ${name} - ${said}`, as: 'bad' },
      more(`The guide said ${of.guide} by what it was told.`),
    ];
  return [...verdictLines(p, name, said), ...back];
}

function verdictLines(p: JudgedPrediction, name: string, said: string): DebriefLine[] {
  switch (p.verdict) {
    case 'right':
      return [{ text: `Right: ${name} - ${said}`, as: 'good' }];
    case 'close':
    case 'on the safe side':
      return [
        { text: `${p.verdict === 'close' ? 'Close' : 'On the safe side'}: ${name} - ${said}`, as: 'good' },
        ...(p.slip ? [more(p.slip.says)] : p.says ? [more(p.says)] : []),
      ];
    case 'wrong':
      return [
        { text: `Wrong: ${name} - ${said}`, as: 'bad' },
        ...(p.slip ? [more(p.slip.says)] : p.says ? [more(p.says)] : []),
        more('Worked out:'),
        ...p.worked.map((w) => more(`  ${w}`)),
      ];
    case 'unreadable':
      return [plain(`Not read: ${name} - ${said}`), ...(p.says ? [more(p.says)] : [])];
    default:
      return [plain(`Not judged: ${name} - ${said}`)];
  }
}

/** How many traps ended so by the apprentice's own doing. */
const endsOf =
  (d: Debrief) =>
  (e: DebriefTrap['end']): number =>
    d.traps.filter((t) => t.end === e && t.by === undefined && t.openUntil === undefined).length;

/** Who else worked in it; of what was filled in only how much. */
const helpLines = (d: Debrief): DebriefLine[] =>
  d.helped.length
    ? [
        plain(
          `Done by others: ${d.helped
            .map(({ initials, steps, titles }) =>
              initials === FILLED_BY
                ? `${initials} ${steps}`
                : `${initials} ${count(steps, 'step')} (${titles.join(', ')})`,
            )
            .join('; ')}.`,
        ),
      ]
    : [];

function refusalLines(d: Debrief): DebriefLine[] {
  return d.refusals.map(({ title, where, reason, initials, at: when, signedAfter }) =>
    plain(
      `Refused by ${initials} ${when.slice(11, 16)} UTC: ${title}${at(where)}: ${reason}; ${signedAfter === undefined ? 'not signed since' : `signed ${signedAfter} s later`}`,
    ),
  );
}

/** A trap that was missed outweighs every reading that was right: no total stands above it. */
export function marksWords(care: Debrief['care'], fell: number): string {
  if (!care?.of) return 'No marks yet.';
  if (fell) return `${count(fell, 'trap')} missed: that outweighs what was right.`;
  return `${care.marks} of ${count(care.of, 'mark')}.`;
}

/** A careless way is named where nothing came of it too: the next rotor looks the same. */
function careLines(d: Debrief, { readings }: NonNullable<Debrief['care']>): DebriefLine[] {
  const careless = d.ways.filter((w) => w.careless);
  const overruled = d.overrules.filter((o) => o.careless).length;
  const ends = endsOf(d);
  const lost = [
    ...(ends('fell') ? [`${count(ends('fell'), 'trap')} missed`] : []),
    ...(ends('caught-late') ? [`${count(ends('caught-late'), 'trap')} caught late`] : []),
    ...(careless.length ? [count(careless.length, 'careless way')] : []),
    ...(d.misread.length ? [`${d.misread.length} of ${count(readings, 'reading')} misread`] : []),
    ...(overruled ? [`${times(overruled)} gone on against advice`] : []),
  ];
  return [
    plain(marksWords(d.care, ends('fell')) + (lost.length ? ` It cost marks: ${lost.join(', ')}.` : '')),
    ...careless.flatMap((w): DebriefLine[] => [
      { text: `Careless: ${w.label}${at(w.where)} - “${w.way}”`, as: 'bad' },
      more('Nothing came of it on this rotor, by luck. You could not know that.'),
      more(`On another one: ${w.careless?.costs}`),
      more(`A careful person: ${w.careless?.lesson}`),
    ]),
  ];
}

/** Beside a misread one what there was to be seen: what in it said so is what is to be learnt. */
function readLines(d: Debrief): DebriefLine[] {
  const { readings = 0 } = d.care ?? {};
  return [
    ...d.misread.flatMap((m): DebriefLine[] => [
      {
        text: m.saw
          ? `Misread: ${m.label}${at(m.where)} - it showed “${m.saw}” That is: ${m.shown}. You typed ${m.typed}`
          : `Misread: ${m.label}${at(m.where)} - you typed ${m.typed}, it showed ${m.shown}`,
        as: 'bad',
      },
      ...m.did.map((e) => more(`It made ${effectWords(e)}`)),
    ]),
    ...d.notTaken.flatMap((m): DebriefLine[] => [
      plain(`Not measured: ${m.label}${at(m.where)} - left empty, it showed ${m.shown}. It costs no mark.`),
      more(tookInstead(m.did)),
    ]),
    ...d.didTogether.map((e) => plain(`Together they made ${effectWords(e)}`)),
    ...d.putRight.flatMap((p) => [
      plain(`Put right: ${p.label}${at(p.where)} - ${p.first} at first, then ${p.now}`),
      ...p.did.map((e) => more(`It had made ${effectWords(e)}`)),
    ]),
    ...(d.misread.length ? [] : [plain(readings ? readWell(d, readings) : 'Nothing was read off yet.')]),
  ];
}

/** “Dose to put in” 1.1 mL instead of 1.5 mL: 27 % too little. */
export const effectWords = ({ label, where, made, instead, off }: Effect): string =>
  `“${label}”${at(where)} ${made} instead of ${instead}${off === undefined ? '' : `: ${Math.abs(Math.round(100 * off))} % too ${off < 0 ? 'little' : 'much'}`}.`;

/** What came of a figure that was left empty. */
export const tookInstead = (did: readonly Effect[]): string =>
  did.length
    ? `The guide took its usual figure: ${did.map(effectWords).join(' ')}`
    : 'What the guide took instead changed no figure that decides.';
const readWell = (d: Debrief, readings: number): string =>
  d.putRight.length
    ? `What stands now is as it showed: ${count(readings, 'reading')}.`
    : `Everything was typed as it showed: ${count(readings, 'reading')}.`;

/** Traps of this rotor that were not in the job. */
export const beforeLines = (d: Debrief): DebriefLine[] =>
  d.before === 0
    ? []
    : [
        plain(
          `${d.before === 1 ? 'A trap of this rotor lies' : `${d.before} traps of this rotor lie`} before “${d.begunAt ?? ''}”: not in this job.`,
        ),
      ];

/** Only where something holds it there: elsewhere the screen itself is next. */
function standsLines({ stands, mentor }: Debrief): DebriefLine[] {
  if (stands?.by === 'hold') return [plain(`Stands at: ${stands.at}, HOLD for ${mentor ?? 'the mentor'}.`)];
  return stands?.by === 'stop' ? [plain(`Stands at: ${stands.at}, STOP. ${stands.says ?? ''}`.trim())] : [];
}

export function debriefLines(d: Debrief): DebriefLine[] {
  const ends = endsOf(d);
  const careless = d.ways.filter((w) => w.careless).length;
  const missed = (t: DebriefTrap): boolean => t.end === 'fell' && t.openUntil === undefined;
  const fell = d.traps.filter(missed);
  const rest = d.traps.filter((t) => !missed(t));
  const judged = d.predictions.filter((p) => p.verdict !== 'not-judged' && p.verdict !== 'unreadable');
  const right = judged.filter((p) => p.verdict === 'right' || p.verdict === 'close').length;
  const minutes = d.phases.reduce((n, p) => n + p.minutes, 0);
  return [
    plain(
      d.rotor === undefined
        ? `Training on a real rotor: ${d.job}`
        : `PRACTICE on an invented rotor: ${d.title ?? d.job}`,
    ),
    plain(
      `${d.apprentice}${d.mentor ? `, mentor ${d.mentor}` : ''}; ${d.finished ? 'finished' : `${d.done} of ${d.total} steps done`}.`,
    ),
    ...(d.begunAt === undefined ? [] : [plain(`Begun at “${d.begunAt}”; the bench did what comes before.`)]),
    ...(d.atOnce ? [plain('Lessons were told as soon as harm was done.')] : []),
    ...standsLines(d),
    ...helpLines(d),
    head('Traps'),
    ...(d.traps.length
      ? [
          plain(
            `${ends('caught') + ends('caught-late')} of ${count(d.traps.length, 'trap')} caught, ${ends('fell')} missed.${careless ? ` Careless where no trap was set: ${times(careless)}.` : ''}`,
          ),
        ]
      : d.before
        ? []
        : [plain('There were none in this job.')]),
    ...beforeLines(d),
    ...[...fell, ...rest].flatMap(trapLines),
    ...(d.care ? [head('Care'), ...careLines(d, d.care)] : []),
    head('What you expected'),
    ...(d.predictions.length
      ? [plain(`${right} of ${judged.length} right or close.`)]
      : [plain('Nothing was to be predicted yet.')]),
    ...[...d.predictions].sort((a, b) => rank(a) - rank(b)).flatMap(predictionLines),
    ...(d.rotor === undefined ? [] : [head('What you read off'), ...readLines(d)]),
    head('Gone on against advice'),
    ...(d.overrules.length
      ? d.overrules.flatMap((o) => [
          plain(`${o.title}${at(o.where)}: ${o.says}`),
          more(`${o.initials} went on: ${o.reason}`),
          ...(o.careless ? [more(`Somebody careful stops here. What it can cost: ${o.careless}`)] : []),
        ])
      : [plain('Never.')]),
    ...(d.answeredAway.length
      ? [
          head('Stops answered away'),
          ...d.answeredAway.flatMap((s): DebriefLine[] => [
            { text: `${s.title}${at(s.where)}: ${s.says}`, as: 'bad' },
            more(`${s.ended?.by} ${s.ended?.how}`),
          ]),
        ]
      : []),
    head('Hold points'),
    ...refusalLines(d),
    ...(d.holds.length
      ? d.holds.map((h) =>
          plain(
            `${h.how === 'witnessed' ? 'Witnessed' : 'Self-checked'} by ${h.initials}: ${h.title}${at(h.where)}, ${h.seconds} s after the last answer${h.noOwn ? ', without a finding of their own' : h.own ? `; own finding: ${h.own}` : ''}${h.undone ? '; undone by a change since, to be signed again' : ''}`,
          ),
        )
      : d.refusals.length
        ? []
        : [plain(d.stands?.by === 'hold' ? 'None is signed yet.' : 'None was reached.')]),
    ...(d.corrections.length ? [head('Corrected on the way'), ...d.corrections.map(plain)] : []),
    head('Time'),
    ...(d.keys === undefined
      ? []
      : [
          plain(`${showDuration(Math.round(d.keys))}  at the keys`),
          plain('By the job’s clock, with what was let pass:'),
        ]),
    ...d.phases
      .filter((p) => Math.round(p.minutes) > 0)
      .map((p) => plain(`${showDuration(Math.round(p.minutes))}  ${p.title}`)),
    plain(
      `${showDuration(Math.round(minutes))}  in all${d.away > 0 ? `, breaks of ${showDuration(Math.round(d.away))} left out` : ''}`,
    ),
    ...(d.next || d.again ? [head('Next')] : []),
    ...(d.next ? [plain(`${d.next.title} (rotorside practice ${d.next.id})`), more(d.next.why)] : []),
    ...(d.again
      ? [
          plain(
            `Practise “${skillName(d.again.skill)}” again from ${dayWords(d.again.due)} on${d.again.from ? ` (met on “${d.again.from}”)` : ''}.`,
          ),
        ]
      : []),
  ];
}

const ranks: Readonly<Record<JudgedPrediction['verdict'], number>> = {
  wrong: 0,
  unreadable: 1,
  'on the safe side': 2,
  close: 3,
  right: 4,
  'not-judged': 5,
};
const rank = (p: JudgedPrediction): number => ranks[p.verdict];

/** For standard output. */
export const debriefText = (d: Debrief): string => linesText(debriefLines(d));
export function linesText(lines: readonly DebriefLine[]): string {
  return lines
    .map(({ text, as }) =>
      as === 'head'
        ? `\n${text}`
        : as === 'more'
          ? `    ${text}`
          : as === 'plain'
            ? text
            : `${as === 'bad' ? '!' : '+'} ${text}`,
    )
    .join('\n');
}
