/** Times of day and how long is left, as people say them. */
import { DAY } from '../../units/kinds.js';

interface Parts {
  /** `2026-03-02`. */
  readonly day: string;
  /** `Mon`. */
  readonly weekday: string;
  /** `14:35`. */
  readonly time: string;
}

const weekdays = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'] as const;
const two = (n: number): string => String(n).padStart(2, '0');

/** In the computer's own zone or UTC by the clock alone: the first use of time zone data costs as much as a frame. */
function partsOf(ms: number, zone: string | undefined): Parts {
  const d = new Date(ms);
  if (zone === undefined)
    return {
      day: `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}`,
      weekday: weekdays[d.getDay()] ?? '',
      time: `${two(d.getHours())}:${two(d.getMinutes())}`,
    };
  if (zone === 'UTC')
    return {
      day: `${d.getUTCFullYear()}-${two(d.getUTCMonth() + 1)}-${two(d.getUTCDate())}`,
      weekday: weekdays[d.getUTCDay()] ?? '',
      time: `${two(d.getUTCHours())}:${two(d.getUTCMinutes())}`,
    };
  const format = (locale: string, options: Intl.DateTimeFormatOptions): string =>
    new Intl.DateTimeFormat(locale, { ...options, timeZone: zone }).format(d);
  return {
    day: format('en-CA', { year: 'numeric', month: '2-digit', day: '2-digit' }),
    weekday: format('en-GB', { weekday: 'short' }),
    time: format('en-GB', { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }),
  };
}

/** `14:35`; with the weekday when it is another day than `now`; with the date when it is a week off; `to` the second. */
export function timeOfDay(ms: number, now: number, zone?: string, to: 'minute' | 'second' = 'minute'): string {
  if (!Number.isFinite(ms)) return '--:--';
  const at = partsOf(ms, zone);
  const time = to === 'second' ? `${at.time}:${two(new Date(ms).getUTCSeconds())}` : at.time;
  if (at.day === partsOf(now, zone).day) return time;
  return `${Math.abs(ms - now) < 6 * DAY ? at.weekday : at.day} ${time}`;
}

/** Milliseconds as `45 s`, `12 min`, `2 h 05 min`; always rounded up. */
export function left(ms: number): string {
  if (ms <= 0) return 'over';
  if (ms < 60_000) return `${Math.max(1, Math.ceil(ms / 1000))} s`;
  const min = Math.ceil(ms / 60_000);
  if (min < 60) return `${min} min`;
  const rest = min % 60;
  return rest ? `${Math.floor(min / 60)} h ${String(rest).padStart(2, '0')} min` : `${min / 60} h`;
}
