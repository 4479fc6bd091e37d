/** A stop that was met stands at the top of the sheet, however it ended. */
import { describe, expect, test } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { Job } from './good-job.js';

const good = new Job().run();
if (!good.ok) throw new Error(good.message);

/** The good job up to this answer, with another one in its place. */
function upTo(key: string, place: string, text: unknown): State {
  const { entries, model } = good.state;
  const i = entries.findIndex((e) => e.kind === 'answer' && e.key === key && e.place === place);
  const e = entries[i];
  if (e?.kind !== 'answer') throw new Error(`no ${key}`);
  const kept = entries.slice(0, i);
  const state = new State(model, kept, Date.parse(e.at));
  const p = propose(state, { do: 'answer', step: e.step, place, key, text }, e.by);
  if (!p.ok) throw new Error(p.message);
  const more = p.drafts.map((d, n) => ({ ...d, seq: kept.length + 1 + n, at: e.at }) as Entry);
  return new State(model, [...kept, ...more], Date.parse(e.at));
}

describe('stops met', () => {
  test('none in a good job', () => {
    expect(sheetOf(good.state).stops).toEqual([]);
    expect(toMarkdown(sheetOf(good.state))).not.toContain('Stops met');
  });

  test('a rough sound in the run-in is told before the figures, and stands while it stops the work', () => {
    const state = upTo('sound', 'job', 'rough');
    const sheet = sheetOf(state);
    expect(sheet.stops.length).toBeGreaterThan(0);
    expect(sheet.stops.at(-1)?.ended).toBeUndefined();
    const text = toMarkdown(sheet);
    expect(text).toContain('## Stops met');
    for (const [whole, heading] of [
      [text, '## At a glance'],
      [toHtml(sheet), 'id="headline"'],
    ] as const) {
      expect(whole.indexOf('STILL STOPS THE WORK')).toBeGreaterThan(0);
      expect(whole.indexOf('STILL STOPS THE WORK')).toBeLessThan(whole.indexOf(heading));
    }
  });

  test('one that was put right still stands, with its sentence of then and what ended it', () => {
    const state = upTo('sound', 'job', 'rough');
    const rough = state.entries.findLast((e) => e.kind === 'answer')!;
    const { step } = rough as { step: string };
    const p = propose(
      state,
      { do: 'correct', step, place: 'job', key: 'sound', of: rough.seq, text: 'smooth', reason: 'heard the fan' },
      'AP',
    );
    if (!p.ok) throw new Error(p.message);
    const at = new Date(state.now + 60_000).toISOString();
    const more = p.drafts.map((d, n) => ({ ...d, seq: rough.seq + 1 + n, at }) as Entry);
    const after = new State(state.model, [...state.entries, ...more], state.now + 60_000);
    const before = sheetOf(state).stops.at(-1);
    const stop = sheetOf(after).stops.at(-1);
    expect(stop).toMatchObject({ gate: before?.gate, says: before?.says, ended: { how: 'corrected: heard the fan' } });
  });

  test('one that was overruled is told with the same sentence wherever it stands', () => {
    const job = new Job().answer('dose', 'a', { dose_set: '2.8 mL' });
    job.step('dose', 'a').overrule = { gate: 'dose-near', reason: 'leaks more than it should', initials: 'MN' };
    const sheet = sheetOf(job.run().state);
    const stop = sheet.stops.find((s) => s.gate === 'dose-near');
    expect(stop?.says).toMatch(/more than a tenth away/);
    expect(sheet.overruled.find((o) => o.gate === 'dose-near')?.says).toBe(stop?.says);
  });
});
