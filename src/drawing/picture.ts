/** What a drawing is given: plain numbers and words, those that are known. */
import { isList } from '../guards/guards.js';
import type { Answer } from '../procedure/answer.js';

export type PictureName = 'syringe' | 'bearing-section' | 'cage-side' | 'probes' | 'run-in-curve' | 'life-curve';
export type PictureValues = Readonly<Record<string, Answer | undefined>>;

/**
 * Names that each drawing reads, with their unit. All are optional: what is not known is drawn from usual
 * proportions and said to be, or left out.
 */
export const pictureReads: Readonly<Record<PictureName, Readonly<Record<string, string>>>> = {
  syringe: {
    bore: 'inside diameter, mm',
    marks: 'where the plunger stops, mm from where it starts, rising',
    labels: 'words for the marks, in their order',
    capacity: 'what the barrel holds, mL',
  },
  'bearing-section': {
    bore: 'mm',
    outside: 'mm',
    width: 'mm',
    ball_size: 'mm',
    balls: 'number of balls',
    share: 'grease, % of the free volume',
    raceway: 'inner where grease lies at that one only',
    seals: 'both, front, back or none',
  },
  'cage-side': {
    balls: 'number of balls',
    side: 'front or back, which the closed back of the cage faces; whole where both sides are alike',
  },
  probes: {
    show: 'leads, ring or balls; all three when left out',
    leads: 'beep or open',
    ring: 'beep or open',
    balls: 'beep or open, ball by ball',
  },
  'run-in-curve': {
    minutes: 'since the first reading',
    temp: 'degC, one for each reading',
    temp_2: 'degC of the second bearing',
    name: 'of the first bearing',
    name_2: 'of the second bearing',
    stages: 'stage at each reading',
    limit: 'degC at which to stop',
  },
  'life-curve': {
    days: 'since the first event, one for each value',
    level: 'values of the first bearing',
    days_2: 'the same of the second bearing',
    level_2: 'values of the second bearing',
    name: 'of the first bearing',
    name_2: 'of the second bearing',
    unit: 'of the values',
    end: 'days to the last event',
    event_days: 'day of each event',
    event_marks: 'a letter or two for each event',
    from: 'first day in words',
    to: 'last day in words',
  },
};

export const isPicture = (name: string): name is PictureName => Object.hasOwn(pictureReads, name);

export function numberOf(values: PictureValues, name: string): number | undefined {
  const v = values[name];
  return typeof v === 'number' && Number.isFinite(v) ? v : undefined;
}
/** A positive finite number, or undefined. */
export function sizeOf(values: PictureValues, name: string): number | undefined {
  const v = numberOf(values, name);
  return v !== undefined && v > 0 ? v : undefined;
}
/** The finite numbers of a list; a single number counts as a list of one. */
export function numbersOf(values: PictureValues, name: string): number[] {
  const v = values[name];
  const list: readonly unknown[] = isList(v) ? v : [v];
  return list.filter((x): x is number => typeof x === 'number' && Number.isFinite(x));
}
export function wordOf(values: PictureValues, name: string): string | undefined {
  const v = values[name];
  return typeof v === 'string' && v !== '' ? v : undefined;
}
export function pictureWords(values: PictureValues, name: string): string[] {
  const v = values[name];
  return isList(v) ? v.map(String) : [];
}

/** Room for a drawing in columns and lines. `ascii`: no character beyond ASCII. */
export interface DrawingSize {
  readonly width: number;
  readonly height: number;
  readonly ascii: boolean;
}
