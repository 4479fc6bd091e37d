/** Instants as a person reads them. */

export interface SheetOptions {
  /** IANA time zone of the times shown; UTC unless given. An unknown zone counts as UTC. */
  readonly zone?: string;
}

/** Formatter of one sheet: `2 Mar 2026, 08:10`. A text that is no instant is shown as it is. */
export function clock(zone = 'UTC'): { readonly zone: string; readonly show: (iso: string) => string } {
  const make = (timeZone: string) =>
    new Intl.DateTimeFormat('en-GB', {
      timeZone,
      day: 'numeric',
      month: 'short',
      year: 'numeric',
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
    });
  let used = zone;
  let format: Intl.DateTimeFormat;
  try {
    format = make(zone);
  } catch {
    used = 'UTC';
    format = make(used);
  }
  return {
    zone: used,
    show: (iso) => {
      const ms = Date.parse(iso);
      return Number.isNaN(ms) ? iso : format.format(ms);
    },
  };
}

const INSTANT = /\b\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(?:\.\d+)?Z\b/g;
/** Replaces the instants inside a sentence. */
export const withTimes = (text: string, show: (iso: string) => string): string => text.replace(INSTANT, show);
