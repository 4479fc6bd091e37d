/**
 * A practice rotor drawn by chance: the same for the same number. Its body (size, speed, temperatures) is drawn as the
 * plain rotor of the catalogue says, one to three traps are lent by the others, and traps that are not set lend their
 * questions of how to go about it with one true answer, so that no step looks different because a trap stands there. Pure.
 */
import { type Random, randomOf } from '../simulator/random.js';
import { wordsDrawn } from './draw-words.js';
import { fillDrawn } from './fill-drawn.js';
import { joinPlans, onlyOwn } from './plan.js';
import { keysOfReading } from './practice-rotor.js';
import type { Draw, Rotor, RotorReading, RunIn, Typed, Way } from './rotor-file.js';

const MARK = 'any-';
/** Traps of one rotor at most, and questions of how to go about it where nothing is wrong. */
const MOST_TRAPS = 3;
const HARMLESS = 6;
/** Words are drawn by themselves, so that more of them move nothing else. */
const WORDS = 0x5eed;
export const anyId = (number: number): string => `${MARK}${number}`;
/** The number of a drawn rotor, from its id. */
export function anyNumber(id: string): number | undefined {
  const n = /^any-([1-9]\d{0,8})$/.exec(id)?.[1];
  return n === undefined ? undefined : Number(n);
}

const pick = <T>(random: Random, list: readonly T[]): T =>
  list[Math.min(list.length - 1, Math.floor(random.between(0, list.length)))]!;
function shuffled<T>(random: Random, list: readonly T[]): T[] {
  return list
    .map((item) => ({ item, at: random.between(0, 1) }))
    .sort((a, b) => a.at - b.at)
    .map(({ item }) => item);
}
const slotOf = (r: RotorReading, key: string): string => `${r.at}:${key}`;

/** What a rotor of the catalogue adds to the plain one. */
interface Lent {
  readonly rotor: Rotor;
  readonly readings: readonly RotorReading[];
  readonly slots: ReadonlySet<string>;
}
type Plain = Rotor & { readonly draw: Draw };

/** What each rotor has of its own comes before what it takes over. */
function lentBy(rotor: Rotor, plain: Plain): Lent {
  const own =
    rotor === plain
      ? rotor.readings.filter((r) => r.ways)
      : rotor.readings.slice(0, rotor.readings.length - plain.readings.length);
  // What is drawn for each rotor anew is no trap.
  const readings = own.filter((r) => !plain.draw.own?.includes(r.step));
  return { rotor, readings, slots: new Set(readings.flatMap((r) => keysOfReading(r).map((k) => slotOf(r, k)))) };
}

/** @returns undefined where the catalogue holds no rotor that others are drawn from */
export function drawnRotor(number: number, catalogue: Iterable<Rotor>): Rotor | undefined {
  const all = [...catalogue];
  const plain = all.find((r): r is Plain => r.draw !== undefined);
  if (!plain) return undefined;
  const random = randomOf(number);
  const lenders = all
    .filter((r) => r === plain || r.like === plain.rotor)
    .sort((a, b) => (a.rotor < b.rotor ? -1 : 1))
    .map((r) => lentBy(r, plain));
  const { set, taken } = traps(random, lenders);
  const bodies = plain.draw.bodies;
  const only = set.find((l) => l.rotor.only_size)?.rotor.only_size;
  const body = (only === undefined ? undefined : bodies.find((b) => b.size === only)) ?? pick(random, bodies);
  const own = untaken(fillDrawn(random, plain.draw, body, number), taken);
  const plainly = [...own, ...plain.readings];
  const harmless = shuffled(random, lenders)
    .flatMap((l) => (set.includes(l) ? [] : harmlessOf(l, plainly, taken)))
    .slice(0, HARMLESS);
  const skills = [...new Set(set.flatMap((l) => l.rotor.traps.map((t) => t.skill ?? t.id)))];
  const logs = set.flatMap((l) => l.rotor.logs ?? []);
  const runIn = runInOf(random, plain, set);
  const rotor: Rotor = {
    rotor: anyId(number),
    title: `Rotor number ${number}`,
    invented: true,
    teaches: `Drawn by chance: ${skills.join(', ')}.`,
    story: pick(random, plain.draw.stories),
    procedure: plain.procedure,
    readings: [
      ...[...set.flatMap((l) => l.readings), ...harmless.map((h) => h.reading)].map((r) =>
        r.ways ? { ...r, ways: shuffled(random, r.ways) } : r,
      ),
      ...own,
      ...plain.readings.filter((r) => !r.ways),
    ],
    looks: Object.assign({}, plain.looks, ...set.map((l) => l.rotor.looks)),
    ...(logs.length ? { logs } : {}),
    ...(runIn ? { run_in: runIn } : {}),
    traps: set.flatMap((l) => l.rotor.traps),
    elsewhere: elsewhereOf(harmless),
    careful: joinPlans([
      { answers: plain.careful?.answers, gates: plain.careful?.gates },
      { ways: carefulWays(harmless) },
      ...set.map(({ rotor }) =>
        rotor === plain ? { ...plain.careful, answers: {} } : onlyOwn(rotor.careful, plain.careful),
      ),
    ]),
    careless: joinPlans(set.map((l) => l.rotor.careless)),
  };
  return wordsDrawn(randomOf(number ^ WORDS), rotor);
}

