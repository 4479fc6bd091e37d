/** A class on one page: who is stuck and where, what all expected side by side, who misread what. Pure. */
import { showDuration } from '../units/show.js';
import type { Debrief } from './debrief.js';
import { beforeLines, type DebriefLine, effectWords, marksWords, tookInstead } from './debrief-lines.js';
import type { Effect } from './effects.js';
import type { JudgedPrediction } from './predictions.js';

/** One practice job of the class. */
export interface ClassJob {
  readonly debrief: Debrief;
  /** Where it stands now, as the list of jobs has it; empty where nothing is known of it. */
  readonly next: string;
  /** What it waits for, while it does. */
  readonly waits?: string;
  /** Minutes since something was typed last. */
  readonly still: number;
  /** Time of day of that, or at which it was set up where nobody began it; such as 16:05. */
  readonly since: string;
}

export interface PracticeClass {
  /** ISO day of its last key. */
  readonly day: string;
  readonly jobs: readonly ClassJob[];
  /** Who was set up together, when, on what; where somebody was. */
  readonly head?: string;
  /** What was set up before that and is not worked on any more; a line for each class. */
  readonly older: readonly string[];
  /** It is over: nobody is waited for. */
  readonly over: boolean;
  /** Practice jobs of other days, which are not told here. */
  readonly left: number;
}

/** Minutes without anything typed after which somebody is looked after: nothing on an invented rotor takes as long. */
const STUCK = 5;

const head = (text: string): DebriefLine => ({ text, as: 'head' });
const plain = (text: string): DebriefLine => ({ text, as: 'plain' });
const more = (text: string): DebriefLine => ({ text, as: 'more' });
const at = (where: string): string => (where ? ` (${where})` : '');
const whoOf = ({ debrief }: ClassJob): string => debrief.apprentice;
const rotorOf = ({ debrief }: ClassJob): string => debrief.title ?? debrief.job;
const names = (of: readonly ClassJob[]): string => [...new Set(of.map(whoOf))].join(', ');

/** Groups in the order in which they first came. */
function grouped<T>(items: readonly T[], by: (item: T) => string): T[][] {
  const groups = new Map<string, T[]>();
  for (const item of items) groups.set(by(item), [...(groups.get(by(item)) ?? []), item]);
  return [...groups.values()];
}

const firstSentence = (text = ''): string => text.split(/(?<=[.!?]) /)[0] ?? '';

/** @param told its stop with step and reason: whoever has that step ahead would be told the trap */
function standing(j: ClassJob, over: boolean, stuck: boolean, told: boolean): DebriefLine {
  const { finished, begun, begunAt, done, total, keys, stands, mentor } = j.debrief;
  const worked = keys === undefined || !begun ? '' : `; ${showDuration(Math.round(keys))} at the keys`;
  const line = (where: string): DebriefLine => ({
    text: `${whoOf(j)}, ${rotorOf(j)}: ${worked ? where.replace(/\.$/, '') : where}${worked}`,
    as: stuck ? 'bad' : 'plain',
  });
  if (finished) return line('finished');
  if (!begun) return line(`not begun, set up ${j.since}${begunAt === undefined ? '' : `; starts at “${begunAt}”`}`);
  const since = over ? '' : ` since ${j.since}`;
  if (stands?.by === 'stop')
    return line(told ? `STOP at ${stands.at}${since}. ${firstSentence(stands.says)}` : `STOP${since}`);
  if (stands?.by === 'hold') return line(`HOLD at ${stands.at}, waits for ${mentor ?? 'a mentor'}${since}`);
  const where = `${j.waits ? `waits: ${j.waits}` : j.next || 'begun'}, step ${Math.min(done + 1, total)} of ${total}`;
  return line(`${where}${over ? '' : `; nothing typed${since}`}`);
}

/** All who were asked for the same figure of the same rotor, under what it is where it is one for all. */
function expectedLines(jobs: readonly ClassJob[]): DebriefLine[] {
  const said = jobs.flatMap((j) =>
    j.debrief.predictions.filter((p) => p.again === undefined).map((p) => ({ j, p, name: `${p.label}${at(p.where)}` })),
  );
  return grouped(said, ({ j, name }) => `${rotorOf(j)}: ${name}`).flatMap((group) => {
    const [first] = group;
    if (!first) return [];
    const own = (p: JudgedPrediction): string => p.byFalseReadings?.guide ?? p.actual;
    const one = group.every(({ p }) => own(p) === own(first.p));
    return [
      plain(`${rotorOf(first.j)}, ${first.name}${one ? `: ${own(first.p) || 'not known yet'}` : ''}`),
      ...group.map(({ j, p }): DebriefLine => {
        const by = one || !own(p) ? '' : `, by their own readings ${own(p)}`;
        const real = p.byFalseReadings ? `; the rotor is ${p.actual}` : '';
        const of = p.byFalseReadings?.verdict ?? p.verdict;
        const only = of !== 'wrong' && p.verdict === 'wrong' ? ' by false readings only' : '';
        return more(
          `${whoOf(j)} ${verdictWords[of]}${only}: ${p.typed}${by}${real}${p.slip ? `. ${p.slip.says}` : ''}`,
        );
      }),
    ];
  });
}
const verdictWords: Readonly<Record<Debrief['predictions'][number]['verdict'], string>> = {
  right: 'right',
  close: 'close',
  'on the safe side': 'on the safe side',
  wrong: 'WRONG',
  unreadable: 'not read',
  'not-judged': 'not judged',
};

