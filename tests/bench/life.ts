/** A shop's years: very many jobs of very many rotors, one of which has a life of whole jobs. */

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parse } from 'yaml';
import { calculators } from '../../src/calc/index.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { replay } from '../../src/engine/replay/replay.js';
import { type ReplayFile, replaySchema } from '../../src/engine/replay/replay-file.js';
import { tablesOf } from '../../src/library/library.js';
import { modelOf } from '../../src/procedure/model.js';
import { jobText, newContent, type Summary } from '../../src/store/job-file.js';
import { openStore } from '../../src/store/open-store.js';
import { DAY } from '../../src/units/kinds.js';
import { shipped } from './prepare.js';

/** Whole jobs of the one rotor whose history is asked for. */
const WHOLE = 7;
const BEGAN = Date.UTC(2022, 0, 3, 8);

function wholeJob(): { entries: readonly Entry[]; rotor: string; machine: string } {
  const { all, first } = shipped();
  const model = modelOf(first.procedure, first.hash, tablesOf(all.tables), calculators);
  const file = replaySchema.parse(
    parse(readFileSync('procedures/practice/college-30kw.replay.yaml', 'utf8')),
  ) as ReplayFile;
  const done = replay(model, { ...file, invented: false });
  if (!done.ok) throw new Error(done.message);
  const word = (key: string): string => {
    const v = done.state.values.get(key, 'job');
    return v.known ? String(v.value) : '';
  };
  return { entries: done.state.entries, rotor: word('rotor'), machine: word('machine') };
}

/** `n` finished jobs of `rotors` rotors, written in the store's own form; the index is built by the first listing. */
export function makeLife(
  folder: string,
  n: number,
  rotors: number,
): { readonly folder: string; readonly rotor: string } {
  mkdirSync(join(folder, 'jobs'), { recursive: true, mode: 0o700 });
  const { entries, rotor, machine } = wholeJob();
  for (let i = 0; i < n; i++) {
    const which = i % rotors;
    const at = new Date(BEGAN + i * 0.15 * DAY).toISOString();
    const due = new Date(BEGAN + i * 0.15 * DAY + 60 * DAY).toISOString().slice(0, 10);
    // The first rotor's jobs lie apart in time, as they do in a shop.
    const whole = i % Math.ceil(n / WHOLE) === 0;
    const name = `Job ${i}`;
    const summary: Summary = {
      finished: true,
      ...(whole ? { rotor, machine } : { rotor: `R ${which}`, machine: `Fan ${which}` }),
      ...{ did: 'Regreased in place', hours: 500, due },
    };
    const later = Date.parse(at) - Date.parse(entries[0]?.at ?? '');
    const moved = (e: Entry): Entry => ({ ...e, at: new Date(Date.parse(e.at) + later).toISOString() });
    const own = whole ? entries.map(moved) : [{ ...(entries[0] as Entry), name, at } as Entry];
    const id = `life-job-${String(i).padStart(8, '0')}`;
    writeFileSync(join(folder, 'jobs', `${id}.json`), jobText(newContent(id, name, own, summary)), { mode: 0o600 });
  }
  const listed = openStore(resolve(folder)).list();
  if (!listed.ok || listed.value.length !== n) throw new Error(`${n} jobs were made and are not listed`);
  return { folder, rotor };
}
