/** The first page: what the next owner asks before anything else. */
import { figureTables } from './figure-tables.js';
import {
  type Cell,
  type Column,
  figureCell,
  type Section,
  type SheetBlock,
  type SheetPart,
  section,
  tableBlock,
} from './section.js';
import type { Due, DueLook, SaidRow, Sheet } from './sheet-data.js';
import { withTimes } from './when.js';
import {
  dayOf,
  figureText,
  handsWords,
  headings,
  peopleText,
  placeName,
  procedureText,
  type Show,
  saidThere,
  whoWhen,
} from './words.js';

/** Who worked; with whom, where somebody vouched or decided and recorded nothing. */
function byWhom(h: Sheet['head']): string {
  const worked = peopleText(h, (p) => p.entries > 0);
  const others = peopleText(h, (p) => p.entries === 0);
  return worked && others ? `${worked}, with ${others}, who vouches in ink below` : worked || others;
}

function facts(sheet: Sheet, show: Show, zone: string): readonly SheetBlock[] {
  const h = sheet.head;
  const said = (text: string): Cell => ({ text, as: 'value' });
  const last = h.lastEntry ? show(h.lastEntry) : 'none';
  const rows: (readonly Cell[])[] = [
    ...sheet.front.known.map((f) => [f.where ? `${f.label}, ${f.where}` : f.label, figureCell(f, figureText(f))]),
    ...(h.number ? [['Job number', said(h.number)]] : []),
    ...(h.customer ? [['For', said(h.customer)]] : []),
    ...(h.issuer ? [['Shop', said(h.issuer)]] : []),
    ['By', said(byWhom(h))],
    ['Work', said(`${h.started ? show(h.started) : 'not begun'} to ${last}, times in ${zone}`)],
    ...(h.unfit ? [['Mind', h.unfit]] : []),
    ...(h.earlier ? [['Follows the job', h.earlier]] : []),
    ...h.versions.map((v) => ['Earlier version used', `${v.version}, hash ${v.hash}, ${whoWhen(v, show)}`]),
  ];
  return tableBlock(
    [
      ['About', 18],
      ['This job', 82],
    ],
    rows,
  );
}

/** Lines for the whole job first, then those of each kind of place with its places side by side. */
function saidTables(rows: readonly SaidRow[]): readonly SheetBlock[] {
  const whole = rows.filter((r) => r.place === 'job');
  const there = rows.filter((r) => r.place !== 'job');
  const places = [...new Set(there.map((r) => r.where))];
  const names = [...new Set(there.map((r) => r.heading))];
  const cell = (text: string | undefined): Cell => (text === undefined ? '' : { text, as: 'value' });
  return [
    ...tableBlock(
      [
        ['What', 22],
        [placeName(''), 78],
      ],
      whole.map((r) => [r.heading, cell(r.text)]),
    ),
    ...tableBlock(
      [['What', 22], ...places.map((p): Column => [p, 78 / places.length])],
      names.map((name) => [
        name,
        ...places.map((p) => cell(there.find((r) => r.heading === name && r.where === p)?.text)),
      ]),
    ),
  ];
}

function dueRows(due: Due, hoursKey: SheetPart, show: Show): (readonly Cell[])[] {
  const day = (d: DueLook['dates'][number]): string =>
    `${dayOf(show, d.at)} ${d.aDay === 24 ? 'if it runs day and night' : `at ${d.aDay} h a day`}`;
  const days = (look: DueLook): readonly SheetPart[] => [
    { text: `${look.dates.map(day).join('; ')}${look.say ? '.' : ''}`, as: 'value' },
    ...(look.say ? [{ text: look.say }] : []),
  ];
  const { first } = due;
  return [
    ...(first ? [['Next', [{ text: `${first.hours} hours of running,`, as: 'value' as const }, ...days(first)]]] : []),
    [
      first ? 'Then' : 'Next',
      [{ ...hoursKey, text: `${hoursKey.text}${due.by ? `, set by ${due.by}` : ''},` }, ...days(due)],
    ],
    ...(due.why.length ? [['Because', due.why.map(saidThere).join(' ')]] : []),
  ];
}

function next(sheet: Sheet, show: Show): readonly SheetBlock[] {
  const { due } = sheet.front;
  if (!due) return figureTables(sheet.next);
  const [hours, ...rest] = [
    ...sheet.next.filter((f) => f.value === due.hours),
    ...sheet.next.filter((f) => f.value !== due.hours),
  ];
  return tableBlock(
    [
      ['Look', 18],
      ['When and why', 82],
    ],
    [
      ...dueRows(
        due,
        hours
          ? figureCell(hours, `${figureText(hours)} hours of running${due.first ? ' in all' : ''}`)
          : { text: `${due.hours} hours${due.first ? ' in all' : ''}`, as: 'value' },
        show,
      ),
      ...rest.map((f) => [f.where ? `${f.label}, ${f.where}` : f.label, figureCell(f, figureText(f))]),
    ],
  );
}

const lines = (all: Sheet['front']['watch']): readonly SheetBlock[] =>
  all.length
    ? [
        {
          is: 'list',
          items: all.map((l) => (l.where ? [{ text: `${l.where}:`, as: 'strong' }, { text: l.text }] : l.text)),
        },
      ]
    : [];

/** By what paper and file are known to belong together: beside the ink, and not before what the next owner needs. */
const recordOf = ({ head: h, entries }: Sheet, show: Show): string =>
  `Procedure: ${procedureText(h)}, its own check number ${h.hash}${h.check ? `. This record: ${entries} entries, check number ${h.check}` : ''}${h.issued ? `. Sheet issued ${dayOf(show, h.issued)}` : ''}.`;

export function frontSections(sheet: Sheet, show: Show, zone: string): readonly Section[] {
  const { front, head } = sheet;
  const add = (id: string, title: string, blocks: readonly SheetBlock[], alert?: true) =>
    section('front', id, title, blocks, alert ? { alert } : {});
  const { unusual } = front;
  const ink = [
    ...head.people.map((p) => `${p.name ?? p.initials}, ${p.role}`),
    'Taken over by',
    ...(front.due ? ['Hours on the meter, at the end'] : []),
  ];
  const elsewhere = sheet.signatures.some((s) => handsWords(s).includes('typed by'));
  const words = `${recordOf(sheet, show)}${elsewhere ? ` ${headings.inkVouches}` : ''}`;
  return [
    ...add('job', headings.job, facts(sheet, show, zone)),
    ...add('headline', headings.headline, front.rows.length ? saidTables(front.rows) : figureTables(sheet.headline)),
    ...(unusual.length
      ? add('unusual', headings.unusual, lines(unusual.map((l) => ({ ...l, text: withTimes(l.text, show) }))), true)
      : add('unusual', headings.unusual, [{ is: 'words', text: 'Nothing out of the ordinary is on record.' }])),
    ...add('next', headings.next, next(sheet, show)),
    ...add('watch', headings.watch, lines(front.watch)),
    ...add('ink', headings.ink, [
      { is: 'words', text: words },
      { is: 'ink', lines: ink },
    ]),
  ];
}
