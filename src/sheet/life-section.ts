/** The life of a rotor as blocks: what was done when, and each figure over the years with a line for each bearing. */

import type { LifeEvent } from '../engine/journal/entry.js';
import { type Course, type CoursePoint, coursesOf } from '../life/history.js';
import { DAY } from '../units/kinds.js';
import { type Cell, type SheetBlock, tableBlock } from './section.js';
import { dayOf, type Show } from './words.js';

/** `R` for what begins anew, else the first letter of what was done. */
const markOf = (e: Pick<LifeEvent, 'did'>): string => [...e.did][0]?.toUpperCase() ?? '·';

const nextLook = (e: LifeEvent): string =>
  e.hours === undefined ? '' : `${e.due ? `by ${e.due}, ` : ''}after ${e.hours} h`;

function eventTable(events: readonly LifeEvent[], show: Show): readonly SheetBlock[] {
  return tableBlock(
    [
      ['When', 16],
      ['What', 30],
      ['Found', 26],
      ['Next look', 28],
    ],
    events.map((e): readonly Cell[] => [
      dayOf(show, e.at),
      `${markOf(e)}  ${e.did}`,
      e.found.map((f) => (f.where ? `${f.where}: ${f.text}` : f.text)).join('; '),
      nextLook(e),
    ]),
  );
}

/** `+4.0 ± 1.4`, with a word where that is more than both readings can be wrong. */
function movedWords(p: CoursePoint): string {
  if (!p.moved) return '';
  const { by, doubt, beyondDoubt } = p.moved;
  const figure = (x: number): string => String(Number(x.toPrecision(2)));
  const width = doubt > 0 ? ` ± ${figure(doubt)}` : '';
  return `${by < 0 ? '−' : '+'}${figure(Math.abs(by))}${width}${beyondDoubt && doubt > 0 ? ', moved' : ''}`;
}

/** Figures that belong together: the same figure at each bearing. */
function byFigure(courses: readonly Course[]): readonly (readonly Course[])[] {
  const all = new Map<string, Course[]>();
  for (const c of courses) all.set(c.key, [...(all.get(c.key) ?? []), c]);
  return [...all.values()];
}

function figureBlocks(courses: readonly Course[], events: readonly LifeEvent[], show: Show): readonly SheetBlock[] {
  const [first, second] = courses;
  const began = Date.parse(events[0]?.at ?? '');
  const days = (at: string): number => (Date.parse(at) - began) / DAY;
  if (!first) return [];
  const title = first.unit ? `${first.label}, ${first.unit}` : first.label;
  const times = [...new Set(courses.flatMap((c) => c.points.map((p) => p.at)))].sort();
  const points = (c: Course | undefined, tail: string) =>
    c
      ? {
          [`days${tail}`]: c.points.map((p) => days(p.at)),
          [`level${tail}`]: c.points.map((p) => p.value),
          [`name${tail}`]: c.where || c.label,
        }
      : {};
  const drawing: SheetBlock = {
    is: 'drawing',
    picture: 'life-curve',
    title,
    values: {
      ...points(first, ''),
      ...points(second, '_2'),
      unit: first.unit,
      end: days(events.at(-1)?.at ?? ''),
      event_days: events.map((e) => days(e.at)),
      event_marks: events.map(markOf),
      from: dayOf(show, events[0]?.at ?? ''),
      to: dayOf(show, events.at(-1)?.at ?? ''),
    },
  };
  const cells = (c: Course, at: string): readonly Cell[] => {
    const p = c.points.find((x) => x.at === at);
    const moved = p ? movedWords(p) : '';
    return [p ? { text: p.text, as: 'value' } : '', p?.moved?.beyondDoubt ? { text: moved, as: 'strong' } : moved];
  };
  const share = 80 / courses.length;
  return [
    // One point is no line.
    ...(times.length > 1 ? [drawing] : []),
    ...tableBlock(
      [
        ['When', 20],
        ...courses.flatMap((c): [string, number][] => [
          [c.where || 'Value', share * 0.5],
          ['Since the first', share * 0.5],
        ]),
      ],
      times.map((at) => [dayOf(show, at), ...courses.flatMap((c) => cells(c, at))]),
      { caption: title },
    ),
  ];
}

/** A list such as one figure for each stage: the first and the latest of each bearing, without a drawing. */
function listBlocks(courses: readonly Course[], show: Show): readonly SheetBlock[] {
  const label = (c: Course): string => c.label.replace(/ \d+$/, '');
  const names = [...new Set(courses.map(label))];
  return names.flatMap((name) => {
    const own = courses.filter((c) => label(c) === name);
    const places = [...new Set(own.map((c) => c.where))];
    const items = [...new Set(own.map((c) => c.item ?? 0))].sort((a, b) => a - b);
    const cells = (item: number, where: string): readonly Cell[] => {
      const points = own.find((c) => c.item === item && c.where === where)?.points ?? [];
      const last = points.at(-1);
      if (!last) return ['', ''];
      const moved = movedWords(last);
      return [{ text: last.text, as: 'value' }, last.moved?.beyondDoubt ? { text: moved, as: 'strong' } : moved];
    };
    const share = 84 / places.length;
    const at = own[0]?.points.at(-1)?.at;
    return tableBlock(
      [
        ['No.', 16],
        ...places.flatMap((p): [string, number][] => [
          [p || 'Value', share * 0.5],
          ['Since the first', share * 0.5],
        ]),
      ],
      items.map((n) => [String(n), ...places.flatMap((p) => cells(n, p))]),
      { caption: `${name}, ${own[0]?.unit ?? ''}${at ? `, ${dayOf(show, at)}` : ''}` },
    );
  });
}

/** What is told of a rotor that was here before; nothing where it was not. */
export function lifeBlocks(events: readonly LifeEvent[], show: Show): readonly SheetBlock[] {
  if (!events.length) return [];
  const courses = coursesOf(events);
  const all = byFigure(courses.filter((c) => c.item === undefined));
  return [
    ...eventTable(events, show),
    ...all.flatMap((c) => figureBlocks(c, events, show)),
    ...listBlocks(
      courses.filter((c) => c.item !== undefined),
      show,
    ),
    ...(all.length
      ? [
          {
            is: 'words' as const,
            as: 'source' as const,
            text: '“Moved”: by more than the root of the squares of both half widths. What is measured in service begins anew after each regreasing.',
          },
        ]
      : []),
  ];
}