/** What was put right stays told: until then it stood. */
const putRightLines = (jobs: readonly ClassJob[]): DebriefLine[] =>
  jobs.flatMap((j) =>
    j.debrief.putRight.flatMap((p) => [
      plain(`${rotorOf(j)}, ${p.label}${at(p.where)}: ${whoOf(j)} typed ${p.first} at first, put right to ${p.now}`),
      ...p.did.map((e) => more(`Until then it made ${effectWords(e)}`)),
    ]),
  );

function misreadLines(jobs: readonly ClassJob[]): DebriefLine[] {
  const misread = jobs.flatMap((j) => j.debrief.misread.map((m) => ({ j, m })));
  return grouped(misread, ({ j, m }) => `${rotorOf(j)}: ${m.label}${at(m.where)} - it showed ${m.saw ?? m.shown}`)
    .sort((a, b) => b.length - a.length)
    .flatMap((group) => {
      const [first] = group;
      if (!first) return [];
      const { j, m } = first;
      return [
        plain(`${rotorOf(j)}, ${m.label}${at(m.where)}: it showed ${m.saw ? `“${m.saw}”: ` : ''}${m.shown}`),
        ...group.map((x) =>
          more(`${whoOf(x.j)} typed ${x.m.typed}.${x.m.did.map((e) => ` It made ${effectWords(e)}`).join('')}`),
        ),
      ];
    });
}

/** What was left empty is no misreading: the guide took its usual figure. */
function notMeasuredLines(jobs: readonly ClassJob[]): DebriefLine[] {
  const all = jobs.flatMap((j) => j.debrief.notTaken.map((m) => ({ j, m })));
  return grouped(
    all,
    ({ j, m }) => `${rotorOf(j)}, ${m.label}${at(m.where)}: left empty, it showed ${m.shown}`,
  ).flatMap((group) => [
    ...group
      .slice(0, 1)
      .map(({ j, m }) => plain(`${rotorOf(j)}, ${m.label}${at(m.where)}: left empty, it showed ${m.shown}`)),
    ...group.map(({ j, m }) => more(`${whoOf(j)}: ${tookInstead(m.did)}`)),
  ]);
}

function carelessLines(jobs: readonly ClassJob[]): DebriefLine[] {
  const ways = jobs.flatMap((j) =>
    j.debrief.ways.flatMap(({ label, way, careless }) =>
      careless ? [{ j, label, way, lesson: careless.lesson }] : [],
    ),
  );
  return grouped(ways, (w) => `${w.label} ${w.way}`)
    .sort((a, b) => b.length - a.length)
    .flatMap((group) => [
      plain(`${group[0]?.label} - “${group[0]?.way}”: ${names(group.map((g) => g.j))}`),
      more(`A careful person: ${group[0]?.lesson}`),
    ]);
}

/** Missed ones with who missed them; what is still ahead of somebody is not given away. */
function trapLines(jobs: readonly ClassJob[]): DebriefLine[] {
  const met = jobs.flatMap((j) =>
    j.debrief.traps
      .filter((t) => t.end !== 'not-met' && t.by === undefined && t.openUntil === undefined)
      .map((t) => ({ j, t })),
  );
  return grouped(met, ({ t }) => t.id)
    .map((group) => ({ group, fell: group.filter(({ t }) => t.end !== 'caught') }))
    .sort((a, b) => b.fell.length - a.fell.length)
    .flatMap(({ group, fell }) => {
      const t = group[0]?.t;
      if (!t) return [];
      if (!fell.length) return [plain(`Caught by all who met it: ${t.title}: ${names(group.map((g) => g.j))}`)];
      return [
        {
          text: `Missed: ${t.title}: ${names(fell.map((g) => g.j))}, of ${group.length} who met it`,
          as: 'bad' as const,
        },
        more(`A careful person: ${t.lesson}`),
      ];
    });
}

/** A heading with its lines, or with the word for none. */
const part = (title: string, lines: readonly DebriefLine[], none: string): DebriefLine[] => [
  head(title),
  ...(lines.length ? lines : [plain(none)]),
];

/** Traps that nobody here can meet, since they lie before where all began; once for each rotor. */
const unmetLines = (jobs: readonly ClassJob[]): DebriefLine[] =>
  grouped(jobs, rotorOf).flatMap(([first]) =>
    first ? beforeLines(first.debrief).map((l) => plain(`${rotorOf(first)}: ${l.text}`)) : [],
  );

/** For the mentor: what was gone on against, why, and who signed for it. */
const againstLines = ({ debrief: { overrules } }: ClassJob): DebriefLine[] =>
  overrules.map((o) => more(`Gone on against advice: ${o.title}${at(o.where)} (${o.initials}: ${o.reason})`));

