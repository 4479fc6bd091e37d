/** Trying one value, or several together, without recording anything. */

import type { Answer } from '../../engine/journal/entry.js';
import { slot } from '../../engine/journal/ledger.js';
import { type ChangedValue, type Impact, impactOf } from '../../engine/state/impact.js';
import { State } from '../../engine/state/state.js';
import { showKey, showValue } from '../../engine/values/texts.js';
import { kindOf, readAnswer } from '../../procedure/questions/index.js';
import type { Question } from '../../procedure/schema.js';
import type { Desk } from '../desk.js';
import type { Block, Span } from '../look/line.js';
import type { Page } from '../page.js';
import { filled } from '../step/question.js';
import { heading, paragraph, spans } from '../words/blocks.js';
import { labelOf, placeWords } from '../words/entry-words.js';
import { FormPage } from './form.js';
import { impactBlocks } from './impact-blocks.js';
import { PickPage } from './pick-page.js';
import { ReadingPage } from './reading-page.js';

interface Tried {
  readonly question: Question;
  readonly place: string;
}

/** Questions that were answered or that a step asks now. */
function triable(desk: Desk): Tried[] {
  return desk.state.views
    .filter((v) => !v.step.repeat && v.status !== 'not-needed' && v.status !== 'hidden')
    .flatMap((v) =>
      (v.step.ask ?? [])
        .filter((q) => kindOf(q).tried)
        .filter((q) => !q.when || desk.state.values.holds(q.when, v.place) === true)
        .map((question) => ({ question, place: v.place })),
    );
}

/** Values that are tried together, by "key@place". */
type Trial = Map<string, Tried & { readonly typed: string; readonly value: Answer }>;

const head = 'What if · nothing is recorded';
const whereOf = (desk: Desk, place: string): string => (place === 'job' ? '' : ` (${placeWords(desk.state, place)})`);

/** The job as it would be with these values. */
function stateWith(desk: Desk, trial: Trial): State {
  const { state } = desk;
  const values = new Map([...trial].map(([id, t]) => [id, t.value]));
  return new State(state.model, state.entries, state.now, { trial: values, earlier: desk.earlier });
}

/** One line for each tried value: what it is, and what it is taken for. */
function triedBlocks(desk: Desk, trial: Trial): Block[] {
  return [...trial.values()].map(({ question: { key }, place, typed, value }) =>
    spans(
      [
        { text: `${labelOf(desk.state, key, place)}${whereOf(desk, place)}  `, tone: 'quiet' },
        { text: showKey(desk.state.values, key, place) },
        { text: ' → ' },
        { text: showValue(desk.model, key, value) || typed, tone: 'strong' },
      ],
      { rank: 1, indent: 2 },
    ),
  );
}

export function whatIfPage(desk: Desk): Page {
  const list = triable(desk);
  const trial: Trial = new Map();
  return new PickPage(
    {
      name: 'what-if',
      filter: true,
      head,
      title: 'Which value would you change?',
      above: () => (trial.size ? [heading('Tried so far'), ...triedBlocks(desk, trial)] : []),
      items: () => [
        ...(trial.size
          ? [
              { value: 'see', label: 'See again what they change' },
              { value: 'forget', label: 'Clear and start again' },
            ]
          : []),
        ...list.map((t, i) => ({
          value: String(i),
          label: `${labelOf(desk.state, t.question.key, t.place)}: ${showKey(desk.state.values, t.question.key, t.place)}`,
          note: placeWords(desk.state, t.place),
        })),
      ],
      picked: (value) => {
        const hit = list[Number(value)];
        if (value === 'see') desk.stack.push(outcomePage(desk, trial));
        else if (value === 'forget') trial.clear();
        else if (hit) desk.stack.push(valuePage(desk, hit, trial));
        return true;
      },
    },
    desk.stack,
  );
}

