/** Something unforeseen: which, where, and the steps that it brings. */
import { related } from '../../engine/journal/ledger.js';
import { withDrafts } from '../../engine/state/impact.js';
import type { StepView } from '../../engine/steps/board.js';
import type { Branch } from '../../procedure/schema.js';
import { type Desk, topOf } from '../desk.js';
import type { Page } from '../page.js';
import { alertBlock } from '../step/moment.js';
import { paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { ask, FormPage } from './form.js';
import { notePage } from './notes.js';
import { PickPage } from './pick-page.js';

/** Places at which a branch can be raised, those near `place` first. */
function placesFor(desk: Desk, branch: Branch, place: string): string[] {
  const all = desk.model.places
    .filter((p) => p.kind === branch.at && desk.state.values.takesPart(p.id))
    .map((p) => p.id);
  const near = (p: string): number => (p === place ? 0 : topOf(p) === topOf(place) ? 1 : 2);
  return all.sort((a, b) => near(a) - near(b));
}

/** Events that can be raised now, those at or near `place` first. */
export function eventsAt(desk: Desk, place: string): readonly { readonly branch: Branch; readonly place: string }[] {
  const choices = (desk.model.procedure.branches ?? []).flatMap((branch) =>
    placesFor(desk, branch, place)
      .filter((p) => desk.state.branches(p).some((b) => b.id === branch.id))
      .map((p) => ({ branch, place: p })),
  );
  const here = choices.filter((c) => c.place === 'job' || topOf(c.place) === topOf(place));
  return [...here, ...choices.filter((c) => !here.includes(c))];
}

/** What a procedure lists first comes before all else; then what happens in the phase of the step that is on or waited for. */
function ownPhaseFirst(desk: Desk, events: ReturnType<typeof eventsAt>): ReturnType<typeof eventsAt> {
  const { procedure } = desk.model;
  const stage = desk.stage();
  const on = stage.kind === 'step' ? stage.view : stage.kind === 'waiting' ? stage.waiting[0] : undefined;
  const phase = on?.step.phase;
  const weight = ({ id }: Branch): number =>
    id === procedure.branches?.[0]?.id ? 0 : procedure.steps.some((s) => s.branch === id && s.phase === phase) ? 1 : 2;
  return [...events].sort((a, b) => weight(a.branch) - weight(b.branch));
}

const somethingElse = 'something-else';

export function eventPage(desk: Desk, place: string): Page {
  const { stack } = desk;
  const ordered = ownPhaseFirst(desk, eventsAt(desk, place));
  return new PickPage(
    {
      name: 'event',
      head: 'Something unforeseen happened',
      title: 'What happened?',
      filter: true,
      items: () => [
        ...ordered.map((c) => ({
          value: `${c.branch.id}@${c.place}`,
          label: c.branch.title,
          words: c.branch.words,
          note: placeWords(desk.state, c.place),
        })),
        { value: somethingElse, label: 'Something else', note: 'a note for the job sheet' },
      ],
      kept: somethingElse,
      picked: (value) => {
        if (value === somethingElse) stack.push(notePage(desk, place));
        const hit = ordered.find((c) => `${c.branch.id}@${c.place}` === value);
        if (hit) stack.push(raisePage(desk, hit.branch, hit.place));
        return true;
      },
    },
    stack,
  );
}

/** Titles of what an event brings at this place, in the order of work, as the job stands once it is recorded. */
interface Brings {
  /** Up to the last step of the event itself. */
  readonly first: readonly string[];
  /** What was done and is to be done again behind that. */
  readonly again: readonly string[];
  /** Phases of these. */
  readonly phases: readonly string[];
}

function bringsOf(desk: Desk, branch: Branch, place: string): Brings {
  const { state, model } = desk;
  const raised = desk.propose({ do: 'raise', branch: branch.id, place });
  if (!raised.ok) return { first: [], again: [], phases: [] };
  const { board, views } = withDrafts(state, raised.drafts);
  // Looked at on its own: that something before it is open does not undo it.
  const wasDone = ({ step, place: at }: StepView): boolean =>
    ['done', 'waiting', 'reopened'].includes(state.board.own(step, at).status);
  const wasNeeded = (v: StepView): boolean => state.board.own(v.step, v.place).status !== 'not-needed';
  const open = views.filter(
    (v) => related(v.place, place) && !['done', 'not-needed'].includes(board.own(v.step, v.place).status),
  );
  const own = (v: StepView): boolean => v.step.branch === branch.id;
  const last = open.findLastIndex(own);
  // Of what may not come nothing is promised.
  const sure = (v: StepView): boolean => board.own(v.step, v.place).status !== 'hidden' && (own(v) || !wasNeeded(v));
  // Asked anew only of those who did not just do what it stands for.
  const isSpared = ({ step }: StepView): boolean =>
    step.anew?.after.some((id) => open.some((o) => o.step.id === id && (wasDone(o) || sure(o)))) === true;
  const comes = open.filter((v, i) => i <= last && (wasDone(v) || sure(v)) && !isSpared(v));
  const again = open.filter((v) => wasDone(v) && !comes.includes(v) && !isSpared(v));
  const titles = (of: readonly StepView[]): string[] => [...new Set(of.map((v) => v.step.title))];
  const phases = model.procedure.phases.filter((p) => again.some((v) => v.step.phase === p.id)).map((p) => p.title);
  return { first: titles(comes), again: titles(again), phases };
}

/** Fewer than these are named one by one before the key. */
const FEW = 4;

export function raisePage(desk: Desk, branch: Branch, place: string): Page {
  const key = desk.safetyKey;
  const { first: comes, again, phases } = bringsOf(desk, branch, place);
  const first = branch.first ? [alertBlock(branch.first, desk.stack.room)] : [];
  const short = again.length < FEW ? again.join('; ') : `${phases.join('; ')} (${again.length} steps)`;
  return new FormPage(
    {
      name: 'raise',
      head: `${branch.title} · ${placeWords(desk.state, place)}`,
      title: branch.title,
      intro: first,
      fields: [{ question: ask('text', 'In a few words (Enter to leave it out)', { longest: 300, optional: true }) }],
      confirm: (v) => ({
        key,
        does: 'record that it happened',
        blocks: [
          ...first,
          ...(v.text ? [paragraph(v.text)] : []),
          ...(comes.length ? [paragraph(`Comes first now: ${comes.join('; ')}.`, { gap: true })] : []),
          ...(again.length ? [paragraph(`To be done again: ${short}.`, { gap: true })] : []),
          // Beside the key, since the digits of what can be reported differ from place to place.
          paragraph(`Press ${key} to record it: ${branch.title}, ${placeWords(desk.state, place)}.`, {
            gap: true,
            tone: 'strong',
          }),
          ...(again.length < FEW ? [] : [paragraph(`Again, step by step: ${again.join('; ')}.`, { gap: true })]),
        ],
      }),
      done: async (v) => {
        const text = v.text?.trim();
        const acted = await desk.act({ do: 'raise', branch: branch.id, place, ...(text ? { text } : {}) });
        if (acted === 'done') desk.stack.popTo('step');
      },
    },
    desk.stack,
  );
}
