/**
 * The job sheet as plain data: everything that the next owner of the rotor is told, in the order in which it is told.
 * Numbers are in canonical units (src/units/kinds.ts); beside each stands the text that a person reads.
 * Times are ISO 8601 instants. This is also the shape of the JSON sheet.
 */

import type { Answer, LifeEvent, TakenFrom } from '../engine/journal/entry.js';
import type { OverruleNow } from '../engine/state/overruled.js';
import type { StopLine } from '../engine/state/stops.js';
import type { AtPlace, OfStep, Who } from '../engine/state/told.js';
import type { Figure, Front, ToldSource } from './figure-data.js';

export type {
  DueLook,
  Figure,
  Front,
  NextLook as Due,
  Provenance,
  SaidRow,
  SheetLine as Said,
  ToldSource,
} from './figure-data.js';

export interface AnswerLine extends Who {
  readonly key: string;
  readonly label: string;
  readonly value: Answer;
  readonly unit: string;
  readonly plusMinus?: number;
  readonly text: string;
  /** As it was typed, where that says more than `text`. */
  readonly typed?: string;
  /** The finished job that it was taken over from, confirmed here. */
  readonly from?: TakenFrom;
  /** Set when the first answer was corrected later. */
  readonly corrected: boolean;
}

export interface StepLine extends OfStep {
  readonly answers: readonly AnswerLine[];
  /** Confirmation of work that has no reading of its own. */
  readonly confirmed?: Who;
  /** The line that the procedure writes for this step. */
  readonly mark?: string;
  readonly status: 'done' | 'waiting' | 'unfinished' | 'reopened' | 'stopped';
  /** Number of rows of a log; the rows are in `logs`. */
  readonly rows?: number;
}
export interface Findings extends AtPlace {
  readonly phases: readonly { readonly title: string; readonly steps: readonly StepLine[] }[];
}

export interface DecisionMade extends OfStep {
  readonly answers: readonly AnswerLine[];
  readonly confirmed?: Who;
  /** Figures that it rests on, as they are now. */
  readonly restsOn: readonly Figure[];
  readonly mark?: string;
  readonly reopened: boolean;
  readonly signature?: Signature;
  readonly overruled: readonly Overrule[];
}

/** One input of a calculation, with its provenance; `depth` 1 and more are what the line above was made of. */
export interface InputLine {
  readonly label: string;
  readonly text: string;
  readonly depth: number;
  readonly from: string;
  /** Id of the derivation in which it was worked out. */
  readonly derivation?: string;
  readonly sources: readonly ToldSource[];
}
export interface DerivationRow extends AtPlace {
  readonly id: string;
  readonly title: string;
  readonly formula: string;
  readonly worked: readonly string[];
  readonly results: readonly (Figure & { readonly dominant?: string })[];
  readonly inputs: readonly InputLine[];
  readonly sources: readonly ToldSource[];
  readonly warnings: readonly string[];
}

export interface Signature extends OfStep, Who {
  /** witnessed: another person, the mentor, looked; self: the technician's own check. */
  readonly role: 'witnessed' | 'self-checked';
  readonly initials: string;
  /** What the signature vouches for. */
  readonly says: string;
  /** Initials of whose session it was typed in. */
  readonly hands: string;
  /** Seconds after the entry before it. */
  readonly after?: number;
  /** Figure or finding of whoever signed, given before the guide's was shown. */
  readonly own?: string;
  /** Both figures and the reason, where the own one is further from the guide's than the hold point allows. */
  readonly apart?: string;
  /** Set where such a finding was asked for and none was given. */
  readonly noOwn?: true;
  /** The mentor named for the job, when it is another one who signed. */
  readonly insteadOf?: string;
  /** False when something under it changed after it was given, or it never counted. */
  readonly stands: boolean;
  /** Set when it never counted: who signed had done the work, or a witness was due and none signed. */
  readonly invalid?: boolean;
}
/** A signature that was asked for and not given. */
export interface RefusedSignature extends OfStep, Who {
  readonly initials: string;
  readonly reason: string;
}
export interface Overrule extends OfStep, Who {
  readonly gate: string;
  /** What the gate said. */
  readonly says: string;
  readonly reason: string;
  readonly initials: string;
  readonly now: OverruleNow;
  /** Of a log the figures of the reading at which it was, and of the one that followed. */
  readonly reading?: string;
  readonly next?: string;
}
export interface Correction extends OfStep, Who {
  readonly label: string;
  readonly old: string;
  readonly now: string;
  readonly typed?: string;
  readonly reason: string;
}
export interface RemedyLine extends OfStep {
  readonly text: string;
  readonly changed: readonly { readonly label: string; readonly old: string; readonly now: string }[];
  /** Why nothing is to be done about it. */
  readonly nothing?: string;
  /** Absent while it is still to be done, and where nothing is. */
  readonly settled?: Who & { readonly reason: string };
}
export interface EventLine extends AtPlace, Who {
  readonly title: string;
  readonly mark: string;
  readonly text?: string;
  /** How it ended, or what is still open; of one that came again what was said of it before that. */
  readonly ended?: string;
}
export interface CautionLine extends OfStep, Who {
  readonly cautions: readonly string[];
}
export interface WaitLine extends OfStep {
  readonly label: string;
  readonly from: string;
  /** Absent while it is not known how long it lasts. */
  readonly until?: string;
  readonly minutes?: number;
  readonly state: 'over' | 'running' | 'cut short';
  readonly clockBack: boolean;
}
/** A reading that was given and does not count, or no longer does. */
export interface SetAside extends OfStep, Who {
  readonly label: string;
  readonly text: string;
  /** Answered again, asked again after an unforeseen event, or does not fit its question and why. */
  readonly because: string;
}
/** An entry that was taken back at once: what it said, who gave it when, and who took it back. */
export interface TakenBack extends AtPlace, Who {
  /** The step, or what else it was. */
  readonly title: string;
  readonly what: string;
  /** Value as it was given; empty where it had none. */
  readonly text: string;
  readonly back: Who;
}
export interface NoteLine extends AtPlace, Who {
  readonly kind: 'note' | 'handover';
  readonly text: string;
}
export interface PredictionLine extends OfStep, Who {
  readonly label: string;
  readonly predicted: string;
  readonly actual: string;
}
export interface LogTable extends OfStep {
  readonly columns: readonly { readonly key: string; readonly label: string; readonly unit: string }[];
  readonly rows: readonly (Who & { readonly cells: readonly string[]; readonly corrected: boolean })[];
}
export interface Picture extends OfStep {
  readonly picture: 'syringe' | 'bearing-section' | 'cage-side' | 'probes' | 'run-in-curve' | 'life-curve';
  readonly values: Readonly<Record<string, Answer>>;
}
/** A picture that somebody took, as it is kept beside the job. */
export interface PhotoLine extends OfStep, Who {
  readonly file: string;
  readonly sha256: string;
  readonly bytes: number;
  readonly name: string;
  readonly shows?: string;
  /** The small picture as a data URI, where there is one. */
  readonly src?: string;
}
/** Marks to cut out at 1:1. Distances in mm from the line where the plunger stops. */
export interface Strip {
  readonly title: string;
  readonly say: string;
  readonly marks: readonly { readonly mm: number; readonly name: string; readonly label: string }[];
}
export interface FigureGroup {
  readonly title: string;
  /** Told with the record. */
  readonly appendix?: true;
  readonly figures: readonly Figure[];
}

