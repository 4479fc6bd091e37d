/**
 * A practice rotor drawn by chance: the same for the same number. Its body (size, speed, temperatures) is drawn, one to
 * three traps are lent by the rotors of the catalogue, and traps that are not set lend their questions of how to go about
 * it with one true answer, so that no step looks different because a trap stands there. Pure.
 */
import { type Random, randomOf } from '../simulator/random.js';
import { keysOf } from './practice-rotor.js';
import type { Reading, Rotor, RunIn, Typed, Way } from './rotor-file.js';

const MARK = 'any-';
export const anyId = (number: number): string => `${MARK}${number}`;
/** The number of a drawn rotor, from its id. */
export function anyNumber(id: string): number | undefined {
  const n = /^any-([1-9]\d{0,8})$/.exec(id)?.[1];
  return n === undefined ? undefined : Number(n);
}

/** Bodies as the table of ISO 15 sizes has them; mean diameter in mm, balls, ball diameter in mm. */
interface Body {
  readonly size: string;
  readonly dm: number;
  readonly balls: number;
  readonly ball: number;
  /** Room in it, as a share of that of the size that the first rotor has. */
  readonly room: number;
}
const usual: Body = { size: '6205', dm: 38.5, balls: 9, ball: 7.9, room: 1 };
const bodies: readonly Body[] = [
  usual,
  { size: '6204', dm: 33.5, balls: 8, ball: 7.9, room: 0.79 },
  { size: '6206', dm: 46, balls: 9, ball: 9.5, room: 1.42 },
  { size: '6005', dm: 36, balls: 10, ball: 6.4, room: 0.57 },
];

const machines = ['Pump', 'Spindle', 'Blower', 'Turbo compressor', 'Separator', 'Test-bench motor'];
const pick = <T>(random: Random, list: readonly T[]): T =>
  list[Math.min(list.length - 1, Math.floor(random.between(0, list.length)))] as T;
function shuffled<T>(random: Random, list: readonly T[]): T[] {
  return list
    .map((item) => ({ item, at: random.between(0, 1) }))
    .sort((a, b) => a.at - b.at)
    .map(({ item }) => item);
}
const slotOf = (r: Reading, key: string): string => `${r.at}:${key}`;

/** What a rotor of the catalogue adds to the plain one. */
interface Lent {
  readonly rotor: Rotor;
  readonly readings: readonly Reading[];
  readonly slots: ReadonlySet<string>;
}

/** What each rotor has of its own comes before what it takes over. */
function lentBy(rotor: Rotor, plain: Rotor): Lent {
  const own =
    rotor === plain
      ? rotor.readings.filter((r) => r.ways)
      : rotor.readings.slice(0, rotor.readings.length - plain.readings.length);
  // Its name is drawn, and what it leaves as it is everywhere is no trap.
  const readings = own.filter((r) => r.step !== 'machine');
  return { rotor, readings, slots: new Set(readings.flatMap((r) => keysOf(r).map((k) => slotOf(r, k)))) };
}

/** @returns undefined where the catalogue holds no plain rotor to begin with */
export function drawnRotor(number: number, catalogue: Iterable<Rotor>): Rotor | undefined {
  const all = [...catalogue];
  const plain = all.find((r) => r.like === undefined && r.offered !== false);
  if (!plain) return undefined;
  const random = randomOf(number);
  const lenders = all
    .filter((r) => r === plain || r.like === plain.rotor)
    .sort((a, b) => (a.rotor < b.rotor ? -1 : 1))
    .map((r) => lentBy(r, plain));
  const many = 1 + Math.floor(random.between(0, 3));
  const order = shuffled(random, lenders);
  const set: Lent[] = [];
  const taken = new Set<string>();
  const free = (l: Lent): boolean => [...l.slots].every((s) => !taken.has(s));
  const take = (l: Lent): void => {
    set.push(l);
    for (const s of l.slots) taken.add(s);
  };
  for (const l of order) {
    if (set.length >= many || set.some((x) => x.rotor.ends_job)) break;
    if (free(l) && !(l.rotor.ends_job && set.length)) take(l);
  }
  const onlySize = set.find((l) => l.rotor.only_size)?.rotor.only_size;
  const body = onlySize === undefined ? pick(random, bodies) : (bodies.find((b) => b.size === onlySize) ?? usual);
  const own = bodyReadings(random, body, number, taken);
  const plainly = [...own, ...plain.readings];
  const harmless = shuffled(random, lenders)
    .flatMap((l) => (set.includes(l) ? [] : l.readings.flatMap((r) => asHarmless(r, plainly, taken))))
    .slice(0, 6);
  // A trap that stands in a log brings the whole log.
  const logged = set.find((l) => (l.rotor.logs?.length ?? 0) > (plain.logs?.length ?? 0))?.rotor.logs;
  const skills = [...new Set(set.flatMap((l) => l.rotor.traps.map((t) => t.skill ?? t.id)))];
  return {
    rotor: anyId(number),
    title: `Rotor number ${number}`,
    invented: true,
    teaches: `Drawn by chance: ${skills.join(', ')}.`,
    story: story(random),
    procedure: plain.procedure,
    readings: [
      ...[...set.flatMap((l) => l.readings), ...harmless].map((r) =>
        r.ways ? { ...r, ways: shuffled(random, r.ways) } : r,
      ),
      ...own,
      ...cloth(taken),
      ...plain.readings.filter((r) => !r.ways),
    ],
    ...(logged ? { logs: logged } : { run_in: runInOf(random, set) }),
    traps: set.flatMap((l) => l.rotor.traps),
  };
}

