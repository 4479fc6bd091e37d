/** `rotorside history [ROTOR]`: jobs and looks of one rotor in order, and what moved at each bearing. */
import { openLibrary } from '../library/open-library.js';
import { marksOf, practiceNote } from '../life/due.js';
import { coursesOf, historyOf } from '../life/history.js';
import { rotorKey } from '../life/life-mark.js';
import { showProblem } from '../procedure/problem.js';
import { lifePages } from '../sheet/life-pages.js';
import { defaultDataFolder, openStore } from '../store/open-store.js';
import { safeText } from '../text/safe-text.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { finishedJobs } from './rotor-life.js';

export async function history(o: Options): Promise<Ended> {
  const folder = o.data ?? defaultDataFolder();
  const store = openStore(folder);
  const listed = store.list();
  if (!listed.ok) return { err: listed.trouble.sentence, code: 1 };
  const rotors = [...new Map(marksOf(listed.value).map((m) => [rotorKey(m.rotor), m.rotor])).values()];
  const named = o.rest[0];
  const rotor = named === undefined ? (rotors.length === 1 ? rotors[0] : undefined) : named;
  if (rotor === undefined || !rotors.some((r) => rotorKey(r) === rotorKey(rotor))) {
    if (rotors.length === 0) return { err: `No rotor has a finished job yet.${practiceNote(listed.value)}`, code: 1 };
    const names = rotors.slice(0, 20).map((r) => `  ${safeText(r, { max: 60 })}`);
    const why =
      named === undefined
        ? 'Name one of these rotors'
        : `There is no rotor “${safeText(named, { max: 60 })}”; name one of`;
    return { err: `${why}:\n${names.join('\n')}`, code: named === undefined ? 2 : 1 };
  }
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: showProblem(problems[0]), code: 2 };
  const jobs = await finishedJobs(store, library, folder, rotor);
  if (typeof jobs === 'string') return { err: jobs, code: 1 };
  const events = historyOf(jobs);
  if (o.json)
    return { out: JSON.stringify({ history: 1, rotor, events, courses: coursesOf(events) }, undefined, 2), code: 0 };
  const ascii = !/utf-?8/i.test(process.env.LC_ALL || process.env.LC_CTYPE || process.env.LANG || '');
  const lines = lifePages(rotor, events).flatMap((p) => p.lines(78, ascii));
  return {
    out: lines
      .map((l) =>
        l
          .map((s) => s.text)
          .join('')
          .trimEnd(),
      )
      .join('\n')
      .trimEnd(),
    code: 0,
  };
}
