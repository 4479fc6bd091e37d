/** An action of a person, turned into entries for the journal or refused with one sentence. */
import { closest } from 'fastest-levenshtein';
import { readAnswer } from '../../procedure/questions/index.js';
import type { Step } from '../../procedure/schema.js';
import { initialsSentence, sameInitials, tidyInitials } from '../journal/initials.js';
import { slot } from '../journal/ledger.js';
import { ownStop, ownWork } from '../journal/witness.js';
import { apartWords, ownFigure } from '../state/own-figure.js';
import { currencyClash, gateSentence, notNow } from '../state/refusals.js';
import type { State } from '../state/state.js';
import { figuresOf, type StepView } from '../steps/board.js';
import { sameDangerAt } from '../steps/cautions.js';
import { fillIn } from '../values/texts.js';
import { type Action, type AtStep, accept, type Proposal, refuse, together } from './action.js';
import { hidesStop } from './closing.js';
import { alike, answer, boundsOf, fromShelf, questionOf } from './propose-answer.js';
import { lastTakenBackGroup, lastUndoable, lastUndoableGroup, undoRefusal } from './undo.js';

export { gateSentence, notNow } from '../state/refusals.js';
export type { Action, Proposal } from './action.js';
export { alikeAt } from './propose-answer.js';

/** Words under a picture, and the name of its file, in characters. */
const SHOWS_MOST = 120;
const NAME_MOST = 200;
const NOTE_MOST = 2000;

function findStep(state: State, action: AtStep): Step | string {
  const step = state.model.steps.get(action.step);
  if (!step) {
    const near = closest(action.step, [...state.model.steps.keys()]);
    return `There is no step “${action.step.slice(0, 60)}” in this procedure; did you mean “${near}”?`;
  }
  const place = state.model.place.get(action.place);
  if (!place || place.kind !== step.at) {
    const fit = state.model.places.filter((p) => p.kind === step.at).map((p) => p.id);
    return `Step “${step.id}” is done at ${fit.join(' or ')}, not at “${action.place.slice(0, 60)}”.`;
  }
  return step;
}

export function propose(state: State, action: Action, by: string): Proposal {
  switch (action.do) {
    case 'undo': {
      const last = lastUndoable(state);
      if (!last || last.kind === 'job' || last.kind === 'operator' || last.kind === 'procedure')
        return refuse('There is nothing left to undo; correct an earlier reading instead.');
      const group = lastUndoableGroup(state);
      for (const e of group) {
        const stays = undoRefusal(state, e);
        if (stays) return refuse(stays);
      }
      return together(group.map((e) => ({ kind: 'undo', of: e.seq, by })));
    }
    case 'pace':
      return action.pace === state.ledger.pace
        ? refuse(`The pace is ${action.pace} already.`)
        : accept({ kind: 'pace', pace: action.pace, by });
    case 'redo': {
      const back = lastTakenBackGroup(state);
      return back.length
        ? together(back.map((e) => ({ kind: 'undo', of: e.seq, by })))
        : refuse('Nothing was taken back just now; there is nothing to bring back.');
    }
    case 'operator': {
      const initials = tidyInitials(action.initials);
      return initials ? accept({ kind: 'operator', initials, by: initials }) : refuse(initialsSentence);
    }
    case 'note':
    case 'handover': {
      const text = action.text.trim();
      if (!text) return refuse('The note is empty; write a word or leave with Esc.');
      if (text.length > NOTE_MOST) return refuse(`The note is too long; shorten it to ${NOTE_MOST} characters.`);
      return accept(
        action.do === 'note' ? { kind: 'note', place: action.place, text, by } : { kind: 'handover', text, by },
      );
    }
    case 'name': {
      const name = action.name.trim().replace(/\s+/g, ' ');
      if (!name) return refuse('The name is empty; type it or leave with Esc.');
      if (name.length > SHOWS_MOST) return refuse(`The name is too long; shorten it to ${SHOWS_MOST} characters.`);
      return accept({ kind: 'name', of: action.of, name, by });
    }
    case 'picture': {
      const step = findStep(state, action);
      if (typeof step === 'string') return refuse(step);
      const { file, sha256, bytes, name, place } = action;
      const shows = action.shows?.trim().slice(0, SHOWS_MOST);
      return accept({
        ...{ kind: 'picture', step: step.id, place, file, sha256, bytes, name: name.slice(0, NAME_MOST), by },
        ...(shows ? { shows } : {}),
      });
    }
    case 'raise': {
      const known = state.model.procedure.branches ?? [];
      const branch = known.find((b) => b.id === action.branch);
      if (!branch) {
        const near = known.length
          ? `; did you mean “${closest(
              action.branch,
              known.map((b) => b.id),
            )}”?`
          : '.';
        return refuse(`There is no branch “${action.branch.slice(0, 60)}” in this procedure${near}`);
      }
      const place = state.values.enclosing(branch.at, action.place);
      if (!place) return refuse(`“${branch.title}” is recorded at a ${branch.at}; name which one.`);
      if (!state.values.takesPart(place))
        return refuse(`${state.values.placeLabel(place)} takes no part in this job; nothing can be recorded there.`);
      if (branch.when && state.values.holds(branch.when, place) === false)
        return refuse(`“${branch.title}” can’t happen here as the answers stand.`);
      return accept({ kind: 'raise', branch: branch.id, place, text: action.text, by });
    }
    default:
      return atStep(state, action, by);
  }
}

