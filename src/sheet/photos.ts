/** Pictures that people took, in the order of the places; two of one thing stand beside each other. Pure. */
import { entriesOf, type State } from '../engine/state/state.js';
import { stepOfEntry } from './people.js';
import type { PhotoLine } from './sheet-data.js';

/** @param shown the small picture as a data URI, where there is one */
export function photosOf(state: State, shown: ((file: string) => string | undefined) | undefined): PhotoLine[] {
  const order = new Map(state.model.places.map((p, i) => [p.id, i]));
  const of = (p: PhotoLine): string => `${order.get(p.place) ?? 999}`.padStart(4, '0');
  const all = entriesOf(state, 'picture').map((e): PhotoLine => {
    const src = shown?.(e.file);
    return {
      ...stepOfEntry(state, e),
      ...{ at: e.at, by: e.by, file: e.file, sha256: e.sha256, bytes: e.bytes, name: e.name },
      ...(e.shows ? { shows: e.shows } : {}),
      ...(src ? { src } : {}),
    };
  });
  const first = new Map<string, number>();
  const thing = (p: PhotoLine): string => `${p.place}\n${(p.shows ?? p.title).toLowerCase()}`;
  all.forEach((p, i) => {
    if (!first.has(thing(p))) first.set(thing(p), i);
  });
  return all
    .map((p, i) => ({ p, i }))
    .sort(
      (a, b) =>
        of(a.p).localeCompare(of(b.p)) || (first.get(thing(a.p)) ?? 0) - (first.get(thing(b.p)) ?? 0) || a.i - b.i,
    )
    .map(({ p }) => p);
}
