/** Trying a value without recording it. */

import type { Answer } from '../../engine/entry.js';
import { impactOf } from '../../engine/impact.js';
import { slot } from '../../engine/ledger.js';
import { readAnswer } from '../../engine/read-answer.js';
import { State } from '../../engine/state.js';
import { showKey } from '../../engine/texts.js';
import type { Question } from '../../procedure/schema.js';
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { filled } from '../step/question.js';
import { paragraph } from '../words/blocks.js';
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
        .filter((q) => q.kind !== 'text' && q.kind !== 'counter' && q.kind !== 'series' && q.kind !== 'dimensions')
        .filter((q) => !q.when || desk.state.values.holds(q.when, v.place) === true)
        .map((question) => ({ question, place: v.place })),
    );
}

export function whatIfPage(desk: Desk): Page {
  const list = triable(desk);
  return new PickPage(
    {
      name: 'what-if',
      filter: true,
      head: 'What if · nothing is recorded',
      title: 'Which value would you change?',
      items: () =>
        list.map((t, i) => ({
          value: String(i),
          label: `${labelOf(desk.state, t.question.key, t.place)}: ${showKey(desk.state.values, t.question.key, t.place)}`,
          note: placeWords(desk.state, t.place),
        })),
      picked: (value) => {
        const hit = list[Number(value)];
        if (hit) desk.stack.push(valuePage(desk, hit));
        return true;
      },
    },
    desk.stack,
  );
}

function valuePage(desk: Desk, t: Tried): Page {
  const question = filled(desk, t.question, t.place);
  const read = (text: string) => readAnswer(question, text, desk.model.tables);
  return new FormPage(
    {
      name: 'what-if-value',
      head: 'What if · nothing is recorded',
      title: `${question.label} is ${showKey(desk.state.values, question.key, t.place)} now. What if it were`,
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
        const r = read(v[question.key] ?? '');
        if (r.ok) desk.stack.replace(outcomePage(desk, t, v[question.key] ?? '', r.value));
      },
    },
    desk.stack,
  );
}

function outcomePage(desk: Desk, t: Tried, typed: string, value: Answer): Page {
  const { state } = desk;
  const trial = new Map([[slot(t.question.key, t.place), value]]);
  const after = new State(state.model, state.entries, state.now, { trial, earlier: desk.earlier });
  const impact = impactOf(state, after);
  return new ReadingPage(
    {
      name: 'what-if-outcome',
      head: 'What if · nothing is recorded',
      blocks: () => [
        paragraph(
          `If ${labelOf(state, t.question.key, t.place)} were ${showKey(after.values, t.question.key, t.place) || typed}:`,
          { tone: 'strong' },
        ),
        ...impactBlocks(state, impact, [t.question.key]),
      ],
    },
    desk.stack,
  );
}