type StepAction = Exclude<Extract<Action, AtStep>, { do: 'picture' }>;

/** What is done where the dangers were confirmed before says so too: the step then stands by itself. */
function atStep(state: State, action: StepAction, by: string): Proposal {
  const given = proposeAtStep(state, action, by);
  if (!given.ok || action.do === 'correct' || action.do === 'settle') return given;
  if (!state.view(action.step, action.place)!.confirmedBefore) return given;
  const { step, place } = action;
  return { ...given, drafts: [...given.drafts, { kind: 'caution', step, place, by, known: true, joined: true }] };
}

function proposeAtStep(state: State, action: StepAction, by: string): Proposal {
  const step = findStep(state, action);
  if (typeof step === 'string') return refuse(step);
  const view = state.view(step.id, action.place);
  if (!view) return refuse(`Step “${step.id}” is not part of this job.`);
  const at = { step: step.id, place: action.place, by };
  if (action.do === 'correct') return correction(state, view, action, by);
  if (action.do === 'alike') return alike(state, view, action.as, by);
  if (action.do === 'shelf') return fromShelf(state, view, action, by);
  if (action.do === 'settle') {
    if (!view.changed.length) return refuse(`Nothing under “${step.title}” has changed; there is nothing to settle.`);
    if (!action.reason.trim()) return refuse('Say in a word or two what was done, for the record.');
    return accept({
      kind: 'settle',
      ...at,
      reason: action.reason.trim(),
      figures: figuresOf(state.values, step, action.place),
    });
  }
  const waitOverrule = action.do === 'overrule' && action.gate === 'wait' && view.status === 'waiting';
  const open = view.status === 'open' || view.status === 'stopped' || view.status === 'reopened';
  const again = action.do === 'answer' && view.status === 'stopped' && view.gates.some((g) => g.gate.at === 'leave');
  if (!open && !waitOverrule) return refuse(notNow(state, view));
  switch (action.do) {
    case 'caution':
      if (view.wants === 'gate') return refuse(gateSentence(state, view));
      return accept({ kind: 'caution', ...at, ...alsoAt(state, view, action.wide) });
    case 'answer':
    case 'predict': {
      if (view.wants === 'gate' && !again) return refuse(gateSentence(state, view));
      if (view.wants === 'caution') return refuse(`The caution of “${step.title}” comes first; acknowledge it.`);
      if (view.wants === 'predict' && action.do === 'answer')
        return refuse(`“${step.title}” wants to know first what you expect; a guess is allowed.`);
      return action.do === 'predict' ? prediction(view, action, by) : answer(state, view, action, by);
    }
    case 'done':
      if (view.wants === 'gate') return refuse(gateSentence(state, view));
      if (view.wants !== 'confirm')
        return refuse(
          `“${step.title}” still asks something: ${fillIn(state.values, view.question?.label ?? view.wants, view.place)}.`,
        );
      return accept({ kind: 'done', ...at, figures: figuresOf(state.values, step, action.place) });
    case 'sign': {
      if (view.wants !== 'sign')
        return refuse(view.wants === 'gate' ? gateSentence(state, view) : `“${step.title}” is not ready to be signed.`);
      return sign(state, view, action, by);
    }
    case 'refuse': {
      if (view.wants !== 'sign') return refuse(`“${step.title}” is not ready to be signed, so nothing is refused.`);
      return refusal(state, view, action, by);
    }
    case 'overrule': {
      const initials = tidyInitials(action.initials);
      if (!initials) return refuse(initialsSentence);
      if (action.reason.trim().length < 3)
        return refuse('An overrule needs its reason in words; type it, then your initials.');
      const g = view.gates.find((x) => x.gate.id === action.gate);
      const own = ownStop(state.ledger, initials, by, g?.gate.overrule === 'second-person');
      if (own) return refuse(own);
      if (!g && !waitOverrule) return refuse(`No gate “${action.gate.slice(0, 60)}” is holding “${step.title}”.`);
      if (g?.gate.overrule === 'never') return refuse(gateSentence(state, view));
      return accept({
        kind: 'overrule',
        ...at,
        gate: action.gate,
        reason: action.reason.trim(),
        initials,
      });
    }
  }
}

