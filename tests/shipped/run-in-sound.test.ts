/** A sound is heard or not recorded: the log may offer the sound of before, but only a person's own key writes it. */
import { describe, expect, test } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { suggestionOf } from '../../src/engine/values/texts.js';
import { Job } from './good-job.js';

const good = new Job().run();
if (!good.ok) throw new Error(good.message);
const { entries, model } = good.state;
const step = model.procedure.steps.find((s) => s.id === 'run-in-log');
const question = step?.ask?.find((q) => q.key === 'sound');
if (!question) throw new Error('no sound in the log');
const sounds = entries.flatMap((e, i) =>
  e.kind === 'answer' && e.step === 'run-in-log' && e.key === 'sound' ? [i] : [],
);

/** The good job up to the sound of the reading of this number, from 0; other answers of that reading may be put in. */
function upTo(reading: number, instead: Record<string, string> = {}): State {
  const end = sounds[reading] ?? Number.NaN;
  let state = new State(model, entries.slice(0, end), Date.parse(entries[end]?.at ?? ''));
  if (Object.keys(instead).length === 0) return state;
  const begin = (sounds[reading - 1] ?? Number.NaN) + 1;
  state = new State(model, entries.slice(0, begin), Date.parse(entries[begin]?.at ?? ''));
  for (const e of entries.slice(begin, end)) {
    if (e.kind !== 'answer') continue;
    const p = propose(
      state,
      { do: 'answer', step: e.step, place: e.place, key: e.key, text: instead[e.key] ?? String(e.typed ?? e.value) },
      e.by,
    );
    if (!p.ok) throw new Error(p.message);
    const more = p.drafts.map((d, n) => ({ ...d, seq: state.entries.length + 1 + n, at: e.at }) as Entry);
    state = new State(model, [...state.entries, ...more], Date.parse(e.at));
  }
  return state;
}
const offered = (state: State): string | undefined => suggestionOf(state.values, question, 'job');
const asked = (state: State): string | undefined => state.view('run-in-log', 'job')?.question?.key;

describe('the sound of a reading', () => {
  test('is none of what the brisk pace fills in', () => {
    expect(question.filled).toBeUndefined();
  });
  test('is asked for at every reading, the last thing of its row', () => {
    expect(sounds.length).toBeGreaterThan(30);
    for (const reading of [0, 1, 2, 20, sounds.length - 1]) expect(asked(upTo(reading))).toBe('sound');
  });
  test('is not offered at the first reading, where nothing was heard yet', () => {
    expect(offered(upTo(0))).toBeUndefined();
  });
  test('is offered again only where the same stage goes on smoothly and the temperatures are as foretold', () => {
    // The reading after one at the same stage.
    const same = sounds.findIndex((_, i) => i > 2 && offered(upTo(i)) === 'smooth');
    expect(same).toBeGreaterThan(2);
    // Offered is not recorded: it is still asked for.
    expect(asked(upTo(same))).toBe('sound');
    expect(offered(upTo(same, { temp_a: '58 C' }))).toBeUndefined();
    expect(offered(upTo(same, { temp_b: '58 C' }))).toBeUndefined();
    expect(offered(upTo(same, { log_stage: '0' }))).toBeUndefined();
  });
  test('of a hiss is not offered for the next reading, nor smooth in its place', () => {
    const same = sounds.findIndex((_, i) => i > 2 && offered(upTo(i)) === 'smooth');
    const heard = upTo(same);
    const p = propose(heard, { do: 'answer', step: 'run-in-log', place: 'job', key: 'sound', text: 'hiss' }, 'MN');
    if (!p.ok) throw new Error(p.message);
    const more = p.drafts.map(
      (d, n) => ({ ...d, seq: heard.entries.length + 1 + n, at: new Date(heard.now).toISOString() }) as Entry,
    );
    expect(offered(new State(model, [...heard.entries, ...more], heard.now))).toBeUndefined();
  });
});
