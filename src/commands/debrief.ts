/** `rotorside debrief JOB`, `rotorside debrief --all` and `rotorside progress [INITIALS]`: what practice showed, and how far a person has come. */
import { sameInitials } from '../engine/journal/initials.js';
import type { Library } from '../library/library.js';
import { openLibrary } from '../library/open-library.js';
import { showProblem } from '../procedure/problem.js';
import { defaultDataFolder, openStore, type Store } from '../store/open-store.js';
import { safeText } from '../text/safe-text.js';
import { type DebriefLine, debriefLines, linesText } from '../training/debrief-lines.js';
import { attemptsOf } from '../training/progress.js';
import { personOf, personPage, progressTable } from '../training/progress-table.js';
import type { Options } from './arguments.js';
import { debriefOfJob, noteProgress, withAgain } from './debrief-of-job.js';
import type { Ended } from './ended.js';
import { findJob } from './find-job.js';
import { kindsOf, offered, rotorById } from './practice-rotors.js';
import { written } from './sheet-output.js';

const formats = ['text', 'md', 'html', 'json'] as const;

/** `--all`: the class that practised last. */
export async function debrief(o: Options): Promise<Ended> {
  const format = formats.find((f) => f === (o.format ?? (o.json ? 'json' : 'text')));
  if (!format || (o.json && format !== 'json'))
    return { err: `There is no format “${safeText(o.format, { max: 40 })}”; choose text, md, html or json.`, code: 2 };
  if (o.all && o.rest.length) return { err: 'debrief --all tells of all; leave the name out.', code: 2 };
  const folder = o.data ?? defaultDataFolder();
  const store = openStore(folder);
  const id = o.all ? '' : findJob(store, o.rest[0], 'practice');
  if (typeof id !== 'string') return id;
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: problems.map(showProblem).join('\n'), code: 2 };
  if (o.all) {
    const made = await (await import('./class.js')).classIn(store, library, folder, Date.now());
    if (typeof made === 'string') return { err: made, code: 1 };
    const { troubles, ...whole } = made;
    const lines = (await import('../training/class-lines.js')).classLines(whole, 'mentor');
    return laidOut(
      { class: 1, ...whole },
      `Practice, ${made.day}, ${new Date().toTimeString().slice(0, 5)}`,
      lines,
      format,
      o.out,
      troubles.join('\n'),
    );
  }
  const listed = store.list();
  const head = listed.ok ? listed.value.find((j) => j.id === id) : undefined;
  const made = await debriefOfJob(store, library, folder, head ?? { id, summary: {} });
  if (typeof made === 'string') return { err: made, code: 1 };
  const trouble = await noteProgress(store, id, made);
  const whole = withAgain(store, library, made);
  return laidOut(whole, `Debrief: ${whole.job}`, debriefLines(whole), format, o.out, trouble);
}

async function laidOut(
  data: unknown,
  title: string,
  lines: readonly DebriefLine[],
  format: (typeof formats)[number],
  out: string | undefined,
  trouble = '',
): Promise<Ended> {
  const page = format === 'md' || format === 'html' ? await import('../training/debrief-page.js') : undefined;
  const text =
    format === 'json'
      ? JSON.stringify(data, undefined, 2)
      : format === 'html'
        ? page?.debriefHtml(title, lines)
        : format === 'md'
          ? page?.debriefMarkdown(title, lines)
          : linesText(lines);
  const ended = written(text ?? '', out);
  return { ...ended, err: [ended.err, trouble].filter(Boolean).join('\n') || undefined };
}

export async function progress(o: Options): Promise<Ended> {
  const folder = o.data ?? defaultDataFolder();
  const store = openStore(folder);
  const named = (o.rest[0] ?? '').trim();
  if (o.format !== undefined && (o.format !== 'html' || named !== '' || o.json))
    return { err: 'progress is printed as a page of all: rotorside progress --format html --out FILE.', code: 2 };
  if (o.out !== undefined && o.format === undefined)
    return { err: '--out needs --format html: rotorside progress --format html --out FILE.', code: 2 };
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const people = new Set<string>();
  const troubles = await catchUp(store, library, folder, people);
  const err = troubles.join('\n') || undefined;
  const kinds = kindsOf(library);
  if (named === '') {
    const all = people.size ? [...people].sort() : [(store.preferences().initials ?? '').trim()].filter(Boolean);
    const known = all.filter((p) => attemptsOf(store.progress(p)).length);
    if (!known.length)
      return {
        err: 'Nobody has practised here yet; start with rotorside practice, or name somebody: rotorside progress INITIALS.',
        code: 2,
      };
    const table = known.map((p) => personOf(p, store.progress(p), kinds));
    if (o.format === 'html') {
      const { progressHtml } = await import('../training/progress-html.js');
      const ended = written(progressHtml(table, new Date().toISOString().slice(0, 10)), o.out);
      return { ...ended, err: [ended.err, err].filter(Boolean).join('\n') || undefined };
    }
    if (o.json) return { out: JSON.stringify({ progress: 2, people: table }, undefined, 2), err, code: 0 };
    return { out: progressTable(table), err, code: 0 };
  }
  const own = personOf(named, store.progress(named), kinds);
  if (!own.rotors.length && people.size && ![...people].some((p) => sameInitials(p, named)))
    return {
      err: `Nobody with these initials has practised here. There are: ${[...people].sort().join(', ')}.`,
      code: 2,
    };
  if (o.json)
    return {
      out: JSON.stringify({ progress: 1, person: named, rotors: own.rotors, skills: own.skills }, undefined, 2),
      err,
      code: 0,
    };
  return { out: personPage(own, offered(library), (id) => rotorById(library, id)?.title ?? id), err, code: 0 };
}

/** Practice jobs whose debrief nobody has read yet count too. */
async function catchUp(store: Store, library: Library, folder: string, people: Set<string>): Promise<string[]> {
  const listed = store.list();
  if (!listed.ok) return [listed.trouble.sentence];
  const troubles: string[] = [];
  for (const job of listed.value) {
    if (job.practice === undefined || job.fault !== undefined || !rotorById(library, job.practice)) continue;
    const made = await debriefOfJob(store, library, folder, job);
    const trouble = typeof made === 'string' ? made : await noteProgress(store, job.id, made);
    if (typeof made !== 'string') people.add(made.apprentice);
    if (trouble) troubles.push(trouble);
  }
  return troubles;
}