/** Nobody else on its rotor has the step ahead at which it stands. */
const isPast = ({ debrief: { rotor, stands } }: ClassJob, jobs: readonly ClassJob[]): boolean =>
  jobs.every(
    ({ debrief: o }) =>
      o.rotor !== rotor ||
      o.finished ||
      o.reached > (stands?.phase ?? 0) ||
      (o.stands?.by === 'stop' && o.stands.at === stands?.at),
  );

/** Nothing in it of what one of the others on its rotor still has ahead, or can still put right. */
function pastOnly(d: Debrief, jobs: readonly ClassJob[]): Debrief {
  const open = jobs.flatMap(({ debrief: o }) => (o.rotor === d.rotor && !o.finished ? [o] : []));
  const reached = Math.min(...open.map((o) => o.reached));
  const past = <T extends { readonly phase: number }>(all: readonly T[]): T[] => all.filter((x) => x.phase < reached);
  const effects = <T extends { readonly phase: number; readonly did: readonly Effect[] }>(all: readonly T[]): T[] =>
    past(all).map((x) => ({ ...x, did: past(x.did) }));
  const ahead = (id: string): boolean =>
    open.some((o) => o.traps.some((t) => t.id === id && (t.end === 'not-met' || t.openUntil !== undefined)));
  return {
    ...d,
    predictions: past(d.predictions),
    misread: effects(d.misread),
    notTaken: effects(d.notTaken),
    putRight: effects(d.putRight),
    ways: past(d.ways),
    traps: d.traps.filter((t) => !ahead(t.id)),
  };
}
const readerLines = {
  mentor: 'For the mentor: it tells what the rotors really show to people who are still at work on them.',
  anybody: 'What somebody here still has ahead is left out. The mentor reads all of it by: rotorside debrief --all',
} as const;

/** @param reader who may see what the rotors really show: a mentor all, anybody what all who work on one are past */
export function classLines(
  { jobs, over, left, head: title, older }: Omit<PracticeClass, 'day'>,
  reader: 'mentor' | 'anybody',
): DebriefLine[] {
  const people = new Set(jobs.map(whoOf)).size;
  const isStuck = (j: ClassJob): boolean => {
    const { finished, begun, stands } = j.debrief;
    if (over || finished || !begun) return false;
    return stands?.by !== undefined || (j.waits === undefined && j.still >= STUCK);
  };
  const stuck = new Set(jobs.filter(isStuck).map(whoOf)).size;
  const byName = [...jobs].sort((a, b) => whoOf(a).localeCompare(whoOf(b)));
  const ordered = [...byName].sort((a, b) => Number(isStuck(b)) - Number(isStuck(a)) || b.still - a.still);
  const may = stuck ? `${stuck} may be stuck or ${stuck === 1 ? 'waits' : 'wait'} for somebody` : 'nobody is stuck';
  const marks = byName.flatMap((j) => {
    const { care, apprentice, begun, traps } = j.debrief;
    const fell = traps.filter((t) => t.end === 'fell' && t.by === undefined && t.openUntil === undefined).length;
    return care?.of && begun ? [plain(`${apprentice}, ${rotorOf(j)}: ${marksWords(care, fell)}`)] : [];
  });
  const told = reader === 'mentor' ? byName : byName.map((j) => ({ ...j, debrief: pastOnly(j.debrief, jobs) }));
  const open = jobs.some((j) => !j.debrief.finished);
  const judged = (title: string, lines: readonly DebriefLine[], none: string): DebriefLine[] =>
    open && reader === 'anybody' && !lines.length ? [] : part(title, lines, none);
  const careless = carelessLines(told);
  const notMeasured = notMeasuredLines(told);
  const met = trapLines(told);
  return [
    ...(title === undefined ? [] : [plain(title)]),
    plain(`${people} ${people === 1 ? 'person' : 'people'} on invented rotors${over ? '' : `; ${may}`}.`),
    ...older.map(plain),
    ...(left ? [plain(`Practice of other days is left out: ${left} ${left === 1 ? 'job' : 'jobs'}.`)] : []),
    ...(open ? [plain(readerLines[reader])] : []),
    ...part(
      'Where each one stands',
      ordered.flatMap((j) => [
        standing(j, over, isStuck(j), reader === 'mentor' || isPast(j, jobs)),
        ...(reader === 'mentor' ? againstLines(j) : []),
      ]),
      'Nobody has begun.',
    ),
    ...judged(
      'What they expected, judged by each one’s own readings',
      expectedLines(told),
      'Nothing was to be predicted yet.',
    ),
    ...judged('Misread', [...misreadLines(told), ...putRightLines(told)], 'Nothing.'),
    ...(notMeasured.length ? [head('Not measured'), ...notMeasured] : []),
    ...(careless.length ? [head('Careless ways'), ...careless] : []),
    ...judged('Traps', [...met, ...unmetLines(byName)], 'None was met yet.'),
    ...part('Care', marks, 'No marks yet.'),
  ];
}
