/** A tag to hang on the machine: the few facts that nobody may have to look up, and the same as plain text for a QR code. */
import type { DueLook, Sheet } from './sheet-data.js';
import { practiceWords, type Show, saidThere } from './words.js';

export interface Tag {
  readonly title: string;
  readonly lines: readonly { readonly label: string; readonly text: string }[];
  /** All of it as plain text; what the QR code says. */
  readonly plain: string;
}

/** A QR code with more letters than this gets too fine for a card (ISO/IEC 18004 holds more). */
const PLAIN_MOST = 420;
/** A longer value is no value for a tag. */
const LINE_MOST = 90;

const brief = (text: string): string => (text.length > LINE_MOST ? `${text.slice(0, LINE_MOST - 1)}…` : text);

/** Signs that not every reader of codes knows, in letters that each does. */
const plainly = (text: string): string =>
  text
    .replace(/[\u00a0\u202f]/g, ' ')
    .replace(/ ?± ?/g, ' +-')
    .replace(/°/g, '')
    .replace(/[µμ]/g, 'u')
    .replace(/[−–—]/g, '-')
    .replace(/…/g, '...')
    .replace(/[“”]/g, '"')
    .replace(/[‘’]/g, "'");

/** Undefined where the procedure names nothing for a tag, or nothing of it is known yet. */
export function tagOf(sheet: Sheet, show: Show): Tag | undefined {
  const { front, head } = sheet;
  if (!front.tag.length && !front.barred.length) return undefined;
  const day = (at: string): string => show(at).split(',')[0] ?? at;
  const { due } = front;
  const looks = (l: DueLook, inAll = ''): string =>
    `${l.hours} h of running${inAll}, ${l.dates.map((d) => `${day(d.at)} at ${d.aDay} h a day`).join(', ')}`;
  const practice = practiceWords(head);
  const lines = [
    ...(practice ? [{ label: practice.big, text: 'invented readings, not for a machine' }] : []),
    ...(front.barred.length ? [{ label: 'DO NOT RUN', text: brief(front.barred.map(saidThere).join(' ')) }] : []),
    ...(head.finished ? [] : [{ label: 'NOT FINISHED', text: `${head.done} of ${head.total} steps done` }]),
    ...front.tag.map((r) => ({ label: r.where ? `${r.heading}, ${r.where}` : r.heading, text: brief(r.text) })),
    ...(head.lastEntry
      ? [
          {
            label: head.finished ? 'Done' : 'Last worked on',
            text: `${day(head.lastEntry)}, ${head.people.map((p) => p.initials).join(', ')}`,
          },
        ]
      : []),
    ...(due?.first ? [{ label: 'Next look', text: looks(due.first) }] : []),
    ...(due ? [{ label: due.first ? 'Then' : 'Next look', text: looks(due, due.first ? ' in all' : '') }] : []),
    { label: 'Job', text: brief(head.number ?? head.job) },
  ];
  const plain = lines.map((l) => plainly(`${l.label}: ${l.text}`)).join('\n');
  return {
    title: 'Tag for the machine',
    lines,
    plain: plain.length > PLAIN_MOST ? `${plain.slice(0, PLAIN_MOST - 3)}...` : plain,
  };
}
