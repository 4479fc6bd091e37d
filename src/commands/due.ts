/** `rotorside due`: which rotor has to be looked at, and when. Read from the list of jobs; no job is opened. */
import { writeNewFile } from '../files/new-file.js';
import { type Due, dueHeadings, dueList, dueWords, marksOf, practiceNote, today } from '../life/due.js';
import { defaultDataFolder, openStore } from '../store/open-store.js';
import { safeText } from '../text/safe-text.js';
import type { Options } from './arguments.js';
import { type Ended, notWritten } from './ended.js';

const formats = ['text', 'json', 'ics'] as const;

function dueText(list: readonly Due[], note: string): string {
  if (list.length === 0) return `No rotor has a next look yet; a finished job gives it one.${note}`;
  const lines: string[] = [];
  let under: Due['when'] | undefined;
  for (const d of list) {
    if (d.when !== under) lines.push(...(under === undefined ? [] : ['']), dueHeadings[d.when]);
    under = d.when;
    lines.push(`  ${safeText(dueWords(d), { max: 300 })}`);
  }
  return lines.join('\n');
}

export async function due(o: Options): Promise<Ended> {
  const format = formats.find((f) => f === (o.format ?? (o.json ? 'json' : 'text')));
  if (!format) return { err: `There is no format “${o.format}”; choose text, json or ics.`, code: 2 };
  const listed = openStore(o.data ?? defaultDataFolder()).list();
  if (!listed.ok) return { err: listed.trouble.sentence, code: 1 };
  const list = dueList(marksOf(listed.value), today(Date.now()));
  const text =
    format === 'json'
      ? JSON.stringify({ due: 1, today: today(Date.now()), rotors: list }, undefined, 2)
      : format === 'ics'
        ? (await import('../life/calendar.js')).calendarOf(list, Date.now())
        : dueText(list, practiceNote(listed.value));
  if (o.out === undefined || o.out === '-') return { out: text, code: 0 };
  try {
    writeNewFile(o.out, text);
    const empty = format === 'ics' && !list.some((d) => d.due !== undefined);
    return {
      out: `Written to ${safeText(o.out)}${empty ? '; no rotor has a look with a date, so no day is in it' : ''}.`,
      code: 0,
    };
  } catch (e) {
    return { err: notWritten(o.out, e, 'The list'), code: 1 };
  }
}
