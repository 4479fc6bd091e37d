/** A reading at which the machine has to be switched off says so before anything else is asked of its row. */
import { describe, expect, it } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import { certainStops } from '../../src/engine/state/certain-stop.js';
import { correctable } from '../../src/engine/state/correctable.js';
import { State } from '../../src/engine/state/state.js';
import { pauseBlocks } from '../../src/screens/step/log-rows.js';
import { Job, model } from './good-job.js';

type Row = Record<string, string | number>;

/** The job after so many rows of its run-in log, with a part of the row after them. */
function inLog(rows: number, part: Row): State {
  const job = new Job();
  const { state } = job.upTo('run-in-log').run();
  const all = new Job().step('run-in-log').rows as unknown as Row[];
  return typed(state, 'run-in-log', [...all.slice(0, rows), part]);
}
/** By the short runs at top speed. */
function inBursts(...rows: Row[]): State {
  const { state } = new Job().answer('run-in-plan', 'job', { drive_way: 'bursts' }).upTo('run-in-log').run();
  return typed(state, 'run-in-bursts', rows);
}
function typed(begun: State, step: string, rows: readonly Row[]): State {
  let state = begun;
  const act = (action: Parameters<typeof propose>[1], minutes = 0): void => {
    const p = propose(state, action, 'AB');
    if (!p.ok) throw new Error(p.message);
    const now = state.now + minutes * 60_000;
    const more = p.drafts.map((d, i) => ({ ...d, seq: state.entries.length + 1 + i, at: new Date(now).toISOString() }));
    state = new State(model, [...state.entries, ...(more as never)], now, { ...state.options, before: state });
  };
  act({ do: 'caution', step, place: 'job' });
  for (const { after = 5, ...row } of rows) {
    let minutes = Number(String(after).replace(/ .*/, ''));
    for (const [key, text] of Object.entries(row)) {
      act({ do: 'answer', step, place: 'job', key, text: String(text) }, minutes);
      minutes = 0;
    }
  }
  return state;
}
const doubted = (state: State, step: string, key: string, text: string): string | undefined => {
  const p = propose(state, { do: 'answer', step, place: 'job', key, text }, 'AB');
  if (!p.ok) throw new Error(p.message);
  return p.unusual;
};
const told = (state: State, step: string): string =>
  certainStops(state, state.board.own(model.steps.get(step)!, 'job'))
    .map((s) => s.says)
    .join('\n');

