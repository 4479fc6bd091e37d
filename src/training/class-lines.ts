/** A class on one page: who is stuck and where, what all expected side by side, who misread what. Pure. */
import { showDuration } from '../units/show.js';
import type { Debrief } from './debrief.js';
import { type DebriefLine, effectWords } from './debrief-lines.js';

/** One practice job of the class. */
export interface ClassJob {
  readonly debrief: Debrief;
  /** Where it stands now, as the list of jobs has it; empty where nothing is known of it. */
  readonly next: string;
  /** What it waits for, while it does. */
  readonly waits?: string;
  /** Minutes since something was typed last. */
  readonly still: number;
}

export interface PracticeClass {
  /** ISO day of its last key. */
  readonly day: string;
  readonly jobs: readonly ClassJob[];
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

function standing(j: ClassJob, over: boolean, stuck: boolean): DebriefLine {
  const { finished, done, total, keys } = j.debrief;
  const where = finished
    ? 'finished'
    : `${j.waits ? `waits: ${j.waits}` : j.next || 'begun'}, ${done} of ${total} steps`;
  const still = finished || over ? '' : `; nothing typed for ${showDuration(Math.round(j.still))}`;
  const worked = keys === undefined ? '' : `; ${showDuration(Math.round(keys))} at the keys`;
  return { text: `${whoOf(j)}, ${rotorOf(j)}: ${where}${still}${worked}`, as: stuck ? 'bad' : 'plain' };
}

/** All who were asked for the same figure of the same rotor, under what it is for most of them. */
function expectedLines(jobs: readonly ClassJob[]): DebriefLine[] {
  const said = jobs.flatMap((j) =>
    j.debrief.predictions.filter((p) => p.again === undefined).map((p) => ({ j, p, name: `${p.label}${at(p.where)}` })),
  );
  return grouped(said, ({ j, name }) => `${rotorOf(j)}: ${name}`).flatMap((group) => {
    const [first] = group;
    if (!first) return [];
    const [most = []] = grouped(group, ({ p }) => p.actual).sort((a, b) => b.length - a.length);
    const actual = most[0]?.p.actual ?? '';
    return [
      plain(`${rotorOf(first.j)}, ${first.name}: ${actual || 'not known yet'}`),
      ...group.map(({ j, p }): DebriefLine => {
        const own = p.actual && p.actual !== actual ? `, the guide ${p.actual}` : '';
        return more(`${whoOf(j)} ${verdictWords[p.verdict]}: ${p.typed}${own}${p.slip ? `. ${p.slip.says}` : ''}`);
      }),
    ];
  });
}
const verdictWords: Readonly<Record<Debrief['predictions'][number]['verdict'], string>> = {
  right: 'right',
  close: 'close',
  wrong: 'WRONG',
  unreadable: 'not read',
  'not-judged': 'not judged',
};

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
    j.debrief.traps.filter((t) => t.end !== 'not-met' && t.by === undefined).map((t) => ({ j, t })),
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

export function classLines({ jobs, over, left }: Omit<PracticeClass, 'day'>): DebriefLine[] {
  const people = new Set(jobs.map(whoOf)).size;
  const isStuck = (j: ClassJob): boolean => !over && !j.debrief.finished && j.waits === undefined && j.still >= STUCK;
  const stuck = jobs.filter(isStuck).length;
  const byName = [...jobs].sort((a, b) => whoOf(a).localeCompare(whoOf(b)));
  const ordered = [...byName].sort((a, b) => Number(isStuck(b)) - Number(isStuck(a)) || b.still - a.still);
  const may = stuck ? `${stuck} may be stuck` : 'nobody is stuck';
  const marks = byName.flatMap((j) => {
    const { care, apprentice } = j.debrief;
    return care?.of ? [plain(`${apprentice}, ${rotorOf(j)}: ${care.marks} of ${care.of} marks`)] : [];
  });
  return [
    plain(`${people} ${people === 1 ? 'person' : 'people'} on invented rotors${over ? '' : `; ${may}`}.`),
    ...(left ? [plain(`Practice of other days is left out: ${left} ${left === 1 ? 'job' : 'jobs'}.`)] : []),
    ...part(
      'Where each one stands',
      ordered.map((j) => standing(j, over, isStuck(j))),
      'Nobody has begun.',
    ),
    ...part('What they expected', expectedLines(byName), 'Nothing was to be predicted yet.'),
    ...part('Misread', misreadLines(byName), 'Nothing.'),
    ...part('Careless ways', carelessLines(byName), 'None.'),
    ...part('Traps', trapLines(byName), 'None was met yet.'),
    ...part('Care', marks, 'No marks yet.'),
  ];
}
