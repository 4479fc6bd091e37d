/** The whole sheet as sections, in the order in which they are read. */
import { safeText } from '../text/safe-text.js';
import { frontSections } from './part-front.js';
import { recordSections } from './part-record.js';
import { workSections } from './part-work.js';
import { type Section, section } from './section.js';
import type { Sheet } from './sheet-data.js';
import { tagOf } from './tag.js';
import { clock, type SheetOptions } from './when.js';
import { practiceWords, type Show } from './words.js';

export interface Told {
  /** Words over a sheet that is no record of real work. */
  readonly practice?: { readonly big: string; readonly small: string };
  readonly title: string;
  /** Stands on each printed page. */
  readonly mark: string;
  readonly verdict: string;
  readonly sections: readonly Section[];
}

/** Longest name of a job at the foot of a page. */
const MARK_MOST = 60;

function markOf({ head }: Sheet, show: Show): string {
  const name = safeText(head.number ?? head.job, { max: MARK_MOST });
  return [`Job ${name}`, ...(head.issued ? [`issued ${show(head.issued)}`] : [])].join(', ');
}

export function told(sheet: Sheet, options: SheetOptions = {}): Told {
  const { show, zone } = clock(options.zone);
  const practice = practiceWords(sheet.head);
  const tag = tagOf(sheet, show);
  const all = [
    ...frontSections(sheet, show, zone),
    ...workSections(sheet, show),
    ...(sheet.strip ? section('cut', 'strip', sheet.strip.title, [{ is: 'strip', strip: sheet.strip }]) : []),
    ...(tag ? section('cut', 'tag', tag.title, [{ is: 'tag', tag }]) : []),
    ...(options.appendix === false ? [] : recordSections(sheet, show)),
  ];
  return {
    ...(practice ? { practice } : {}),
    title: `Job sheet: ${sheet.head.job}`,
    mark: markOf(sheet, show),
    verdict: sheet.verdict,
    sections: all,
  };
}
