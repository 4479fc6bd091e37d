/** Practice of one person as a page, and of all as a table: people by skills. Pure. */
import { safeText } from '../text/safe-text.js';
import {
  type Attempt,
  attemptsOf,
  dueFirst,
  progressOf,
  type RotorProgress,
  type SkillProgress,
  skillsOf,
} from './progress.js';
import type { Rotor } from './rotor-file.js';

export interface Person {
  readonly person: string;
  readonly rotors: readonly RotorProgress[];
  readonly skills: readonly SkillProgress[];
  /** Kinds of slip, the most often first. */
  readonly slips: readonly { readonly slip: string; readonly times: number }[];
  /** Traps by their own names, the most often missed first; careless: ways of one that was not set. */
  readonly traps: readonly {
    readonly trap: string;
    readonly title: string;
    readonly met: number;
    readonly missed: number;
    readonly careless: number;
  }[];
  /** Careless ways of which nothing came, and times gone on against advice. */
  readonly careless: number;
  /** Readings typed otherwise than shown. */
  readonly misread: number;
  /** Readings typed in all. */
  readonly readings: number;
  /** Marks for care, of so many. */
  readonly care: { readonly marks: number; readonly of: number };
  readonly expected: { readonly right: number; readonly of: number };
  /** Steps that others did in this person's practice. */
  readonly helped: number;
  /** Practices in all; of them begun late, and with lessons at once. */
  readonly practices: { readonly all: number; readonly late: number; readonly atOnce: number };
  /** What is due first. */
  readonly again?: { readonly skill: string; readonly due: string; readonly rotor: string };
  /** Minutes at the keys; unknown where none was counted. */
  readonly minutes?: number;
  readonly last: string;
  readonly signed: readonly { readonly initials: string; readonly times: number; readonly fastest: number }[];
}

/** @param kinds how many different traps there are of each skill, one where it is not said */
export function personOf(
  person: string,
  kept: Readonly<Record<string, string | number | boolean>>,
  kinds?: ReadonlyMap<string, number>,
): Person {
  const attempts = attemptsOf(kept);
  const counted = attempts.flatMap((a) => a.minutes ?? []);
  const sum = (of: (a: Attempt) => number): number => attempts.reduce((n, a) => n + of(a), 0);
  const again = dueFirst(kept);
  return {
    person,
    rotors: progressOf(kept),
    skills: skillsOf(kept, kinds),
    traps: trapsOf(attempts),
    careless: sum((a) => a.careless),
    misread: sum((a) => a.misread),
    readings: sum((a) => a.readings),
    care: { marks: sum((a) => a.marks), of: sum((a) => a.of) },
    expected: { right: sum((a) => a.right + a.close), of: sum((a) => a.right + a.close + a.wrong) },
    helped: sum((a) => a.helped),
    practices: {
      all: attempts.length,
      late: sum((a) => Number(a.begunLate ?? 0)),
      atOnce: sum((a) => Number(a.atOnce ?? 0)),
    },
    ...(again ? { again } : {}),
    slips: tally(attempts.flatMap((a) => a.slips)).map(([slip, times]) => ({ slip, times })),
    ...(counted.length ? { minutes: counted.reduce((a, b) => a + b, 0) } : {}),
    last: attempts.at(-1)?.at.slice(0, 10) ?? '',
    signed: tally(attempts.flatMap((a) => a.signed.map((s) => s.initials))).map(([initials, times]) => ({
      initials,
      times,
      fastest: Math.min(
        ...attempts.flatMap((a) => a.signed.flatMap((s) => (s.initials === initials ? s.seconds : []))),
      ),
    })),
  };
}

function trapsOf(attempts: readonly Attempt[]): Person['traps'] {
  const met = attempts.flatMap((a) => a.traps);
  return tally(met.map((t) => t.trap))
    .map(([trap]) => {
      const own = met.filter((t) => t.trap === trap);
      return {
        trap,
        title: own.findLast((t) => t.title !== undefined)?.title ?? skillName(trap),
        met: own.filter((t) => t.end !== 'careless').length,
        missed: own.filter((t) => t.end === 'late' || t.end === 'fell').length,
        careless: own.filter((t) => t.end === 'careless').length,
      };
    })
    .sort((a, b) => b.missed - a.missed);
}

function tally(list: readonly string[]): [string, number][] {
  const counts = new Map<string, number>();
  for (const x of list) counts.set(x, (counts.get(x) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1]);
}

const clean = (text: string, max = 60): string => safeText(text, { max });
/** An id as words: `ball-material` is “Ball material”. */
export const skillName = (id: string): string => {
  const words = clean(id.replaceAll('-', ' '));
  return words.charAt(0).toUpperCase() + words.slice(1);
};
export const skillCell = (s: SkillProgress | undefined): string =>
  s?.met ? `${s.met - s.missed}/${s.met}${s.mastered ? ' *' : ''}` : '-';
export const slipWords = (p: Person): string =>
  p.slips.map((s) => `${clean(s.slip.replaceAll('-', ' '))} ${s.times}`).join(', ') || 'none';
