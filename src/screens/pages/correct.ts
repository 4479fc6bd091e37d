/** Correcting an earlier reading: which, its new value, why, and what that changes before it is confirmed. */
import { type CorrectableReading, readingsOf } from '../../engine/state/correctable.js';
import { impactOf, withDrafts } from '../../engine/state/impact.js';
import { showKey } from '../../engine/values/texts.js';
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { filled } from '../step/question.js';
import { pair, paragraph, spans } from '../words/blocks.js';
import { labelOf, placeWords, valueWords } from '../words/entry-words.js';
import { timeOfDay } from '../words/times.js';
import { ask, FormPage } from './form.js';
import { impactBlocks } from './impact-blocks.js';
import { PickPage } from './pick-page.js';

export function correctPage(desk: Desk): Page {
  const list = readingsOf(desk.state);
  return new PickPage(
    {
      name: 'correct',
      filter: true,
      head: 'Correct an earlier reading',
      title: list.length ? 'Which one?' : 'Nothing has been read off yet.',
      items: () =>
        list.map((r) => ({
          value: String(r.given.first.seq),
          label: `${labelOf(desk.state, r.question.key, r.place)}: ${valueWords(desk.state, r.given.entry)}`,
          note: `${placeWords(desk.state, r.place)}, ${timeOfDay(Date.parse(r.given.entry.at), desk.state.now, desk.app.terminal.zone)}, ${r.given.entry.by}`,
        })),
      picked: (value) => {
        const hit = list.find((r) => String(r.given.first.seq) === value);
        if (hit) desk.stack.push(newValuePage(desk, hit));
        return true;
      },
    },
    desk.stack,
  );
}

export function newValuePage(desk: Desk, r: CorrectableReading): Page {
  const key = desk.safetyKey;
  const question = filled(desk, r.question, r.place);
  const now = valueWords(desk.state, r.given.entry);
  // A decision is made by the first figure of its step.
  const decides = r.step.decision ? r.step.show?.[0] : undefined;
  const action = (text: string, reason: string) =>
    ({
      do: 'correct',
      step: r.step.id,
      place: r.place,
      key: r.question.key,
      of: r.given.entry.seq,
      text,
      reason,
    }) as const;
  return new FormPage(
    {
      name: 'new-value',
      head: `Correct · ${placeWords(desk.state, r.place)}`,
      title: `${question.label} was ${now}`,
      intro:
        decides !== undefined && desk.state.values.get(decides, r.place).known
          ? [pair(labelOf(desk.state, decides, r.place), showKey(desk.state.values, decides, r.place, true))]
          : [],
      tables: desk.model.tables,
      fields: [
        {
          question,
          check: (text) => {
            const p = desk.propose(action(text, 'checking'));
            return p.ok ? undefined : p.message;
          },
        },
        {
          question: ask('reason', 'Why is it corrected?', { longest: 300 }),
          check: (t) => (t.trim().length < 3 ? 'Type the reason in a word or two.' : undefined),
        },
      ],
      confirm: (v) => {
        const p = desk.propose(action(v[r.question.key] ?? '', v.reason ?? ''));
        if (!p.ok) return { key: 'Esc', does: 'back', blocks: [paragraph(p.message)] };
        const draft = p.drafts[0];
        const told = draft?.kind === 'correct' ? valueWords(desk.state, draft) : '';
        const impact = impactOf(desk.state, withDrafts(desk.state, p.drafts, { earlier: desk.earlier }));
        return {
          key,
          does: 'correct it',
          blocks: [
            spans([{ text: `${question.label}  ` }, { text: now }, { text: ' → ' }, { text: told, tone: 'strong' }]),
            ...(p.unusual ? [paragraph(p.unusual, { tone: 'strong' })] : []),
            ...impactBlocks(desk.state, impact, { skip: [r.question.key, `all_${r.question.key}`], brief: true }),
            paragraph(`Press ${key} to correct it; Esc leaves all as it is.`, { gap: true, tone: 'strong' }),
          ],
        };
      },
      done: async (v) => {
        const acted = await desk.act(action(v[r.question.key] ?? '', v.reason ?? ''), { sure: true });
        if (acted !== 'done') return;
        desk.stack.popTo('step');
        desk.stack.say('Corrected. The old reading stays on record.', 'good');
      },
    },
    desk.stack,
  );
}
