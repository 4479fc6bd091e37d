/** Instants as a person reads them. */
// @ts-nocheck


export interface SheetOptions {
  /** IANA time zone of the times shown; UTC unless given. An unknown zone counts as UTC. */
  readonly zone?: string;
  /** False leaves the record after the first pages out. */
  readonly appendix?: boolean;
  /** Id of the only section that is wanted. */
  readonly only?: string;
}

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sept', 'Oct', 'Nov', 'Dec'] as const;
const two = (n: number): string => String(n).padStart(2, '0');
/** Without the system's time zone data, whose first use costs more than the rest of a sheet. */
const utc = (ms: number): string => {
  const d = new Date(ms);
  const day = `${d.getUTCDate()} ${months[d.getUTCMonth()]} ${d.getUTCFullYear()}`;
  return `${day}, ${two(d.getUTCHours())}:${two(d.getUTCMinutes())}`;
};

function inZone(timeZone: string): (ms: number) => string {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    day: 'numeric',
    month: 'numeric',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  });
  return (ms) => {
    const part = Object.fromEntries(format.formatToParts(ms).map((p) => [p.type, p.value]));
    return `${Number(part.day)} ${months[Number(part.month) - 1]} ${part.year}, ${part.hour}:${part.minute}`;
  };
}

/** Formatter of one sheet: `2 Mar 2026, 08:10`. A text that is no instant is shown as it is. */
export function clock(zone = 'UTC'): { readonly zone: string; readonly show: (iso: string) => string } {
  let used = zone;
  let format = utc;
  try {
    if (zone !== 'UTC') format = inZone(zone);
  } catch {
    used = 'UTC';
  }
  return {
    zone: used,
    show: (iso) => {
      const ms = Date.parse(iso);
      return Number.isNaN(ms) ? iso : format(ms);
    },
  };
}

const INSTANT = /\b\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(?:\.\d+)?Z\b/g;
/** Replaces the instants inside a sentence. */
export const withTimes = (text: string, show: (iso: string) => string): string => text.replace(INSTANT, show);
