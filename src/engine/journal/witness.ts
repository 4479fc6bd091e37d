/** Who may vouch at a hold point: nobody for work of their own. Pure. */
import type { Entry } from './entry.js';
import { sameInitials } from './initials.js';

interface Worked {
  readonly initials: string;
  /** Number of the latest entry by which this person worked at that place. */
  readonly seq: number;
}

/** Who worked at each place, and when each place was last signed for. */
export interface Hands {
  readonly worked: ReadonlyMap<string, readonly Worked[]>;
  readonly signed: ReadonlyMap<string, number>;
}

export const noHands: Hands = { worked: new Map(), signed: new Map() };

const work: ReadonlySet<Entry['kind']> = new Set(['answer', 'correct', 'done', 'settle']);

/** With one entry more. */
export function withHand(hands: Hands, e: Entry): Hands {
  if (!('place' in e)) return hands;
  if (e.kind === 'sign') return { ...hands, signed: new Map(hands.signed).set(e.place, e.seq) };
  if (!work.has(e.kind)) return hands;
  const here = (hands.worked.get(e.place) ?? []).filter((w) => w.initials !== e.by);
  return { ...hands, worked: new Map(hands.worked).set(e.place, [...here, { initials: e.by, seq: e.seq }]) };
}

const within = (place: string, outer: string): boolean =>
  outer === 'job' || place === outer || place.startsWith(`${outer}.`);

/** Everybody who worked at a place, or at one within it, since it was last signed for. */
function workersAt(hands: Hands, place: string): string[] {
  const since = hands.signed.get(place) ?? 0;
  return [...hands.worked].flatMap(([at, list]) =>
    within(at, place) ? list.filter((w) => w.seq > since).map((w) => w.initials) : [],
  );
}

/** What of a ledger tells whose work it is. */
interface Whose {
  readonly hands: Hands;
  readonly operator: string;
  readonly job: { readonly apprentice?: string } | undefined;
}
/** What was recorded of the step that is to be signed. */
interface Recorded {
  readonly done: { readonly by: string } | undefined;
  readonly answers: ReadonlyMap<
    string,
    { readonly first: { readonly by: string }; readonly entry: { readonly by: string } }
  >;
}

/** True when these initials can't witness at that place: they are those of somebody who did work there, or who types now. */
export function ownWork(whose: Whose, place: string, initials: string, step: Recorded | undefined): boolean {
  const authors = [...(step?.answers.values() ?? [])].flatMap((a) => [a.first.by, a.entry.by]);
  return [...workersAt(whose.hands, place), whose.job?.apprentice, whose.operator, step?.done?.by, ...authors].some(
    (w) => w !== undefined && sameInitials(w, initials),
  );
}

/** Where a mentor is named, or a second person is asked for, nobody lets pass what stops their own work: the sentence that says so. */
export function ownStop(
  { operator, job }: { readonly operator: string; readonly job: { mentor?: string; apprentice?: string } | undefined },
  initials: string,
  by: string,
  secondPerson: boolean,
): string | undefined {
  if (!job?.mentor && !secondPerson) return undefined;
  if (![by, operator, job?.apprentice].some((w) => w !== undefined && sameInitials(w, initials))) return undefined;
  return job?.mentor
    ? `${initials} works on this; another person, the mentor, answers for going on. Type the mentor’s initials.`
    : `${initials} works on this; a second person answers for going on. Type that person’s initials.`;
}
