/** The list of what is due as a calendar file (iCalendar, RFC 5545). */
// @ts-nocheck

import { createEvents, type EventAttributes } from 'ics';
import { safeText } from '../text/safe-text.js';
import { type Due, dueWords } from './due.js';

const plain = (text: string): string => safeText(text, { max: 300 });

/** @returns the file's text; one whole day for each rotor that has a date */
export function calendarOf(list: readonly Due[], now: number): string {
  const events = list.flatMap((d): EventAttributes[] => {
    const [year, month, day] = (d.due ?? '').split('-').map(Number);
    if (!year || !month || !day) return [];
    return [
      {
        uid: `${d.job}-next-look@rotorside`,
        start: [year, month, day],
        duration: { days: 1 },
        title: plain(`Look at rotor ${d.rotor}${d.machine ? `, ${d.machine}` : ''}`),
        description: plain(`${dueWords(d)}. Job ${d.job}.`),
        created: now,
        lastModified: now,
        busyStatus: 'FREE',
        productId: '-//rotorside//next looks//EN',
        alarms: [
          { action: 'display', description: plain(`Look at rotor ${d.rotor}`), trigger: { days: 2, before: true } },
        ],
      },
    ];
  });
  if (events.length === 0)
    return 'BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//rotorside//next looks//EN\r\nEND:VCALENDAR\r\n';
  const { error, value } = createEvents(events);
  if (error || !value) throw error ?? new Error('no calendar came of it');
  return value;
}