function alsoAt(state: State, view: StepView, wide: true | undefined): { readonly also?: readonly string[] } {
  const also = wide && state.ledger.pace === 'brisk' ? sameDangerAt(state.views, view) : [];
  return also.length ? { also } : {};
}

function sign(state: State, view: StepView, said: Extract<Action, { do: 'sign' }>, by: string): Proposal {
  const initials = tidyInitials(said.initials);
  if (!initials) return refuse(initialsSentence);
  const { step, place } = view;
  const named = state.ledger.job?.mentor;
  if (!named) return accept({ kind: 'sign', step: step.id, place, by, role: 'self', initials });
  if (ownWork(state.ledger, place, initials, view.ledger))
    return refuse(`${initials} did the work; another person, the mentor, signs here.`);
  const other = sameInitials(initials, named)
    ? undefined
    : `${initials} is not the mentor named for this job (${named}); the sheet will say that another mentor signed.`;
  const own = said.own?.trim().slice(0, SHOWS_MOST);
  const read = own ? ownFigure(state, step, place, own) : undefined;
  if (read && !read.ok) return refuse(read.message);
  const reason = read?.apart ? (said.reason ?? '').trim().slice(0, NOTE_MOST) : undefined;
  if (read?.apart && (reason?.length ?? 0) < 3)
    return refuse(`${apartWords(read.apart)} Say why it is signed all the same.`);
  return accept(
    {
      ...{ kind: 'sign', step: step.id, place, by, role: 'mentor', initials },
      ...(own ? { own } : {}),
      ...(reason ? { reason } : {}),
    },
    other,
  );
}

/** Whoever is to sign may say no: on record, with what is to be done first. */
function refusal(state: State, view: StepView, said: Extract<Action, { do: 'refuse' }>, by: string): Proposal {
  const { step, place } = view;
  const initials = tidyInitials(said.initials);
  if (!initials) return refuse(initialsSentence);
  const reason = said.reason.trim().slice(0, NOTE_MOST);
  if (reason.length < 3) return refuse('Say in a word or two what is not right yet, for the record.');
  if (state.ledger.job?.mentor && ownWork(state.ledger, place, initials, view.ledger))
    return refuse(`${initials} did the work; another person, the mentor, refuses here.`);
  return accept({ kind: 'refuse', step: step.id, place, by, reason, initials });
}

function prediction(view: StepView, action: Extract<Action, { do: 'answer' | 'predict' }>, by: string): Proposal {
  if (!view.step.predict?.includes(action.key))
    return refuse(`Nothing is to be predicted for “${action.key.slice(0, 60)}” here.`);
  const text = String(action.text ?? '').trim();
  if (!text) return refuse('Write what you expect first; a guess is allowed.');
  return accept({
    kind: 'predict',
    step: view.step.id,
    place: view.place,
    by,
    key: action.key,
    value: text,
    typed: text,
  });
}

function correction(state: State, view: StepView, action: Extract<Action, { do: 'correct' }>, by: string): Proposal {
  const q = questionOf(state, view, action.key);
  if (typeof q === 'string') return refuse(q);
  const ledger = state.ledger.steps.get(slot(view.step.id, view.place));
  const given =
    ledger &&
    (action.of === undefined
      ? ledger.answers.get(q.key)
      : [...ledger.rows.flatMap((r) => [...r.values()]), ...ledger.answers.values()].find(
          (g) => g.entry.seq === action.of || g.first.seq === action.of,
        ));
  if (!given) return refuse(`“${q.label}” has no reading yet; answer it instead of correcting it.`);
  if (action.reason.trim().length < 3) return refuse('A correction needs its reason in words, for the record.');
  const read = readAnswer(q, action.text, state.model.tables, boundsOf(state, q, view.place));
  if (!read.ok) return refuse(read.message);
  const clash = currencyClash(state, q.key, view.place, read.typed);
  if (clash) return refuse(clash);
  const draft = {
    kind: 'correct',
    step: view.step.id,
    place: view.place,
    by,
    of: given.entry.seq,
    key: q.key,
    value: read.value,
    typed: read.typed,
    plusMinus: read.plusMinus,
    way: action.way,
    reason: action.reason.trim(),
  } as const;
  const hidden = hidesStop(state, [draft]);
  return hidden ? refuse(hidden) : accept(draft, read.unusual);
}
