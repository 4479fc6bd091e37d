/** `rotorside sources`: what is published, what is usual, and what is nobody's word. */
// @ts-nocheck

import { calculators } from '../calc/index.js';
import type { SourceTag } from '../calc/types.js';
import { openLibrary } from '../library/open-library.js';
import { showProblem } from '../procedure/problem.js';
import { sourcesOf, summaryLines, tagLines, tags } from '../review/sources.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';

export async function sources(o: Options): Promise<Ended> {
  if (o.rest.length > 0) return { err: 'sources takes no further words; type rotorside sources --tag CP.', code: 2 };
  const wanted = tags.find((t) => t.toLowerCase() === o.tag?.toLowerCase());
  if (o.tag !== undefined && !wanted)
    return { err: `There is no tag “${o.tag.slice(0, 20)}”; the tags are ${tags.join(', ')}.`, code: 2 };
  const { library, problems } = await openLibrary(o.procedures);
  if (problems.length) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const found = sourcesOf(
    Object.values(library.tables),
    Object.values(calculators),
    [...library.procedures.values()].map((p) => p.procedure),
  );
  const shown = found.filter((s) => (wanted === undefined ? s.count > 0 : s.tag === wanted));
  if (o.json) return { out: JSON.stringify(shown, null, 2), code: 0 };
  const parts = shown.map((s) => [heading(s.tag, s.count, s.means), '', ...tagLines(s)].join('\n'));
  return { out: wanted ? parts.join('\n') : [...summaryLines(found), '', ...parts].join('\n'), code: 0 };
}

const heading = (tag: SourceTag, count: number, means: string): string => `== ${tag}, ${count}: ${means}`;
