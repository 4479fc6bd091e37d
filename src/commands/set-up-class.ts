/** `rotorside practice … --by AA,BB,CC`: a practice job for each of a class, to be gone on with by initials. */
import { initialsSentence, sameInitials, tidyInitials } from '../engine/journal/initials.js';
import { State } from '../engine/state/state.js';
import { keep } from '../library/kept.js';
import type { Library } from '../library/library.js';
import { defaultDataFolder, openStore } from '../store/open-store.js';
import { debriefOf } from '../training/debrief.js';
import { beforeLines, type DebriefLine } from '../training/debrief-lines.js';
import type { Rotor } from '../training/rotor-file.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { beginLate } from './fill-practice.js';
import { modelToday } from './job-basis.js';
import { PracticeClock } from './practice-clock.js';
import { rotorFor } from './practice-rotors.js';

/** Initials as they were typed, of one or of many. */
export const peopleIn = (by: string): string[] => by.split(',').map((one) => one.trim());

/** What is wrong with such a list; undefined where nothing is. */
export function wrongPeople(by: string): string | undefined {
  const people = peopleIn(by);
  if (people.some((p) => tidyInitials(p) === undefined)) return `--by: ${initialsSentence}`;
  const twice = people.find((p, i) => people.slice(0, i).some((other) => sameInitials(other, p)));
  return twice === undefined ? undefined : `--by: ${twice} stands there twice; give each person other initials.`;
}

export async function setUpClass(o: Options, library: Library, rotor: Rotor): Promise<Ended> {
  const folder = o.data ?? defaultDataFolder();
  let clock = new PracticeClock();
  const store = openStore(folder, { clock: () => new Date(clock.now()) });
  const found = library.procedures.get(rotor.procedure);
  if (!found) return { err: 'The procedure of this practice rotor is not here.', code: 2 };
  const { procedure, hash, shop } = found;
  keep(folder, hash, { procedure, tables: library.tables, shop });
  const from = o.from === 'start' ? undefined : o.from;
  const troubles: string[] = [];
  const made: string[] = [];
  let unmet: DebriefLine[] = [];
  for (const typed of peopleIn(o.by ?? '')) {
    // What the bench does for one lets time pass for that one alone.
    clock = new PracticeClock();
    const by = tidyInitials(typed) ?? typed;
    const first = {
      kind: 'job' as const,
      name: rotor.title,
      by,
      procedure: procedure.procedure,
      version: procedure.version,
      hash,
      practice: rotor.rotor,
      apprentice: by,
      ...(o.mentor === undefined ? {} : { mentor: tidyInitials(o.mentor) ?? o.mentor }),
      ...(o.mentor !== undefined && o.lessons === 'at-once' ? { lessons: 'at-once' as const } : {}),
      ...(from === undefined ? {} : { from }),
    };
    const summary = { by, touched: new Date(clock.now()).toISOString() };
    const opened = await beginLate(store, library, first, summary, clock);
    if (!opened.ok) return { err: [...troubles, opened.trouble.sentence].join('\n'), code: 1 };
    const job = opened.value;
    if (opened.notice) troubles.push(`${by}: ${opened.notice}`);
    const model = modelToday(library, procedure.procedure);
    if (from !== undefined)
      unmet = beforeLines(debriefOf(new State(model, job.entries, clock.now()), rotorFor(library, rotor.rotor, model)));
    await job.close();
    made.push(`  ${by.padEnd(8)}  rotorside resume ${by}`);
  }
  const out = [
    `${rotor.title} is set up for ${made.length}. Each begins with:`,
    ...made,
    ...unmet.map((l) => l.text),
    '',
    'How they stand: rotorside debrief --all',
  ];
  return { out: out.join('\n'), err: troubles.join('\n') || undefined, code: 0 };
}
