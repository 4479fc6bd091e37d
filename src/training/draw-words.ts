/** Of words that a rotor's file gives several of, one is drawn: two rotors show the same and do not sound alike. Pure. */
import type { Random } from '../simulator/random.js';
import type { Phrasing, Rotor, RotorReading, Way } from './rotor-file.js';

/** What is said where none was drawn: the first. */
export const firstOf = (said: Phrasing | undefined): string | undefined => (Array.isArray(said) ? said[0] : said);

type Several = Readonly<Record<string, Phrasing>>;

export function wordsDrawn(random: Random, rotor: Rotor): Rotor {
  const one = (said: Phrasing): string =>
    Array.isArray(said) ? (said[Math.floor(random.between(0, said.length))] ?? '') : said;
  const each = (of: Several): Record<string, string> =>
    Object.fromEntries(Object.entries(of).map(([key, said]) => [key, one(said)]));
  const spoken = <T extends { readonly says?: Phrasing }>(of: T): T =>
    of.says === undefined ? of : { ...of, says: one(of.says) };
  const way = (w: Way): Way => ({ ...spoken(w), ...(w.sees === undefined ? {} : { sees: one(w.sees) }) });
  const reading = (r: RotorReading): RotorReading => ({
    ...spoken(r),
    ...(r.sees ? { sees: each(r.sees) } : {}),
    ...(r.ways ? { ways: r.ways.map(way) } : {}),
  });
  const looks = Object.fromEntries(Object.entries(rotor.looks ?? {}).map(([key, of]) => [key, each(of)]));
  return { ...rotor, readings: rotor.readings.map(reading), looks };
}
