/** Checks by hand that something is a journal entry: no schema library, since listing and reading must start fast. */
import type { Draft, Entry, EntryKind } from '../engine/journal/entry.js';
import { initialsSentence, tidyInitials } from '../engine/journal/initials.js';
import { isRecord } from '../guards/guards.js';
import { safeText } from '../text/safe-text.js';

type Rule = readonly [test: (value: unknown) => boolean, wanted: string];
interface Shape {
  readonly must: Readonly<Record<string, Rule>>;
  readonly may?: Readonly<Record<string, Rule>>;
}

/** Longest free text that an entry may hold, in UTF-16 units. */
const longestText = 20_000;
const longestWord = 300;

const finite = (value: unknown): boolean => typeof value === 'number' && Number.isFinite(value);
const isText = (value: unknown, limit: number): boolean => typeof value === 'string' && value.length <= limit;

function isAnswer(value: unknown): boolean {
  if (typeof value === 'boolean' || finite(value) || isText(value, longestText)) return true;
  if (!Array.isArray(value) || value.length > 10_000) return false;
  return value.every(finite) || value.every((one) => isText(one, longestText));
}
function isFigures(value: unknown): boolean {
  return isRecord(value) && Object.keys(value).length <= 1000 && Object.values(value).every(isAnswer);
}
/** Longest list that a job takes over from the one that it follows, and how many values at most. */
const longestCarried = 10_000;
const mostCarried = 500;

function isCarried(value: unknown): boolean {
  if (!isRecord(value)) return false;
  const all = Object.entries(value);
  const plain = (v: unknown): boolean =>
    isAnswer(v) || (Array.isArray(v) && v.every((one) => typeof one === 'boolean'));
  const small = (v: unknown): boolean => !Array.isArray(v) || v.length <= longestCarried;
  return (
    all.length <= mostCarried &&
    all.every(([name, v]) => /^[^@]+@[^@]+$/.test(name) && isText(name, longestWord) && small(v) && plain(v))
  );
}

const word: Rule = [(v) => isText(v, longestWord) && v !== '', `a text of 1 to ${longestWord} characters`];
const initials: Rule = [(v) => isText(v, longestWord), `a text of at most ${longestWord} characters`];
const text: Rule = [(v) => isText(v, longestText), `a text of at most ${longestText} characters`];
const answer: Rule = [isAnswer, 'a number, text, yes or no, or a list of numbers or texts'];
const figures: Rule = [isFigures, 'a set of named answers'];
const carried: Rule = [isCarried, `at most ${mostCarried} values of the earlier job, named key@place`];
const size: Rule = [(v) => finite(v) && Number(v) >= 0, 'a number of 0 or more'];
const count: Rule = [(v) => Number.isSafeInteger(v) && Number(v) >= 1, 'the number of an earlier entry'];
const atOnce: Rule = [(v) => v === 'at-once', "'at-once'"];
const pace: Rule = [(v) => v === 'learning' || v === 'brisk', "'learning' or 'brisk'"];
const places: Rule = [
  (v) => Array.isArray(v) && v.length <= 100 && v.every((p) => isText(p, longestWord)),
  'a list of places',
];
const yes: Rule = [(v) => v === true, 'true'];
const role: Rule = [(v) => v === 'mentor' || v === 'self', "'mentor' or 'self'"];

function isTakenFrom(value: unknown): boolean {
  if (!isRecord(value)) return false;
  const { job, name, at, ...more } = value;
  return [job, name, at].every((x) => isText(x, longestWord)) && Object.keys(more).length === 0;
}
const takenFrom: Rule = [isTakenFrom, 'job, name and at of an earlier job'];

/** Finished jobs that an entry tells of, and figures of each, at most. */
const mostEvents = 60;
const mostFigures = 100;
const wordy = (v: unknown): boolean => isText(v, longestWord);
const absentOr =
  (test: (v: unknown) => boolean) =>
  (v: unknown): boolean =>
    v === undefined || test(v);
/** True when a thing has these fields, each as it should be, and no other. */
const hasOnly = (value: unknown, fields: Readonly<Record<string, (v: unknown) => boolean>>): boolean =>
  isRecord(value) &&
  Object.keys(value).every((k) => Object.hasOwn(fields, k)) &&
  Object.entries(fields).every(([k, test]) => test(value[k]));
const listOf =
  (most: number, fields: Readonly<Record<string, (v: unknown) => boolean>>) =>
  (v: unknown): boolean =>
    Array.isArray(v) && v.length <= most && v.every((one) => hasOnly(one, fields));
const lifeFigure = {
  ...{ key: wordy, label: wordy, place: wordy, where: wordy, unit: wordy, text: wordy, value: finite },
  plusMinus: absentOr(finite),
  item: absentOr(finite),
};
const isLife = listOf(mostEvents, {
  ...{ job: wordy, name: wordy, did: wordy, machine: wordy },
  at: (v) => wordy(v) && !Number.isNaN(Date.parse(String(v))),
  begins: absentOr((v) => v === true),
  hours: absentOr(finite),
  due: absentOr(wordy),
  found: listOf(mostFigures, { where: wordy, text: wordy }),
  figures: listOf(mostFigures, lifeFigure),
});
const lifeSoFar: Rule = [isLife, `at most ${mostEvents} finished jobs of its rotor`];

const clock: Rule = [(v) => hasOnly(v, { gained: absentOr(finite) }), 'what the clock gained'];