function traps(random: Random, lenders: readonly Lent[]): { set: readonly Lent[]; taken: Set<string> } {
  const many = 1 + Math.floor(random.between(0, MOST_TRAPS));
  const set: Lent[] = [];
  const taken = new Set<string>();
  for (const l of shuffled(random, lenders)) {
    if (set.length >= many || set.some((x) => x.rotor.ends_job)) break;
    if (l.rotor.ends_job && set.length) continue;
    if ([...l.slots].some((s) => taken.has(s))) continue;
    set.push(l);
    for (const s of l.slots) taken.add(s);
  }
  return { set, taken };
}

/** What a trap asks in ways of its own is the trap's. */
function untaken(readings: readonly RotorReading[], taken: ReadonlySet<string>): RotorReading[] {
  const left = <T>(r: RotorReading, of: Readonly<Record<string, T>> = {}): Record<string, T> =>
    Object.fromEntries(Object.entries(of).filter(([key]) => !taken.has(slotOf(r, key))));
  return readings.flatMap((r) => {
    if (!keysOfReading(r).some((key) => !taken.has(slotOf(r, key)))) return [];
    return [
      {
        ...r,
        ...(r.shows ? { shows: left(r, r.shows) } : {}),
        ...(r.works_out ? { works_out: left(r, r.works_out) } : {}),
      },
    ];
  });
}

function runInOf(random: Random, plain: Rotor, set: readonly Lent[]): RunIn | undefined {
  if (!plain.run_in) return undefined;
  const lent = set.flatMap((l) => (l.rotor === plain ? [] : (l.rotor.run_in ?? [])));
  const lump = lent.find((r) => r.lump_at !== undefined);
  const worse = lent.flatMap((r) => r.worse ?? []);
  return {
    ...plain.run_in,
    // A lump is drawn as its trap needs it.
    rise: lump?.rise ?? Math.round(random.between(12, 20)),
    ...(lump ? { minutes: lump.minutes, lump: lump.lump, lump_at: lump.lump_at } : {}),
    ...(worse.length ? { worse } : {}),
  };
}

/**
 * A rotor of the catalogue with questions of how to go about it where nothing is wrong, and the ways of its own in no
 * order that tells: the same each time.
 */
export function dressed(rotor: Rotor, catalogue: Iterable<Rotor>): Rotor {
  const all = [...catalogue];
  const plain = all.find((r): r is Plain => r.draw !== undefined);
  if (!plain || (rotor !== plain && rotor.like !== plain.rotor)) return rotor;
  const random = randomOf([...rotor.rotor].reduce((n, c) => 31 * n + c.charCodeAt(0), 7));
  const decided = rotor.readings.filter((r) => r.ways || r.when !== undefined);
  const taken = new Set(decided.flatMap((r) => keysOfReading(r).map((k) => slotOf(r, k))));
  const harmless = shuffled(random, all)
    .filter((r) => r !== rotor && (r === plain || r.like === plain.rotor))
    .flatMap((r) => harmlessOf(lentBy(r, plain), rotor.readings, taken))
    .slice(0, HARMLESS);
  return wordsDrawn(random, {
    ...rotor,
    readings: [...harmless.map((h) => h.reading), ...rotor.readings].map((r) =>
      r.ways ? { ...r, ways: shuffled(random, r.ways) } : r,
    ),
    elsewhere: elsewhereOf(harmless),
    careful: joinPlans([
      plain.careful,
      { ways: carefulWays(harmless) },
      rotor === plain ? plain.careful : onlyOwn(rotor.careful, plain.careful),
    ]),
  });
}

/** A question of how to go about it that a trap lends where it does not stand. */
interface Harmless {
  readonly from: Lent;
  readonly reading: RotorReading;
}
const harmlessOf = (from: Lent, plainly: readonly RotorReading[], taken: Set<string>): Harmless[] =>
  from.readings.flatMap((r) => asHarmless(r, plainly, taken).map((reading) => ({ from, reading })));

/** Traps that careless ways of these questions belong to. */
const elsewhereOf = (all: readonly Harmless[]): Rotor['traps'] => {
  const ids = new Set(all.flatMap((h) => h.reading.ways?.map((w) => w.careless) ?? []));
  return [...new Set(all.flatMap((h) => h.from.rotor.traps))].filter((t) => ids.has(t.id));
};

/** How somebody careful goes about them. */
const carefulWays = (all: readonly Harmless[]): Record<string, string[]> =>
  Object.fromEntries(
    all.flatMap(({ reading: { key, ways } }) => {
      const careful = ways?.filter((w) => w.careless === undefined).map((w) => w.way) ?? [];
      return key !== undefined && careful.length ? [[key, careful.slice(0, 1)]] : [];
    }),
  );

/** The same question of how to go about it where nothing is wrong: each way shows what is so. */
function asHarmless(r: RotorReading, plainly: readonly RotorReading[], taken: Set<string>): RotorReading[] {
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
      ways: r.ways.map(
        ({ way, label, careless, unless, harmless }): Way => ({
          way,
          label,
          shows,
          ...(harmless ?? (sees === undefined ? {} : { sees })),
          ...(careless === undefined ? {} : { careless }),
          ...(unless === undefined ? {} : { unless }),
        }),
      ),
    },
  ];
}
