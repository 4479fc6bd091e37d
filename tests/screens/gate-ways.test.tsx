/** The readings that a stop offers to correct: of which place each is, and those that the stop names first. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const places = [
  { id: 'valve', name: 'Valve', instances: [{ id: 'a', label: 'Upper valve' }] },
  {
    id: 'ring',
    name: 'Ring',
    within: 'valve',
    instances: [
      { id: 'front', label: 'front ring' },
      { id: 'back', label: 'back ring' },
    ],
  },
];
const rubber = {
  key: 'rubber',
  kind: 'choice',
  label: 'Rubber of the ring',
  options: [
    { value: 'nbr', label: 'Nitrile' },
    { value: 'fkm', label: 'Fluoro rubber' },
  ],
};
const number = (key: string, label: string) => ({ key, kind: 'number', label, limits: [0, 100] });
const answer = (of: string, place: string, key: string, value: unknown) => ({
  kind: 'answer',
  step: of,
  place,
  key,
  value,
});

async function stopped(gate: Record<string, unknown>, at: string): Promise<string> {
  const model = pump(
    [
      step('scale', { ask: [{ key: 'scale', kind: 'yes-no', label: 'Scale at hand' }] }),
      step('ring', { at: 'ring', ask: [rubber] }),
      step('fill', {
        at: 'valve',
        ask: [number('whole', 'Measured free volume'), number('share', 'Share of the free volume')],
      }),
      step('check', { at, ask: [{ key: 'seen', kind: 'yes-no', label: 'Seen' }], gates: [gate] }),
      asks.end,
    ],
    {
      places,
      facts: [
        { key: 'swells', at: 'valve', label: 'One swells', over: 'ring', any: "rubber == 'nbr'" },
        { key: 'space', at: 'valve', label: 'Free volume', type: 'double', is: 'whole * 1.0' },
        { key: 'much', at: 'valve', label: 'Too much', type: 'bool', is: '(scale ? whole : 0.0) > 5.0' },
      ],
    },
  );
  const entries = begun({}, [
    answer('scale', 'job', 'scale', true),
    answer('ring', 'a.front', 'rubber', 'nbr'),
    answer('ring', 'a.back', 'rubber', 'fkm'),
    answer('fill', 'a', 'whole', 10),
    answer('fill', 'a', 'share', 30),
  ]);
  const b = openBench({ model, entries, rows: 40 });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('go on');
  await b.press('enter', '1');
  return (await b.waitFor('STOP')).replace(/\s+/g, ' ');
}
const offered = (screen: string): string[] => [...screen.matchAll(/Correct: (.*?\))(?= )/g)].map((m) => m[1] ?? '');

test('a reading of one of several places below says of which it is', async () => {
  const gate = { id: 'swells', must: '!swells', say: 'One swells.', overrule: 'never' };
  expect(offered(await stopped(gate, 'valve'))).toEqual([
    'Rubber of the ring, Upper valve, front ring (now Nitrile)',
    'Rubber of the ring, Upper valve, back ring (now Fluoro rubber)',
  ]);
});

test('a stop that looks at one place offers the reading of that place alone', async () => {
  const gate = { id: 'swells', must: "rubber != 'nbr'", say: 'Not so.', overrule: 'never' };
  expect(offered(await stopped(gate, 'ring'))).toEqual(['Rubber of the ring (now Nitrile)']);
});

test('what the stop names is offered alone, also where the condition does not rest on it; a figure by its readings', async () => {
  const gate = { id: 'much', must: '!much', say: 'Too much.', overrule: 'never', correct: ['share', 'space'] };
  expect(offered(await stopped(gate, 'valve'))).toEqual([
    'Share of the free volume (now 30)',
    'Measured free volume (now 10)',
  ]);
});

test('what the condition names comes before what it was worked out from', async () => {
  const gate = { id: 'both', must: '!much && share < 20.0', say: 'Not so.', overrule: 'never' };
  expect(offered(await stopped(gate, 'valve'))[0]).toBe('Share of the free volume (now 30)');
});

test('no word of the sentence moves what is offered', async () => {
  const gate = (say: string) => ({ id: 'much', must: '!much', say, overrule: 'never' });
  const first = offered(await stopped(gate('Zz.'), 'valve'));
  expect(first).toEqual(['Scale at hand (now yes)', 'Measured free volume (now 10)']);
  expect(offered(await stopped(gate('Correct "Measured free volume", then the scale.'), 'valve'))).toEqual(first);
});
