/**
 * What the screens are given from outside. They know no store, no clock and no file: the command line hands these in.
 * The shapes fit the store's own handles, so that they can be passed on unchanged.
 */
import type { Draft, Entry } from '../engine/journal/entry.js';
import type { State } from '../engine/state/state.js';
import type { Earlier } from '../engine/values/values.js';
import type { KeyTaker } from '../keys/key-taker.js';
import type { Shelved, Taken } from '../life/take-over.js';
import type { Model } from '../procedure/model.js';
import type { Line } from './look/line.js';

interface Trouble {
  readonly code: string;
  /** What could not be done and why; what is kept; what to do. */
  readonly sentence: string;
  /** Set when a damaged job can be had back in part. */
  readonly offer?: { readonly entries: number; readonly last: string };
}
export type Outcome<T> =
  | { readonly ok: true; readonly value: T; readonly notice?: string }
  | { readonly ok: false; readonly trouble: Trouble };

/** Small facts that the first screen shows of a job without reading it. Written by the screens at each append. */
export type JobSummary = Readonly<Record<string, string | number | boolean>>;

/** A line of the first screen. */
export interface ListedJob {
  readonly id: string;
  readonly name: string;
  readonly practice?: string;
  readonly procedure: string;
  /** ISO instant of the last entry. */
  readonly changed: string;
  readonly summary: JobSummary;
  /** Why the job can't simply be opened. */
  readonly fault?: string;
}

/** What is being typed and is not confirmed yet. */
export interface TypedDraft {
  readonly where: string;
  readonly text: string;
}

export interface OpenJob {
  readonly id: string;
  readonly name: string;
  /** Never changed in place: each append gives a new list. */
  readonly entries: readonly Entry[];
  readonly readOnly: boolean;
  readonly whyReadOnly?: string;
  /** Of a job that is only looked at: true when another program went on with it, and its entries are here now. */
  reread?(): boolean;
  /** On disk for good when it returns; when it is refused nothing has changed and it may be called again. */
  append(
    drafts: readonly Draft[],
    summary?: JobSummary,
  ): Outcome<readonly Entry[]> | Promise<Outcome<readonly Entry[]>>;
  /** Of each question at each place where something stands unconfirmed; the newest last. */
  draftTexts(): readonly TypedDraft[];
  setDraftTexts(drafts: readonly TypedDraft[]): void;
  close(): Promise<void>;
}

interface Jobs {
  list(): Outcome<readonly ListedJob[]>;
  /** The few that changed last, and how many there are. */
  latest(): Outcome<{ readonly jobs: readonly ListedJob[]; readonly count: number }>;
  /** Whether a new job could be saved; asked before anybody fills in what it needs. */
  canSave?(): Outcome<true>;
  /**
   * Practice that begins late has what comes before done in it; with a notice where that came less far.
   * @param rotor on which it works, where that was here before: the job is told of its life
   */
  create(name: string, first: Extract<Draft, { kind: 'job' }>, rotor?: string): Promise<Outcome<OpenJob>>;
  open(id: string, options?: { readonly recover?: boolean; readonly readOnly?: boolean }): Promise<Outcome<OpenJob>>;
}

/** A procedure that a job can be started with. */
export interface Offered {
  readonly id: string;
  readonly title: string;
  readonly version: string;
  readonly hash: string;
  /** Told before its first step. */
  readonly notice?: string | undefined;
  /** Id of the procedure whose finished job it reads. */
  readonly follows?: string;
  /** It can follow a finished job of its own kind too. */
  readonly followsOwn?: boolean;
  /** It comes from the shop's own folder, not with the program. */
  readonly shop?: boolean;
}

/** What an open job stands on. */
export interface JobBasis {
  readonly model: Model;
  /** Values of the job that this one follows. */
  readonly earlier?: Earlier;
  /** The invented rotor of a practice job. */
  readonly practice?: PracticeReadout;
  /** In training: holds an expectation, as typed, against the figure; undefined where nothing can be said. */
  readonly judge?: (
    state: State,
    key: string,
    place: string,
    typed: string,
  ) => { readonly verdict: string; readonly why: string } | undefined;
  /** In practice, where lessons are told at once: the harm that is done as things stand, each by a name of its own. */
  readonly harms?: (state: State) => readonly { readonly id: string; readonly lines: readonly ShownDebriefLine[] }[];
  /** What there is to know before going on, such as that the procedure has changed meanwhile. */
  readonly notice?: string;
}

/** What is set of a practice before it begins, and is not asked: by, mentor, lessons, from. */
export type LaidOut = Readonly<Record<string, string>>;

/** An invented rotor that can be picked for training. */
export interface PracticeHead {
  readonly id: string;
  readonly title: string;
  readonly procedure: string;
  readonly story?: string;
  /** Phases at which it can be begun besides the first. */
  readonly phases?: readonly { readonly id: string; readonly title: string }[];
}

/** The invented rotor of a job, as it is read off. */
export interface PracticeReadout {
  readonly story?: string;
  /** Ways of measuring to choose between first; none when there is nothing to choose. */
  ways?(
    step: string,
    place: string,
    key: string,
    state: State,
  ): readonly { readonly way: string; readonly label: string }[];
  /** What it shows when this is read off; undefined when it has nothing to say. `row` counts from 0. */
  shows(
    step: string,
    place: string,
    key: string,
    row: number,
    state: State,
    way: string | undefined,
  ): string | undefined;
  /** True where it shows something else than what would be offered. */
  contradicts?(
    at: { readonly step: string; readonly place: string; readonly key: string; readonly row: number },
    offered: string,
    state: State,
    way: string | undefined,
  ): boolean;
  /** Why nothing is there to read this off, and what to answer anew; undefined where it is for whoever works to say. */
  absent?(step: string, place: string, key: string, row: number, state: State): string | undefined;
  /** What would be typed where there is nothing to look at and nothing to decide. */
  quiet?(step: string, place: string, key: string, row: number, state: State): string | undefined;
}