export interface Head {
  /** Number of the job where it is kept; absent for one that was read from a file of readings. */
  readonly number?: string;
  /** When this sheet was made. */
  readonly issued?: string;
  readonly job: string;
  readonly procedure: string;
  readonly procedureTitle: string;
  readonly version: string;
  readonly hash: string;
  /** Check number over all entries of the record; absent for a job from a file of readings. */
  readonly check?: string;
  /** Set when the procedure is the shop's own and did not come with the program. */
  readonly shop?: true;
  /** Other versions of the procedure that the job went through. */
  readonly versions: readonly (Who & { readonly version: string; readonly hash: string })[];
  /** Words of the warning when the job is no real one. */
  readonly practice?: string;
  /** Of practice that began late: title of that phase. */
  readonly begunAt?: string;
  readonly earlier?: string;
  readonly started?: string;
  readonly lastEntry?: string;
  readonly people: readonly {
    readonly initials: string;
    readonly name?: string;
    readonly role: string;
    readonly entries: number;
  }[];
  /** For whom it was done, and the shop that did it. */
  readonly customer?: string;
  readonly issuer?: string;
  /** One sentence when recorded answers do not fit their questions. */
  readonly unfit?: string;
  readonly finished: boolean;
  readonly done: number;
  readonly total: number;
  /** First steps that are still open, when it is not finished. */
  readonly open: readonly string[];
}

export interface Sheet {
  /** Version of this shape. */
  readonly sheet: 2;
  readonly head: Head;
  /** In plain words: finished or not, accepted or not, what was overruled, what is open. */
  readonly verdict: string;
  readonly notice?: string;
  readonly front: Front;
  readonly stops: readonly StopLine[];
  readonly headline: readonly Figure[];
  readonly next: readonly Figure[];
  readonly groups: readonly FigureGroup[];
  readonly decisions: readonly DecisionMade[];
  readonly overruled: readonly Overrule[];
  readonly signatures: readonly Signature[];
  readonly refusals: readonly RefusedSignature[];
  readonly remedies: readonly RemedyLine[];
  readonly corrections: readonly Correction[];
  readonly events: readonly EventLine[];
  readonly findings: readonly Findings[];
  readonly derivations: readonly DerivationRow[];
  readonly strip?: Strip;
  readonly logs: readonly LogTable[];
  readonly pictures: readonly Picture[];
  /** Jobs and looks of this rotor until now, this one among them; empty where it is the first. */
  readonly life: readonly LifeEvent[];
  readonly photos: readonly PhotoLine[];
  readonly cautions: readonly CautionLine[];
  readonly waits: readonly WaitLine[];
  readonly notes: readonly NoteLine[];
  readonly predictions: readonly PredictionLine[];
  readonly setAside: readonly SetAside[];
  readonly clockJumps: readonly { readonly before: string; readonly after: string }[];
  /** Entries that were taken back at once; they are left out above. */
  readonly undone: number;
  readonly takenBack: readonly TakenBack[];
  readonly entries: number;
}
