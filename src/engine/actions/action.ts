/** What a person does, and what comes of it: entries for the journal, or one sentence. */
import type { Draft, Pace, TakenFrom } from '../journal/entry.js';

export interface AtStep {
  readonly step: string;
  readonly place: string;
}
export type Action =
  | ({ readonly do: 'done' } & AtStep)
  /** `wide`: in the brisk pace for the other positions too at which the same step is still to come. */
  | ({ readonly do: 'caution'; readonly wide?: true } & AtStep)
  | ({
      readonly do: 'answer' | 'predict';
      readonly key: string;
      readonly text: unknown;
      /** In practice: how it was measured. */
      readonly way?: string;
    } & AtStep)
  | ({
      readonly do: 'sign';
      readonly initials: string;
      readonly own?: string | undefined;
      /** Why it is signed though one's own figure is too far from the guide's. */
      readonly reason?: string | undefined;
    } & AtStep)
  | ({ readonly do: 'refuse'; readonly reason: string; readonly initials: string } & AtStep)
  | ({ readonly do: 'overrule'; readonly gate: string; readonly reason: string; readonly initials: string } & AtStep)
  | ({
      readonly do: 'correct';
      readonly key: string;
      readonly of?: number;
      readonly text: unknown;
      readonly way?: string;
      readonly reason: string;
    } & AtStep)
  | ({ readonly do: 'settle'; readonly reason: string } & AtStep)
  | { readonly do: 'undo' | 'redo' }
  | { readonly do: 'raise'; readonly branch: string; readonly place: string; readonly text?: string }
  | { readonly do: 'note'; readonly place: string; readonly text: string }
  | { readonly do: 'handover'; readonly text: string }
  | { readonly do: 'name'; readonly of: string; readonly name: string }
  | ({
      readonly do: 'picture';
      readonly file: string;
      readonly sha256: string;
      readonly bytes: number;
      readonly name: string;
      readonly shows?: string;
    } & AtStep)
  | { readonly do: 'operator'; readonly initials: string }
  | { readonly do: 'pace'; readonly pace: Pace }
  /** Takes the answers of the same step at another place. */
  | ({ readonly do: 'alike'; readonly as: string } & AtStep)
  /** Answers of this step as in an earlier job of the shop, by key, as they were typed there. */
  | ({ readonly do: 'shelf'; readonly texts: Readonly<Record<string, string>>; readonly from: TakenFrom } & AtStep);

export type Proposal =
  | { readonly ok: true; readonly drafts: readonly Draft[]; readonly unusual: string | undefined }
  | { readonly ok: false; readonly message: string };

export const refuse = (message: string): Proposal => ({ ok: false, message });
export const accept = (draft: Draft, unusual?: string): Proposal => ({ ok: true, drafts: [draft], unusual });
/** Recorded by one key: taken back by one key too. */
export const together = (drafts: readonly Draft[]): Proposal => ({
  ok: true,
  drafts: drafts.map((d, i) => (i > 0 ? { ...d, joined: true as const } : d)),
  unusual: undefined,
});
