/** The body of a drawn rotor: one value is drawn for each name, and the readings are filled with them. Pure. */
import type { Random } from '../simulator/random.js';
import type { Draw, Phrasing, RotorReading, Typed } from './rotor-file.js';

type Body = Draw['bodies'][number];
type Range = NonNullable<Draw['numbers']>[string];
type Drawn = ReadonlyMap<string, string | number>;

/** On the steps of the range. `share` from 0 to 1. */
function within({ from, to, step }: Range, share: number): number {
  const places = Math.max(0, Math.ceil(-Math.log10(step)));
  return Number((Math.round((from + share * (to - from)) / step) * step).toFixed(places));
}

/** @param share drawn anew for each name, from 0 to 1 */
function drawnFrom(draw: Draw, body: Body, number: number, share: () => number): Drawn {
  const drawn = new Map<string, string | number>([['number', number]]);
  for (const [name, list] of Object.entries(draw.words ?? {}))
    drawn.set(name, list[Math.min(list.length - 1, Math.floor(share() * list.length))] ?? '');
  for (const [name, range] of Object.entries(draw.numbers ?? {})) drawn.set(name, within(range, share()));
  for (const [name, value] of Object.entries(body))
    drawn.set(name, typeof value === 'object' ? within(value, share()) : value);
  return drawn;
}

/** Names that stay unfilled stay as they are. */
function filled<T extends Typed | Phrasing>(typed: T, drawn: Drawn): T {
  const fill = (text: string): string => text.replace(/\{(\w+)\}/g, (all, name) => String(drawn.get(name) ?? all));
  return (typeof typed === 'string' ? fill(typed) : Array.isArray(typed) ? typed.map(fill) : typed) as T;
}
const each = <T extends Typed | Phrasing>(
  of: Readonly<Record<string, T>> | undefined,
  drawn: Drawn,
): Record<string, T> => Object.fromEntries(Object.entries(of ?? {}).map(([key, t]) => [key, filled(t, drawn)]));

/** Sets that go together come first, then what every drawn rotor has. */
export function fillDrawn(random: Random, draw: Draw, body: Body, number: number): RotorReading[] {
  const drawn = drawnFrom(draw, body, number, () => random.between(0, 1));
  const sets = (draw.one_of ?? []).flatMap((list) => list[Math.floor(random.between(0, list.length))] ?? []);
  return [...sets, ...draw.readings].map((r) => ({
    ...r,
    ...(r.says === undefined ? {} : { says: filled(r.says, drawn) }),
    ...(r.shows ? { shows: each(r.shows, drawn) } : {}),
    ...(r.sees ? { sees: each(r.sees, drawn) } : {}),
    ...(r.works_out ? { works_out: each(r.works_out, drawn) } : {}),
  }));
}

const ends = new WeakMap<Draw, readonly Drawn[]>();
function endsOf(draw: Draw): readonly Drawn[] {
  const made =
    ends.get(draw) ?? draw.bodies.flatMap((body) => [0, 1].map((share) => drawnFrom(draw, body, 1, () => share)));
  ends.set(draw, made);
  return made;
}
/** The same with the least, then with the most of each range, for each body. */
export const filledAtEnds = (draw: Draw, typed: Typed): Typed[] => endsOf(draw).map((drawn) => filled(typed, drawn));

export const namesDrawn = (draw: Draw): ReadonlySet<string> =>
  new Set([...drawnFrom(draw, Object.assign({}, ...draw.bodies), 1, () => 0).keys()]);
