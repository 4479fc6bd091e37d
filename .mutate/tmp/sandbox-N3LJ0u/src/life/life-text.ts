/** The life of a rotor in characters: what was done when, and each figure along the years. Pure. */
// @ts-nocheck

import { safeText } from '../text/safe-text.js';
import { coursesOf, type LifeEvent } from './history.js';

interface Room {
  readonly width: number;
  readonly ascii: boolean;
}

const day = (at: string): string => at.slice(0, 10);
const plain = (text: string, max = 120): string => safeText(text, { max });

function eventLine(e: LifeEvent): string {
  const next =
    e.hours === undefined ? '' : e.due ? `; next look by ${e.due} (${e.hours} h)` : `; next look after ${e.hours} h`;
  return `${day(e.at)}  ${plain(e.did)}${next}   ${plain(e.name, 60)}`;
}

/** Each point on its own line, set between the lowest and the highest value. */
function courseLines(events: readonly LifeEvent[], room: Room): string[] {
  return coursesOf(events).flatMap(({ label, where, points }) => {
    const values = points.map((p) => p.value);
    const low = Math.min(...values);
    const span = Math.max(...values) - low;
    const wide = Math.max(...points.map((p) => p.text.length));
    const bar = Math.max(8, room.width - wide - 32);
    const first = points[0]?.value ?? 0;
    return [
      '',
      `${plain(label)}${where ? `, ${plain(where)}` : ''}`,
      ...points.map((p, i) => {
        const at = span > 0 ? Math.round(((p.value - low) / span) * (bar - 1)) : 0;
        const by = p.value - first;
        const measured = events
          .find((e) => e.at === p.at)
          ?.measured.find((m) => m.label === label && m.where === where);
        const beyond = measured?.moved?.beyondDoubt ? (room.ascii ? ' !' : ' ▲') : '';
        const moved = i === 0 ? '' : `${by >= 0 ? '+' : '-'}${Number(Math.abs(by).toPrecision(3))}${beyond}`;
        const mark = `${' '.repeat(at)}${room.ascii ? '*' : '●'}`.padEnd(bar);
        return `  ${day(p.at)}  ${p.text.padStart(wide)}  ${mark}  ${moved}`.trimEnd();
      }),
    ];
  });
}

export function lifeLines(rotor: string, events: readonly LifeEvent[], room: Room): string[] {
  const machine = events.findLast((e) => e.machine)?.machine ?? '';
  const sign = room.ascii ? '!' : '▲';
  const courses = courseLines(events, room);
  return [
    `Rotor ${plain(rotor)}${machine ? `, ${plain(machine)}` : ''}`,
    '',
    ...(events.length ? events.map(eventLine) : ['No finished job yet.']),
    ...courses,
    ...(courses.some((l) => l.endsWith(sign))
      ? ['', `${sign} moved by more than the half widths of both readings, against the first of them.`]
      : []),
  ];
}
