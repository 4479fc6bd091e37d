/** Times of day and how long is left, as people say them. */

const dayOf = (ms: number, zone: string | undefined): string =>
  new Intl.DateTimeFormat('en-CA', { timeZone: zone, year: 'numeric', month: '2-digit', day: '2-digit' }).format(ms);

/** `14:35`; with the weekday when it is another day than `now`; with the date when it is a week off. */
export function timeOfDay(ms: number, now: number, zone?: string): string {
  if (!Number.isFinite(ms)) return '--:--';
  const clock = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  });
  const time = clock.format(ms);
  const day = dayOf(ms, zone);
  if (day === dayOf(now, zone)) return time;
  if (Math.abs(ms - now) < 6 * 86_400_000)
    return `${new Intl.DateTimeFormat('en-GB', { timeZone: zone, weekday: 'short' }).format(ms)} ${time}`;
  return `${day} ${time}`;
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
