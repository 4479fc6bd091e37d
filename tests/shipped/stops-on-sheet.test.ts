/** A stop that was met stands at the top of the sheet, however it ended. */
import { describe, expect, test } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import type { ReplayItem } from '../../src/engine/replay/replay-file.js';
import { State } from '../../src/engine/state/state.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { debriefOf } from '../../src/training/debrief.js';
import { debriefText } from '../../src/training/debrief-lines.js';
import { Job } from './good-job.js';

const good = new Job().run();
if (!good.ok) throw new Error(good.message);

/** The good job up to this answer, with another one in its place. */
function upTo(key: string, place: string, text: unknown, from = good): State {
  const { entries, model } = from.state;
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
    expect(sheet.verdict).toMatch(/STOPPED by a check: Run in and log\. Switch off now\. Rough or grinding\./);
    const text = toMarkdown(sheet);
    expect(text).toContain('## Stops met');
    for (const [whole, heading] of [
      [text, '## At a glance'],
      [toHtml(sheet), 'id="headline"'],
    ] as const) {
      expect(whole.indexOf('STILL STOPS THE WORK')).toBeGreaterThan(0);
      expect(whole.indexOf('STOPPED by a check')).toBeLessThan(whole.indexOf(heading));
    }
  });

  test('one that ended by a correction still stands, with its sentence of then and what ended it', () => {
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
    expect(stop).toMatchObject({
      gate: before?.gate,
      says: before?.says,
      ended: { how: 'corrected 60 s later: heard the fan; Sound: Rough → Smooth' },
    });
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

describe('a stop that ended without work', () => {
  const act = (state: State, action: Parameters<typeof propose>[1], after = 60_000): State => {
    const p = propose(state, action, 'AP');
    if (!p.ok) throw new Error(p.message);
    const at = state.now + after;
    const more = p.drafts.map(
      (d, n) => ({ ...d, seq: state.entries.length + 1 + n, at: new Date(at).toISOString() }) as Entry,
    );
    return new State(state.model, [...state.entries, ...more], at);
  };
  const cloth = { step: 'white-cloth', place: 'a', key: 'cloth' } as const;
  const gritty = (): State => upTo('cloth', 'a', 'grains');
  const told = (state: State): string =>
    sheetOf(state)
      .front.unusual.map((l) => l.text)
      .join('\n');

  test('is told with what was taken back, what was answered instead and that nothing was done between', () => {
    const state = act(act(gritty(), { do: 'undo' }), { do: 'answer', ...cloth, text: 'white' });
    const stop = sheetOf(state).stops.at(-1);
    expect(stop?.ended?.result).toBe('taken back');
    expect(told(state)).toMatch(
      /^NOT PUT RIGHT, taken back: White cloth: Gritty.* at \S+Z, then answered: White.* at \S+Z, nothing done between: White cloth test\./m,
    );
    expect(told(state)).not.toMatch(/put right; see/);
    // Instants are shown as a person reads them.
    expect(toMarkdown(sheetOf(state))).toMatch(/Gritty[^\n]* at \d+ \w+ \d{4}, \d\d:\d\d, then answered: White/);
  });

  test('by another answer or a correction of the same step is not told as put right', () => {
    const first = gritty().entries.findLast((e) => e.kind === 'answer')!;
    const corrected = act(gritty(), { do: 'correct', ...cloth, of: first.seq, text: 'white', reason: 'wrong key' });
    expect(sheetOf(corrected).stops.at(-1)?.ended).toMatchObject({
      result: 'answer changed',
      how: 'corrected 60 s later: wrong key; White cloth: Gritty - specks seen or felt → White - no colour, no grit',
    });
    expect(told(corrected)).toMatch(
      /^ANOTHER ANSWER ended a stop, corrected 60 s later: wrong key; White cloth: Gritty/m,
    );
    expect(told(corrected)).not.toMatch(/put right; see/);
    // Whoever learns reads it too, with what the stop said.
    expect(debriefText(debriefOf(corrected, undefined))).toMatch(
      /^Stops answered away\n+! White cloth test \(.*\): .+\n +AP corrected 60 s later: wrong key; White cloth: Gritty/m,
    );
    expect(debriefText(debriefOf(good.state, undefined))).not.toContain('Stops answered away');
  });

  test('is told as before where the work was reported and done again', () => {
    const again = act(gritty(), { do: 'raise', branch: 'not-clean', place: 'a', text: '' });
    expect(sheetOf(again).stops.at(-1)?.ended?.result).toBe('unforeseen');
  });

  const dry = { step: 'winding-dry', answers: { rated_volts: '400 V', ir_reading: '180 Mohm', ir_temp: '40 C' } };
  const wet = new Job()
    .answer('history', 'a', { got_in: ['coolant'] })
    .before('run-in-plan', 'job', dry)
    .answer('next-inspection', 'job', { inspect_set: '200' })
    .run();
  const reading = { do: 'answer', step: 'winding-dry', place: 'job', key: 'ir_reading', text: '60 Mohm' } as const;
  const stopped = (): State => {
    if (!wet.ok) throw new Error(wet.message);
    const low = upTo('ir_reading', 'job', '0.8 Mohm', wet);
    return act(low, { ...reading, key: 'ir_temp', text: '40 C' });
  };

  test('by another figure within a minute has a line of its own: what, from what to what, how long after', () => {
    const state = act(stopped(), reading);
    expect(sheetOf(state).stops.at(-1)?.ended?.result).toBe('answer changed');
    expect(told(state)).toMatch(
      /^ANOTHER ANSWER ended a stop, answered again 60 s later: Winding to earth.*: 800 kΩ → 60 MΩ: Insulation before power\./m,
    );
    expect(told(state)).not.toMatch(/put right; see/);
    // In short: what to do then is told with the stop itself.
    expect(told(state)).not.toContain('Dry it as the maker says');
    expect(toMarkdown(sheetOf(state))).toContain('Dry it as the maker says');
  });

  test('by a dose that a correction of the guide’s own asks for anew is told as that', () => {
    const set = { step: 'dose', place: 'b', key: 'dose_set' } as const;
    const share = { do: 'correct', step: 'share', place: 'b', key: 'share_set' } as const;
    const more = act(upTo('dose_set', 'b', '1.4 mL'), { ...share, text: '24 %', reason: 'read the wrong line' });
    const state = act(more, { do: 'answer', ...set, text: '1.1 mL' }, 20_000);
    expect(sheetOf(state).stops.at(-1)?.ended?.result).toBe('answered after a correction');
    expect(told(state)).toMatch(
      /^Asked anew: Set the dose, answered again 20 s later: Dose set: 1.4 mL → 1.1 mL, after Share of the free volume was corrected\.$/m,
    );
    // What it was corrected to, and why, is told once.
    expect(told(state).match(/30 % → 24 % \(read the wrong line\)/g)).toHaveLength(1);
    expect(told(state)).not.toMatch(/ANOTHER ANSWER/);
  });

  test('by another figure hours later is told as put right', () => {
    const state = act(stopped(), reading, 8 * 3_600_000);
    expect(sheetOf(state).stops.at(-1)?.ended?.result).toBe('put right');
    expect(told(state)).toMatch(/^1 check stopped the work and was put right; see/m);
  });

  test('by what the stop asks for is told in other words', () => {
    const tin = { step: 'grease-accept', place: 'job', key: 'tin_read' } as const;
    const state = act(upTo('tin_read', 'job', 'no'), { do: 'answer', ...tin, text: 'yes' }, 40_000);
    expect(sheetOf(state).stops.at(-1)?.ended?.result).toBe('confirmed');
    expect(told(state)).toMatch(
      /^Stopped, then confirmed as the stop asks: Take this grease, answered again 40 s later: Tin.*: no → yes\.$/m,
    );
    expect(told(state)).not.toMatch(/ANOTHER ANSWER|put right; see/);
  });

  test('so is another choice where the stop leaves no other way on, but not at terminals', () => {
    const leads = { step: 'prove-leads', place: 'a', key: 'leads' } as const;
    const state = act(upTo('leads', 'a', 'open'), { do: 'answer', ...leads, text: 'beep' }, 40_000);
    expect(told(state)).toMatch(
      /^Stopped, then confirmed as the stop asks: Test the beep, Drive end, answered again 40 s later: .*Silent → Beeps\.$/m,
    );
    expect(told(state)).not.toMatch(/ANOTHER ANSWER/);
    const dead = { step: 'standstill', place: 'job', key: 'stop_dead' } as const;
    const live = act(upTo('stop_dead', 'job', 'live'), { do: 'answer', ...dead, text: 'proven' }, 40_000);
    expect(told(live)).toMatch(/^ANOTHER ANSWER ended a stop/m);
  });

  test('is one for one answer: nobody saw the second', () => {
    const lock = { step: 'standstill', place: 'job', key: 'stop_locked' } as const;
    const open = upTo('stop_locked', 'job', 'not-yet');
    expect(sheetOf(open).stops.map((s) => s.gate)).toEqual(['stop-locked']);
    // Once it comes first it is seen, and stands there.
    const locked = act(act(open, { do: 'answer', ...lock, text: 'locked' }), {
      ...{ do: 'answer', ...lock, key: 'stop_dead' },
      text: 'one-kind',
    });
    expect(sheetOf(locked).stops.map((s) => s.gate)).toEqual(['stop-locked', 'stop-dead']);
  });
});

test('what came more than once is told with how each ended, the hottest too', () => {
  const spike = (spike_temp: string, spike_cause: string): ReplayItem[] => [
    { raise: 'temperature-spike', at: 'job' },
    { step: 'spike', answers: { spike_temp, spike_cause } } as ReplayItem,
  ];
  const job = new Job();
  job.before('run-in-log', 'job', ...spike('72 C', 'churning'), ...spike('74 C', 'rubbing'));
  job.items.length = job.items.findIndex((i) => 'step' in i && i.step === 'run-in-log');
  expect(toMarkdown(sheetOf(job.run().state))).toMatch(
    /Unforeseen, 2 times: Temperature spike in the run-in\. 72 °C at most: .*churning.*; 74 °C at most: .*rubs.*NOT SETTLED/,
  );
});

test('a correction that the stop asks for puts it right, also where its step is asked no more', () => {
  const job = new Job().upTo('refit-back', 'a');
  job.items.push(
    { raise: 'dose-wrong', at: 'a' },
    { step: 'dose-as-set', at: 'a', answers: { dose_fault: 'set' }, held: 'set-first' } as ReplayItem,
    { correct: { step: 'dose', at: 'a', key: 'dose_set', value: '2.1 mL', reason: 'slip' } } as ReplayItem,
  );
  const { stops } = sheetOf(job.run().state);
  expect(stops.find((l) => l.step === 'dose-as-set')?.ended).toMatchObject({ result: 'put right' });
});
