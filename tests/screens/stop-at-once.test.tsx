/** A certain stop stands first on the page while its row is still asked, in a small window too, and a slip is put right. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.js';
import { begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const heat = {
  key: 'heat',
  kind: 'quantity',
  quantity: 'temperature',
  unit: 'degC',
  label: 'Heat',
  plausible: [10, 60],
  limits: [-50, 300],
};
const sound = {
  key: 'sound',
  kind: 'choice',
  label: 'Sound',
  options: [
    { value: 'smooth', label: 'Smooth' },
    { value: 'rough', label: 'Rough' },
  ],
};
const log = step('log', {
  hazard: true,
  do: 'Run it faster now.',
  caution: ['WARNING: A failing bearing seizes and throws parts: switch off if it smokes. Stand aside.'],
  repeat: { until: 'rows_log >= 3.0', most: 9 },
  show: ['rows_log'],
  ask: [heat, sound],
  gates: [
    {
      id: 'cool',
      at: 'enter',
      must: 'rows_log == 0.0 || last(all_heat) < 70.0',
      say: 'Switch off. Too hot.',
      overrule: 'never',
    },
  ],
});

async function inLog(cols: number, rows: number, pace: 'learning' | 'brisk' = 'learning'): Promise<Bench> {
  const b = openBench({
    model: pump([log]),
    entries: begun({}, [
      { kind: 'pace', pace },
      { kind: 'caution', step: 'log', place: 'job' },
    ]),
    cols,
    rows,
  });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.press('enter');
  await b.waitFor('Heat');
  return b;
}
const body = (b: Bench): string => b.screen().split('\n').slice(2).join(' ').replace(/\s+/g, ' ').trim();

test.each([
  [60, 20, 'learning'],
  [80, 24, 'learning'],
  [60, 20, 'brisk'],
  [80, 24, 'brisk'],
] as const)('%i by %i, %s: the stop stands first, with nothing that tells to go on', async (cols, rows, pace) => {
  const b = await inLog(cols, rows, pace);
  await b.press('7', '6', 'enter');
  expect(body(b)).toMatch(/^▲ STOP Switch off\. Too hot\. Do this first, then go on here\./);
  expect(body(b)).toContain('Sound');
  expect(body(b)).not.toContain('Run it faster');
  expect(body(b)).not.toContain('is unusual');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'answer', key: 'heat', value: 76 });
  await b.press('1');
  await b.waitFor('What you can do');
});

test('a slip is corrected by one key, and the row goes on as if it had never been hot', async () => {
  const b = await inLog(60, 20);
  await b.press('7', '6', 'enter');
  await b.press('u');
  await b.waitFor('stops the work and stays on record; correct it with a reason');
  await b.press('backspace');
  await b.waitFor('Which one?');
  await b.press('enter');
  await b.waitFor('Heat was 76 °C');
  await b.press('2', '6', 'enter');
  await b.waitFor('Heat  26 °C');
  await b.press(...'mistyped', 'enter');
  await b.waitFor('26 °C');
  await b.press(b.desk().safetyKey);
  await b.waitFor('Corrected. The old reading stays on record.');
  await b.press('1');
  await b.waitFor((s) => s.includes('rows of Title of log  1') && !s.includes('STOP'));
  expect(b.kept.entries.map((e) => e.kind)).toEqual(['job', 'pace', 'caution', 'answer', 'correct', 'answer']);
});

test('what is unusual and stops nothing is doubted as before', async () => {
  const b = await inLog(60, 20);
  await b.press('6', '5', 'enter');
  await b.waitFor('is unusual');
  expect(b.kept.entries.at(-1)?.kind).toBe('caution');
});
