/** `rotorside sheet JOB`: the job sheet of a stored job. */
import { State } from '../engine/state/state.js';
import { openLibrary } from '../library/open-library.js';
import { showProblem } from '../procedure/problem.js';
import { sheetOf } from '../sheet/sheet.js';
import { recordSum } from '../store/job-file.js';
import { defaultDataFolder, openStore } from '../store/open-store.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { entriesFrom, findJob } from './find-job.js';
import { basisOfJob } from './job-basis.js';
import { timeOf } from './practice-clock.js';
import { formatOf, sheetOutput } from './sheet-output.js';

export async function sheet(o: Options): Promise<Ended> {
  const format = formatOf(o);
  if (typeof format !== 'string') return format;
  const folder = o.data ?? defaultDataFolder();
  const store = openStore(folder);
  const id = findJob(store, o.rest[0], 'real');
  if (typeof id !== 'string') return id;
  const opened = await store.open(id, { readOnly: true });
  if (!opened.ok) return { err: opened.trouble.sentence, code: 1 };
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: showProblem(problems[0]), code: 2 };
  const found = await basisOfJob(library, folder, opened.value.entries, entriesFrom(store));
  if (typeof found === 'string') return { err: found, code: 1 };
  const state = new State(found.model, opened.value.entries, timeOf(opened.value.entries), { earlier: found.earlier });
  const photos = state.entries.some((e) => e.kind === 'picture') ? await import('../store/pictures.js') : undefined;
  const made = sheetOf(state, {
    number: id,
    issued: new Date().toISOString(),
    check: recordSum(state.entries),
    ...(photos ? { picture: (file: string) => photos.shownPicture(folder, id, file) } : {}),
  });
  return sheetOutput(made, format, o, Intl.DateTimeFormat().resolvedOptions().timeZone);
}
