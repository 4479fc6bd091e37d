/** `rotorside table`: all jobs of the folder as one table, a row for each bearing. */
import { State } from '../engine/state/state.js';
import { openLibrary } from '../library/open-library.js';
import { showProblem } from '../procedure/problem.js';
import { columnMeanings, columnsCsv, type JobTableRow, tableRows, toCsv, toNdjson } from '../sheet/job-table.js';
import { defaultDataFolder, openStore } from '../store/open-store.js';
import { safeText } from '../text/safe-text.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { entriesFrom } from './find-job.js';
import { basisOfJob } from './job-basis.js';
import { timeOf } from './practice-clock.js';
import { written } from './sheet-output.js';

export async function tableCommand(o: Options): Promise<Ended> {
  const format = o.format ?? 'csv';
  if (!['csv', 'ndjson', 'columns'].includes(format))
    return {
      err: `There is no format “${safeText(format, { max: 40 })}” of a table; choose csv, ndjson or columns.`,
      code: 2,
    };
  if (o.rest.length > 0)
    return { err: 'table takes no job: it holds them all; type rotorside table --format csv.', code: 2 };
  const folder = o.data ?? defaultDataFolder();
  const store = openStore(folder);
  const listed = store.list();
  if (!listed.ok) return { err: listed.trouble.sentence, code: 1 };
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: showProblem(problems[0]), code: 2 };
  const rows: JobTableRow[] = [];
  const meanings = new Map<string, string>();
  const left: string[] = [];
  for (const job of listed.value) {
    const opened = await store.open(job.id, { readOnly: true });
    const found = opened.ok
      ? await basisOfJob(library, folder, opened.value.entries, entriesFrom(store))
      : opened.trouble.sentence;
    if (!opened.ok || typeof found === 'string') {
      left.push(`${job.id} is left out: ${typeof found === 'string' ? found : ''}`);
      continue;
    }
    const { entries } = opened.value;
    const state = new State(found.model, entries, timeOf(entries), { earlier: found.earlier });
    rows.push(...tableRows(state, job.id));
    for (const [column, holds] of columnMeanings(state)) meanings.set(column, holds);
  }
  const text = format === 'columns' ? columnsCsv(meanings) : format === 'csv' ? toCsv(rows) : toNdjson(rows);
  const ended = written(text, o.out);
  return {
    ...ended,
    err: [ended.err, ...left].filter(Boolean).join('\n') || undefined,
    code: left.length ? 1 : ended.code,
  };
}
