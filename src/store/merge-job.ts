/**
 * A job that comes back from another laptop: the same one is known by its first entry and not kept twice; what it has
 * gained elsewhere is added to it; where both have gone on, both are kept. Nothing that is here is ever taken away.
 */
import type { Entry } from '../engine/journal/entry.js';
import type { Places } from './data-folder.js';
import type { JobContent } from './job-file.js';
import { headsByWork } from './job-index.js';
import { lookUpJob } from './recover-job.js';

export type Kinship =
  /** No job here began with that entry. */
  | { readonly kind: 'new' }
  /** All of it is here already. */
  | { readonly kind: 'known'; readonly content: JobContent }
  /** The one that is here is a beginning of it. */
  | { readonly kind: 'longer'; readonly content: JobContent }
  /** They are the same up to that number of entries, then both went on. */
  | { readonly kind: 'parted'; readonly content: JobContent; readonly same: number };

/** How many entries two journals have in common from the beginning. */
function common(a: readonly Entry[], b: readonly Entry[]): number {
  const most = Math.min(a.length, b.length);
  for (let i = 0; i < most; i++) if (JSON.stringify(a[i]) !== JSON.stringify(b[i])) return i;
  return most;
}

/** Throws the system's error when the folder is there and can't be read. */
export function kinOf(places: Places, name: string, entries: readonly Entry[]): Kinship {
  const first = entries[0];
  const of = first?.kind === 'job' ? first : undefined;
  const near = headsByWork(places).filter(
    (h) => h.name === name && h.procedure === of?.procedure && h.practice === of?.practice,
  );
  let best: Kinship = { kind: 'new' };
  for (const { id } of near) {
    const found = lookUpJob(places, id);
    if (found.kind !== 'good') continue;
    const { content } = found;
    const same = common(content.entries, entries);
    if (same === entries.length) return { kind: 'known', content };
    if (same === content.entries.length) best = { kind: 'longer', content };
    else if (same > 0 && best.kind !== 'longer' && (best.kind === 'new' || best.same < same))
      best = { kind: 'parted', content, same };
  }
  return best;
}