function valuePage(desk: Desk, t: Tried, trial: Trial): Page {
  const question = filled(desk, t.question, t.place);
  const read = (text: string) => readAnswer(question, text, desk.model.tables);
  return new FormPage(
    {
      name: 'what-if-value',
      head,
      title: `${question.label} is ${showKey(desk.state.values, question.key, t.place)} now. What if it were`,
      intro: triedBlocks(desk, trial),
      tables: desk.model.tables,
      fields: [
        {
          question,
          check: (text) => {
            const r = read(text);
            return r.ok ? undefined : r.message;
          },
        },
      ],
      done: (v) => {
        const typed = v[question.key] ?? '';
        const r = read(typed);
        if (!r.ok) return;
        trial.set(slot(question.key, t.place), { ...t, typed, value: r.value });
        desk.stack.replace(outcomePage(desk, trial));
      },
    },
    desk.stack,
  );
}

/** Figures that the sheet begins with: those that change, before and after, and those that stay. */
function sheetBlocks(desk: Desk, after: State, skip: readonly string[], changed: readonly ChangedValue[]) {
  const { state } = desk;
  const moved: Block[] = [];
  const kept: Block[] = [];
  for (const { key, heading: named } of state.model.procedure.sheet?.figures ?? []) {
    if (skip.includes(key)) continue;
    for (const place of state.values.placesOf(key)) {
      const hit = changed.find((c) => c.key === key && c.place === place);
      const label: Span = { text: `${named ?? labelOf(state, key, place)}${whereOf(desk, place)}  `, tone: 'quiet' };
      const told: Span[] = hit
        ? [{ text: hit.old }, { text: ' → ' }, { text: hit.now, tone: 'strong' }]
        : [{ text: showKey(after.values, key, place, true) }];
      if (hit) moved.push(spans([label, ...told], { indent: 2 }));
      else if (state.values.get(key, place).known) kept.push(spans([label, ...told], { indent: 2 }));
    }
  }
  return {
    moved: moved.length ? [heading('Before and after'), ...moved] : [],
    kept: kept.length ? [heading('These stay as they are'), ...kept] : [],
  };
}

/** Answers of decisions that were taken on the old figures: a trial leaves them as they are. */
function decidedBlocks(desk: Desk, impact: Impact, trial: Trial): Block[] {
  const { state } = desk;
  const kept = impact.steps
    .filter((s) => state.model.steps.get(s.step)?.decision && (s.what === 'reopened' || s.what === 'stopped'))
    .flatMap((s) => state.view(s.step, s.place)?.answered.map((a) => ({ key: a.question.key, place: s.place })) ?? [])
    .filter(({ key, place }) => !trial.has(slot(key, place)));
  if (kept.length === 0) return [];
  const names = kept.map(
    ({ key, place }) => `${labelOf(state, key, place)}${whereOf(desk, place)} ${showKey(state.values, key, place)}`,
  );
  return [
    paragraph(`Left as it was decided: ${names.join('; ')}. Try another with it, and what rests on it moves too.`, {
      gap: true,
    }),
  ];
}

function outcomePage(desk: Desk, trial: Trial): Page {
  const after = stateWith(desk, trial);
  const impact = impactOf(desk.state, after);
  const keys = [...trial.values()].map((t) => t.question.key);
  const sheet = sheetBlocks(desk, after, keys, impact.values);
  const figures = (desk.model.procedure.sheet?.figures ?? []).map((f) => f.key);
  return new ReadingPage(
    {
      name: 'what-if-outcome',
      head,
      hints: [{ key: 'Enter', does: 'try another with it', rank: 1 }],
      press(key) {
        if (key.name !== 'enter') return false;
        desk.stack.pop();
        return true;
      },
      blocks: () => [
        heading('If'),
        ...triedBlocks(desk, trial),
        ...decidedBlocks(desk, impact, trial),
        ...sheet.moved,
        ...impactBlocks(desk.state, impact, { skip: [...keys, ...figures], most: 60 }),
        ...sheet.kept,
      ],
    },
    desk.stack,
  );
}