function runInOf(random: Random, set: readonly Lent[]): RunIn {
  const lent = set.flatMap((l) => l.rotor.run_in ?? []);
  const lump = lent.find((r) => r.lump_at !== undefined);
  return {
    // A lump is drawn as its trap needs it.
    rise: lump?.rise ?? Math.round(random.between(12, 20)),
    minutes: lump?.minutes ?? 6,
    lump: lump?.lump ?? 0,
    ...(lump ? { lump_at: lump.lump_at } : {}),
    worse: lent.flatMap((r) => r.worse ?? []),
  };
}

/** The same question of how to go about it where nothing is wrong: each way shows what is so. */
function asHarmless(r: Reading, plainly: readonly Reading[], taken: Set<string>): Reading[] {
  const { key } = r;
  if (!r.ways || key === undefined || r.when !== undefined || taken.has(slotOf(r, key))) return [];
  const from = plainly.find((p) => p.at === r.at && p.step === r.step && p.shows?.[key] !== undefined);
  const shows: Typed | undefined = from?.shows?.[key];
  if (shows === undefined || from?.when !== undefined) return [];
  taken.add(slotOf(r, key));
  const sees = from?.sees?.[key];
  return [
    {
      ...r,
      ways: r.ways.map((w): Way => ({ way: w.way, label: w.label, shows, ...(sees === undefined ? {} : { sees }) })),
    },
  ];
}

/** Where no trap stands at the cloth it comes out white. */
const cloth = (taken: ReadonlySet<string>): Reading[] =>
  taken.has('a:cloth') ? [] : [{ step: 'white-cloth', at: 'a', says: 'All round.', shows: { cloth: 'white' } }];

function story(random: Random): string {
  return pick(random, [
    'It ran hot before the holidays and stood still since. Only one bearing is to be opened today.',
    'The owner wants it back by noon and talks a lot. One bearing is to be opened.',
    'It came with a note that nobody can read. One bearing is to be opened.',
    'A colleague began and fell ill. The bench is tidy, and one bearing is to be opened.',
  ]);
}

function bodyReadings(random: Random, body: Body, number: number, taken: ReadonlySet<string>): Reading[] {
  const k = usual.dm / body.dm;
  const rpm = Math.round((14_000 * k) / 100) * 100;
  const edge = body.room ** (1 / 3);
  const half = (mm: number): number => Math.round(mm * edge * 2) / 2;
  // Narrow enough to meter so little closely.
  const bore = Math.round(random.between(10.4, 12.2) * Math.min(1, Math.sqrt(body.room)) * 10) / 10;
  const room = Math.round(random.between(18, 24));
  const all: Reading[] = [
    {
      step: 'machine',
      at: 'job',
      shows: { machine: `${pick(random, machines)} ${number} (invented)`, rotor: `Practice rotor ${number}` },
    },
    {
      step: 'duty',
      at: 'job',
      shows: {
        top_speed: `${rpm} rpm`,
        run_temp: `${Math.round(random.between(54, 62))} C`,
        ambient: `${room} C`,
        coldest_start: `${Math.round(random.between(-5, 10))} C`,
      },
    },
    { step: 'size', at: 'a', says: 'Stamped into the ring.', shows: { bearing_size: body.size } },
    {
      step: 'make',
      at: 'a',
      shows: { hybrid_claim: 'hybrid', open_limit: `${Math.round((15_000 * k) / 100) * 100} rpm`, cage: 'pa66' },
    },
    {
      step: 'count-open',
      at: 'a',
      says: 'You count round to the pen mark twice.',
      shows: { balls_seen: String(body.balls) },
    },
    {
      step: 'residue-amount',
      at: 'a',
      shows: { residue_by: 'block', residue_block: `${half(11)}x${half(10)}x${half(5)} mm` },
    },
    {
      step: 'balls-count',
      at: 'a',
      shows: { balls: String(body.balls), ball_by: 'measured', ball_size: `${body.ball} mm` },
    },
    {
      step: 'syringe',
      at: 'job',
      shows: { syringe_by: 'calliper', syringe_bore_calliper: `${bore} mm`, syringe_holds: '5 mL', loss: '0.2 mL' },
    },
    { step: 'gap-fill', at: 'a', shows: { weigh_before: '12.60 g', gaps: String(body.balls) } },
    { step: 'run-in-plan', at: 'job', shows: { room_run_in: `${room} C` } },
  ];
  // What a trap asks in ways of its own is the trap's.
  return all.flatMap((r) => {
    const shows = Object.fromEntries(Object.entries(r.shows ?? {}).filter(([key]) => !taken.has(slotOf(r, key))));
    return Object.keys(shows).length ? [{ ...r, shows }] : [];
  });
}
