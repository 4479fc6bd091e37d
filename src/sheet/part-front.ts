/** The first page: what the next owner asks before anything else. */
import { figureTables } from './figure-tables.js';
import { type Block, type Cell, type Section, section, table } from './section.js';
import type { Sheet } from './sheet-data.js';
import { atPlace, headings, peopleText, placeName, procedureText, type Show, stopEnd, whoWhen } from './words.js';

function facts(sheet: Sheet, show: Show, zone: string): readonly Block[] {
  const h = sheet.head;
  const rows: (readonly Cell[])[] = [
    ...(h.unfit ? [['Mind', h.unfit]] : []),
    ['Procedure', procedureText(h)],
    ['Check number of the procedure', h.hash],
    ...h.versions.map((v) => ['Earlier version used', `${v.version}, hash ${v.hash}, ${whoWhen(v, show)}`]),
    ...(h.earlier ? [['Follows the job', h.earlier]] : []),
    ['People', peopleText(h)],
    ['Begun', h.started ? show(h.started) : 'not begun'],
    ['Last entry', h.lastEntry ? show(h.lastEntry) : 'none'],
    ['Times', zone],
  ];
  return table(
    [
      ['About', 24],
      ['This job', 76],
    ],
    rows,
  );
}

function remedies(sheet: Sheet, show: Show): readonly Block[] {
  const items = sheet.remedies.map((r): Cell => {
    const state = r.settled
      ? `Settled by ${whoWhen(r.settled, show)}: ${r.settled.reason}`
      : r.changed.map((c) => `${c.label}: ${c.old} → ${c.now}`).join('; ');
    return [
      { text: `${atPlace(r.title, r.where)}:`, as: 'strong' },
      { text: r.text },
      ...(r.settled ? [] : [{ text: 'STILL TO DO.', as: 'strong' as const }]),
      { text: state },
    ];
  });
  return items.length ? [{ is: 'list', items }] : [];
}

function stops(sheet: Sheet, show: Show): readonly Block[] {
  return table(
    [
      ['Stopped', 18],
      ['Place', 13],
      ['Why', 35],
      ['Met', 16],
      ['How it ended', 18],
    ],
    sheet.stops.map((s) => [
      s.title,
      placeName(s.where),
      s.says,
      { text: whoWhen(s, show), as: 'when' },
      s.ended ? stopEnd(s, show) : { text: stopEnd(s, show), as: 'strong' },
    ]),
  );
}

export function frontSections(sheet: Sheet, show: Show, zone: string): readonly Section[] {
  const open = sheet.remedies.some((r) => !r.settled);
  return [
    ...section('front', 'job', headings.job, facts(sheet, show, zone)),
    ...section('front', 'remedies', headings.remedies, remedies(sheet, show), open ? { alert: true } : {}),
    ...section('front', 'stops', headings.stops, stops(sheet, show)),
    ...section('front', 'headline', headings.headline, figureTables(sheet.headline)),
    ...section('front', 'next', headings.next, figureTables(sheet.next)),
  ];
}