const againWords = (p: Person): string => (p.again ? `${skillName(p.again.skill)} ${p.again.due}` : '-');

/** What stands under the skills, in the table and on the page alike. */
export const countRows = (people: readonly Person[]): [string, string[]][] => [
  ['Again from', people.map(againWords)],
  ['Care', people.map((p) => `${p.care.marks} of ${p.care.of}`)],
  ['Misread', people.map((p) => `${p.misread} of ${p.readings}`)],
  ['Careless ways', people.map((p) => String(p.careless))],
  ['Expected right or close', people.map((p) => `${p.expected.right} of ${p.expected.of}`)],
  ['Helped', people.map((p) => (p.helped ? `${p.helped} ${p.helped === 1 ? 'step' : 'steps'}` : 'never'))],
  ['Begun late', people.map((p) => `${p.practices.late} of ${p.practices.all}`)],
  ['Lessons at once', people.map((p) => `${p.practices.atOnce} of ${p.practices.all}`)],
  ['At the keys', people.map(minutesWords)],
  ['Last', people.map((p) => p.last)],
];
const minutesWords = (p: Person): string => (p.minutes === undefined ? 'not counted' : `${Math.round(p.minutes)} min`);
export const signedWords = (p: Person): string =>
  p.signed
    .map(
      (s) =>
        `${clean(s.initials, 12)} ${s.times === 1 ? 'once' : `${s.times} times`}, the fastest after ${s.fastest} s`,
    )
    .join('; ') || 'nobody';

/** People by skills: traps seen through of those met; a star where it is mastered. */
export function progressTable(people: readonly Person[]): string {
  const skills = [...new Set(people.flatMap((p) => p.skills.map((s) => s.skill)))].sort();
  const head = ['', ...people.map((p) => clean(p.person, 12))];
  const rows = [
    ...skills.map((s) => [skillName(s), ...people.map((p) => skillCell(p.skills.find((x) => x.skill === s)))]),
    ...countRows(people).map(([name, cells]) => [name, ...cells]),
  ];
  const width = [head, ...rows].reduce<number[]>((w, r) => r.map((c, i) => Math.max(w[i] ?? 0, c.length)), []);
  const line = (r: readonly string[]): string =>
    r
      .map((c, i) => c.padEnd(width[i] ?? 0))
      .join('  ')
      .trimEnd();
  return [
    'Traps seen through of those met; * mastered: twice, in different clothes, days apart',
    '',
    ...[head, ...rows].map(line),
    '',
    ...people.flatMap((p) => [`${clean(p.person, 20)}: slips ${slipWords(p)}; signed by ${signedWords(p)}`]),
  ].join('\n');
}

/** One person: every rotor, and every skill with the day on which it is due again. */
/** @param titleOf names a rotor that is not offered */
export function personPage(p: Person, offered: readonly Rotor[], titleOf = (id: string): string => id): string {
  const mastered = p.rotors.filter((k) => k.mastered && offered.some((r) => r.rotor === k.rotor)).length;
  const others = p.rotors.filter((k) => !offered.some((r) => r.rotor === k.rotor));
  return [
    `Practice of ${clean(p.person, 20)}: ${mastered} of ${offered.length} rotors seen through`,
    '',
    ...offered.map((r) =>
      rotorLine(
        r.rotor,
        r.title,
        p.rotors.find((k) => k.rotor === r.rotor),
      ),
    ),
    ...others.map((k) => rotorLine(k.rotor, titleOf(k.rotor), k)),
    ...(p.skills.length
      ? [
          '',
          'By skill',
          ...p.skills.map(
            (s) =>
              `  ${s.mastered ? '+' : '-'} ${skillName(s.skill).padEnd(16)}${s.met ? `${s.met - s.missed} of ${s.met} seen through` : 'no trap met yet'}${s.careless ? `, careless ${s.careless === 1 ? 'once' : `${s.careless} times`}` : ''}; again from ${s.due}`,
          ),
          '',
          `At the keys: ${minutesWords(p)}. Signed by ${signedWords(p)}.`,
        ]
      : ['', `No trap met yet; begin with rotorside practice ${offered[0]?.rotor ?? ''}.`]),
  ].join('\n');
}

function rotorLine(id: string, title: string, own: RotorProgress | undefined): string {
  const last: Attempt | undefined = own?.attempts.at(-1);
  const name = `${id.padEnd(16)}${clean(title)}`;
  if (!own || !last) return `  - ${name}: not tried yet`;
  const times = own.attempts.length === 1 ? 'once' : `${own.attempts.length} times`;
  const careless = last.careless ? `, ${last.careless} careless` : '';
  const traps = `${last.caught + last.late} caught, ${last.fell} missed${careless}`;
  const said = `${last.right + last.close} of ${last.right + last.close + last.wrong} predictions right or close`;
  return `  ${own.mastered ? '+' : '-'} ${name}: ${times}; last ${last.at.slice(0, 10)}${last.finished ? '' : ', not finished'}: ${traps}; ${said}`;
}