/** A line of the debrief after practice; `more` belongs to the line above. */
export interface ShownDebriefLine {
  readonly text: string;
  readonly as: 'head' | 'good' | 'bad' | 'plain' | 'more';
}

/** A page to be read, such as one of the job sheet, laid out for a width. */
export interface SheetPage {
  readonly title: string;
  readonly lines: (width: number, ascii: boolean) => readonly Line[];
}

type DrawingValue = number | string | boolean | readonly number[] | readonly string[] | undefined;
/** A drawing as lines of text, none wider than `width`, no more than `height`. */
type TextDrawing = (
  name: string,
  values: Readonly<Record<string, DrawingValue>>,
  room: { readonly width: number; readonly height: number; readonly ascii: boolean },
) => readonly string[];

export interface Terminal {
  readonly stdout: NodeJS.WriteStream;
  readonly stderr?: NodeJS.WriteStream;
  /** True where the locale is not UTF-8. */
  readonly ascii: boolean;
  readonly screenReader: boolean;
  /** IANA zone of the times of day shown; the computer's own when left out. */
  readonly zone?: string;
  /** False where no colour is wanted (NO_COLOR). */
  readonly color?: boolean;
  /** Where the keys come from: told who takes them, once what they would answer is on the screen. */
  readonly keysTo: (taker: KeyTaker) => void;
}

export interface App {
  readonly jobs: Jobs;
  /** The first is taken when there is but one. Empty: no job can be started, and `noProcedure` says why. */
  readonly procedures: () => readonly Offered[];
  readonly noProcedure?: string;
  readonly practices: () => readonly PracticeHead[];
  /** A rotor that is drawn: by its id, or a new one, with an eye on what is due for somebody. */
  readonly drawPractice?: (id?: string, by?: string) => Promise<PracticeHead | undefined>;
  /** What a job stands on; a sentence when there is nothing that fits. */
  readonly basisOf: (entries: readonly Entry[]) => JobBasis | string | Promise<JobBasis | string>;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** By how many ms that is ahead of a clock that nobody sets and that goes on while the computer sleeps; NaN where there is none. */
  readonly lead?: () => number;
  /** In practice: lets so many minutes pass at once. */
  readonly passTime?: (minutes: number) => void;
  /** Initials of who worked last, to be offered again. */
  readonly initials: { get(): string; set(initials: string): void };
  /** Units that were used last, by key of the question; they are kept by whoever hands this in. */
  readonly units?: {
    get(key: string): string | undefined;
    set(key: string, unit: string): void;
  };
  /** Whether the terminal's bell sounds when a wait is over; it is kept by whoever hands this in. */
  readonly bell?: {
    on(): boolean;
    /** A sentence when it could not be kept. */
    turn(on: boolean): Promise<string | undefined>;
    ring(): void;
  };
  readonly drawing?: TextDrawing;
  /** Keeps the picture that was typed or dropped as a path; a sentence when it can't be taken. */
  readonly pictures?: {
    keep(
      job: string,
      typed: string,
    ): Promise<
      | {
          readonly file: string;
          readonly sha256: string;
          readonly bytes: number;
          readonly name: string;
          readonly notShown?: true;
        }
      | string
    >;
  };
  /** The job sheet as pages to be read; `job` is its number. */
  readonly sheetTold: (state: State, job?: string) => readonly SheetPage[] | Promise<readonly SheetPage[]>;
  /** What the figures of this job stand on, a page a kind of evidence. */
  readonly sourcesTold: (state: State) => readonly SheetPage[] | Promise<readonly SheetPage[]>;
  /** The life of a rotor as pages to be read. */
  readonly rotorTold: (rotor: string) => Promise<readonly SheetPage[]>;
  /** What a new job of a procedure takes over from earlier ones of its rotor; a sentence where they can't be read. */
  readonly takenOver?: (rotor: string, procedure: string) => Promise<readonly Taken[] | string>;
  /** What the shop has at hand by its latest finished jobs, the latest first. */
  readonly shelf?: (procedure: string) => Promise<readonly Shelved[]>;
  /** What a practice job taught; `job` is its id. */
  readonly debrief?: (state: State, job: string) => readonly ShownDebriefLine[] | Promise<readonly ShownDebriefLine[]>;
  /** The class that practised last: who is stuck, and what all expected and misread. */
  readonly classTold?: () => Promise<readonly ShownDebriefLine[]>;
  readonly terminal: Terminal;
  /** Where it opens: the first screen when left out. */
  readonly start?: { readonly job: string } | { readonly practice: string; readonly given?: LaidOut };
  /** Told once a job lies open, for work that can wait until then. */
  readonly idle?: () => void;
}

export interface RunningApp {
  /** Exit code: 0 when it was left by its own key, 130 by a Ctrl-C that reached it. The job is closed by then. */
  readonly ended: Promise<number>;
  /** Writes the frame once more, on a screen where something else was written meanwhile. */
  redraw(): void;
  /** Takes it off the screen at once, for an end that comes from outside. */
  unmount(): void;
}
export type OpenApp = (app: App) => RunningApp;