const hash256: Rule = [(v) => typeof v === 'string' && /^[0-9a-f]{64}$/.test(v), 'a SHA-256 in hexadecimal'];
const pictureName: Rule = [
  (v) => typeof v === 'string' && /^[0-9a-f]{64}\.(jpg|png|webp)$/.test(v),
  'the hash of a picture and its ending',
];

const atStep = { step: word, place: word };
const shapes: Readonly<Record<EntryKind, Shape>> = {
  job: {
    must: { name: text, procedure: word, version: word, hash: word },
    may: {
      practice: word,
      apprentice: initials,
      mentor: initials,
      lessons: atOnce,
      from: word,
      earlier: text,
      earlierValues: carried,
      life: lifeSoFar,
    },
  },
  operator: { must: { initials } },
  pace: { must: { pace } },
  caution: { must: atStep, may: { known: yes, also: places } },
  answer: {
    must: { ...atStep, key: word, value: answer },
    may: { typed: text, plusMinus: size, way: word, figures, from: takenFrom },
  },
  done: { must: atStep, may: { figures } },
  sign: { must: { ...atStep, role, initials }, may: { own: text, reason: text } },
  refuse: { must: { ...atStep, reason: text, initials } },
  overrule: { must: { ...atStep, gate: word, reason: text, initials } },
  correct: {
    must: { ...atStep, of: count, key: word, value: answer, reason: text },
    may: { typed: text, plusMinus: size, way: word },
  },
  settle: { must: { ...atStep, reason: text }, may: { figures } },
  undo: { must: { of: count } },
  raise: { must: { branch: word, place: word }, may: { text } },
  predict: { must: { ...atStep, key: word, value: answer }, may: { typed: text } },
  note: { must: { place: word, text }, may: { clock } },
  handover: { must: { text } },
  name: { must: { of: word, name: word } },
  picture: {
    must: { ...atStep, file: pictureName, sha256: hash256, bytes: size, name: word },
    may: { shows: word },
  },
  procedure: { must: { version: word, hash: word } },
};

/** Whether this version knows an entry's kind; an unknown one comes from a newer version. */
export function isKnownKind(kind: unknown): kind is EntryKind {
  return typeof kind === 'string' && Object.hasOwn(shapes, kind);
}

/** What is wrong with an entry that has no number and time yet; nothing when it is right. */
function draftFault(draft: unknown): string | undefined {
  if (!isRecord(draft)) return 'an entry should be a set of named fields';
  if (!isKnownKind(draft.kind)) return `kind: '${safeText(draft.kind, { max: 40 })}' is not known here`;
  if (!initials[0](draft.by)) return `by: expected ${initials[1]}`;
  if (draft.joined !== undefined && draft.joined !== true) return 'joined: expected true';
  const shape = shapes[draft.kind];
  for (const [name, [test, wanted]] of Object.entries(shape.must)) {
    if (!test(draft[name])) return `${draft.kind}, ${name}: expected ${wanted}`;
  }
  for (const [name, [test, wanted]] of Object.entries(shape.may ?? {})) {
    if (draft[name] !== undefined && !test(draft[name])) return `${draft.kind}, ${name}: expected ${wanted}`;
  }
  return undefined;
}

const instant = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?Z$/;

/** What is wrong with entry number `seq`; nothing when it is right. */
export function entryFault(entry: unknown, seq: number): string | undefined {
  if (!isRecord(entry)) return 'an entry should be a set of named fields';
  if (entry.seq !== seq) return `seq: expected ${seq}, found ${safeText(entry.seq, { max: 20 })}`;
  if (typeof entry.at !== 'string' || !instant.test(entry.at) || Number.isNaN(Date.parse(entry.at))) {
    return 'at: expected a time such as 2031-05-04T09:30:00.000Z';
  }
  const fault = draftFault(entry);
  if (fault) return fault;
  if (seq === 1 && entry.kind !== 'job') return "kind: the first entry should be 'job'";
  if (typeof entry.of === 'number' && entry.of >= seq) return `of: expected an entry before ${seq}`;
  return undefined;
}

/** What is wrong with a whole journal; nothing when every entry is right and none is missing. */
export function journalFault(entries: unknown): string | undefined {
  if (!Array.isArray(entries)) return 'expected a list of entries';
  if (entries.length === 0) return 'expected at least one entry';
  for (let index = 0; index < entries.length; index++) {
    const fault = entryFault(entries[index], index + 1);
    if (fault) return `entry ${index + 1}: ${fault}`;
  }
  return undefined;
}

/** Initials that a new entry names and that are none. Entries that are there already are read whatever they name. */
function initialsFault(draft: Draft): string | undefined {
  const { by, initials, apprentice, mentor }: Readonly<Record<string, unknown>> = { ...draft };
  for (const [name, value] of Object.entries({ by, initials, apprentice, mentor }))
    if (value !== undefined && (typeof value !== 'string' || tidyInitials(value) !== value))
      return `${name}: ${initialsSentence.replace(/[.]$/, '')}`;
  return undefined;
}

/**
 * Numbers and stamps drafts, as plain data that is the same in memory as it will be read from disk.
 * @returns the entries, or what is wrong with a draft
 */
export function toEntries(drafts: readonly Draft[], after: number, at: string): Entry[] | string {
  const entries: Entry[] = [];
  for (const draft of drafts) {
    const seq = after + entries.length + 1;
    // Checked before it is written as JSON, which would turn a number that is none into null.
    const fault = entryFault({ ...draft, seq, at }, seq) ?? initialsFault(draft);
    if (fault) return fault;
    entries.push(JSON.parse(JSON.stringify({ ...draft, seq, at })));
  }
  return entries;
}