describe('the run-in log', () => {
  it('switches off at the limit without doubting it, at either bearing, in the first row and later', () => {
    for (const rows of [0, 3]) {
      const at = inLog(rows, { log_stage: 1 });
      expect(doubted(at, 'run-in-log', 'temp_a', '76 C')).toBeUndefined();
      expect(doubted(at, 'run-in-log', 'temp_a', '70 C')).toBeUndefined();
      expect(told(inLog(rows, { log_stage: 1, temp_a: '76 C' }), 'run-in-log')).toMatch(
        /^Switch off now\. Drive end: 76 °C is at or over the limit of 70 °C\./,
      );
      const other = inLog(rows, { log_stage: 1, temp_a: '23 C', temp_b: '76 C' });
      expect(told(other, 'run-in-log')).toMatch(/^Switch off now\. Non-drive end: 76 °C/);
      expect(other.view('run-in-log', 'job')?.question?.key).toBe('sound');
    }
  });
  it('doubts a high reading below the limit, and one colder than the room', () => {
    const at = inLog(20, { log_stage: 6 });
    expect(doubted(at, 'run-in-log', 'temp_a', '66 C')).toMatch(/Read it once more/);
    expect(doubted(at, 'run-in-log', 'temp_a', '4 C')).toMatch(/Read it once more/);
    expect(told(inLog(20, { log_stage: 6, temp_a: '66 C' }), 'run-in-log')).toBe('');
  });
  it('switches off before the sound is said where it rises too fast', () => {
    expect(told(inLog(3, { log_stage: 1, temp_a: '55 C' }), 'run-in-log')).toMatch(
      /^Switch off\. Let it stop by itself\. Drive end: it rose 32 K in 5 min/,
    );
  });
  it('says at the figure itself that a stage came too early, and offers the stage first to be corrected', () => {
    // Stage 1 is at its second reading.
    const early = inLog(2, { log_stage: 9 });
    expect(told(early, 'run-in-log')).toMatch(/^Go back now to stage 1: it was too early for stage 9\./);
    expect(early.view('run-in-log', 'job')?.question?.key).toBe('temp_a');
    expect(told(inLog(2, { log_stage: 1 }), 'run-in-log')).toBe('');
    expect(told(inLog(0, { log_stage: 2 }), 'run-in-log')).toMatch(
      /^Go back now to stage 1: it was too early for stage 2/,
    );
    // Hot: 25.2 to 48 °C in 5 min at stage 3 sends it to cool first.
    const rapid = { log_stage: 3, temp_a: '48 C', temp_b: '25 C', sound: 'smooth' };
    const on = typed(inLog(9, rapid), 'run-in-log', [{ log_stage: 3 }]);
    expect(told(on, 'run-in-log')).toMatch(/^Switch off now, let it cool, then run it at stage 2:/);
    // With the row whole it may be gone on with, by a reason.
    const whole = inLog(2, { log_stage: 9, temp_a: '23 C', temp_b: '23 C', sound: 'smooth' });
    const [held] = whole.view('run-in-log', 'job')!.gates;
    expect(held!.gate).toMatchObject({ id: 'stage-open', overrule: 'with-reason' });
    expect(correctable(whole, held!.gate, 'job').readings[0]?.question.key).toBe('log_stage');
  });
  it('stops for good once the sound was said, and after the event that row stops nothing more', () => {
    const hot = { log_stage: 1, temp_a: '76 C', temp_b: '24 C' };
    const whole = inLog(3, { ...hot, sound: 'smooth' });
    expect(whole.view('run-in-log', 'job')?.gates.map((g) => g.gate.id)).toContain('temp-limit');
    const half = inLog(3, hot);
    const raised = propose(half, { do: 'raise', branch: 'temperature-spike', place: 'job', text: '' }, 'AB');
    if (!raised.ok) throw new Error(raised.message);
    const drafts = [
      ...raised.drafts,
      { kind: 'answer', step: 'run-in-log', place: 'job', by: 'AB', key: 'sound', value: 'smooth' },
    ].map((d, i) => ({ ...d, seq: half.entries.length + 1 + i, at: new Date(half.now).toISOString() }));
    const then = new State(model, [...half.entries, ...(drafts as never)], half.now);
    const gates = then.board.own(model.steps.get('run-in-log')!, 'job').gates.map((g) => g.gate.id);
    expect(gates).not.toContain('temp-limit');
  });
});

describe('the short runs at top speed', () => {
  it('say until when it rests after a run, and what it reached', () => {
    const state = inBursts({ burst_a: '25 C', burst_b: '24 C', burst_sound: 'smooth' });
    const view = state.view('run-in-bursts', 'job')!;
    const told = (now: number, wants = view.wants): string =>
      pauseBlocks({ state: { values: state.values, model, now }, app: { terminal: { zone: 'UTC' } } } as never, {
        ...view,
        wants,
      })
        .flatMap((b) => b.lines?.(60) ?? [])
        .map((line) => line.map((span) => span.text).join(''))
        .join();
    const at = Date.parse(state.entries.at(-1)!.at);
    // 2.5 min are 150 s.
    const until = new Date(at + 150_000).toISOString().slice(11, 19);
    expect(told(at)).toBe(`Pause until ${until}. Last row: 25 °C, 24 °C, Smooth`);
    expect(told(at + 149_000)).toMatch(/^Pause until/);
    expect(told(at + 150_000)).toBe('Last row: 25 °C, 24 °C, Smooth');
    expect(told(at, 'gate')).toBe('');
  });
  it('stay off at the limit without doubting it', () => {
    for (const rows of [[], [{ burst_a: '23 C', burst_b: '22 C', burst_sound: 'smooth' }]]) {
      const at = inBursts(...rows);
      expect(doubted(at, 'run-in-bursts', 'burst_a', '76 C')).toBeUndefined();
      const hot = inBursts(...rows, { burst_a: '76 C' });
      expect(told(hot, 'run-in-bursts')).toMatch(/^Leave it off\. Drive end: 76 °C is at or over the limit of 70 °C\./);
    }
  });
});
