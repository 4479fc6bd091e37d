/** Something unforeseen: which, where, and the steps that it brings. */
import { related } from '../../engine/journal/ledger.js';
import { withDrafts } from '../../engine/state/impact.js';
import { withReopened } from '../../procedure/model.js';
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

/** Titles of the steps that a branch lets be done again, of those that were done at this place or around or below it. */
function doneBefore(desk: Desk, branch: Branch, place: string): readonly string[] {
  const { board, views } = desk.state;
  // Looked at on its own: that something before it is open again does not undo it.
  const done = views
    .filter((v) => related(v.place, place))
    .map((v) => board.own(v.step, v.place))
    .filter(({ status }) => status === 'done' || status === 'waiting' || status === 'reopened');
  const again = withReopened(desk.model.procedure, branch.reopens ?? [], (id) => done.some((v) => v.step.id === id));
  return [...again].flatMap((id) => {
    const hit = done.find((v) => v.step.id === id);
    // A step of another event is not done again: what it reported no longer counts.
    return hit && (!hit.step.branch || hit.step.branch === branch.id) ? [hit.step.title] : [];
  });
}

/** Titles of what comes before all else once it is reported, in order: its own steps, and what makes it safe for them. */
function comesFirst(desk: Desk, branch: Branch, place: string): readonly string[] {
  const proposal = desk.propose({ do: 'raise', branch: branch.id, place });
  if (!proposal.ok) return [];
  const views = withDrafts(desk.state, proposal.drafts, { earlier: desk.earlier }).views.filter(
    (v) => related(v.place, place) && !['hidden', 'not-needed', 'done'].includes(v.status),
  );
  const end = views.findLastIndex((v) => v.step.branch === branch.id);
  return [...new Set(views.slice(0, end + 1).map((v) => v.step.title))];
}

export function raisePage(desk: Desk, branch: Branch, place: string): Page {
  const key = desk.safetyKey;
  const brings = comesFirst(desk, branch, place);
  const again = doneBefore(desk, branch, place).filter((title) => !brings.includes(title));
  const first = branch.first ? [alertBlock(branch.first, desk.stack.room)] : [];
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
          ...(brings.length ? [paragraph(`Comes first now: ${brings.join('; ')}.`, { gap: true })] : []),
          ...(again.length ? [paragraph(`To be done again: ${again.join('; ')}.`, { gap: true })] : []),
          // Beside the key, since the digits of what can be reported differ from place to place.
          paragraph(`Press ${key} to record it: ${branch.title}, ${placeWords(desk.state, place)}.`, {
            gap: true,
            tone: 'strong',
          }),
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
