/** Rotors from the first screen: what is due beside the line, the list, one rotor's life, a job on it; and from a job. */
import { afterEach, expect, test } from 'vitest';
import type { ListedJob } from '../../src/screens/app-contract.js';
import { type Bench, openBench } from './bench.js';
import { asks, pump } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const job = (id: string, rotor: string, due: string | undefined, changed = '2026-01-05T10:00:00Z'): ListedJob => ({
  ...{ id, name: `Job ${id}`, procedure: 'pump', changed },
  summary: {
    ...{ finished: true, rotor, machine: 'Fan', did: 'Oiled' },
    ...(due ? { hours: 500, due } : {}),
  },
});

function rotors(jobs: readonly ListedJob[], asked: string[] = []): Bench {
  const b = openBench({
    model: pump([asks.choice]),
    at: '2026-03-10T08:00:00Z',
    app: {
      jobs: {
        list: () => ({ ok: true, value: jobs }),
        latest: () => ({ ok: true, value: { jobs: jobs.slice(0, 5), count: jobs.length } }),
        create: async () => ({ ok: false, trouble: { code: 'none', sentence: 'None.' } }),
        open: async () => ({ ok: false, trouble: { code: 'none', sentence: 'None.' } }),
      },
      rotorTold: async (rotor) => {
        asked.push(rotor);
        return [{ title: '', lines: () => [[{ text: `The life of ${rotor}` }]] }];
      },
    },
  });
  open.push(b);
  return b;
}
const four = [
  job('j1', 'R 1', '2026-02-20'),
  job('j2', 'R 2', '2026-03-12'),
  job('j3', 'R 3', undefined),
  job('j4', 'R 4', '2026-05-12'),
];
const digit = (b: Bench, line: string): string => new RegExp(`(\\d) +${line}`).exec(b.screen())?.[1] ?? '';

test('the first screen says what is due; the list leads to the life of a rotor, and that to a job on it', async () => {
  const asked: string[] = [];
  const b = rotors(four, asked);
  await b.ready();
  expect(b.screen()).toContain('Rotors: what is due  (1 overdue, 1 this week)');
  await b.press(digit(b, 'Rotors: what is due'));
  await b.waitFor('Pick a rotor to see its life');
  const lines = b.screen().match(/^.*R \d \(Fan\).*$/gm) ?? [];
  expect(lines.map((l) => l.replace(/\s+/g, ' ').trim())).toEqual([
    '> 1 R 1 (Fan) (18 days late, by 2026-02-20)'.replace(
      '> ',
      lines[0]?.trim()[0] === '1' ? '' : `${lines[0]?.trim()[0]} `,
    ),
    '2 R 2 (Fan) (in 2 days, by 2026-03-12)',
    '3 R 4 (Fan) (in 63 days, by 2026-05-12)',
    '4 R 3 (Fan) (no next look)',
  ]);
  await b.press('2');
  await b.waitFor('The life of R 2');
  expect(asked).toEqual(['R 2']);
  await b.press('s');
  await b.waitFor('New job on rotor R 2');
  await b.waitFor('Fan, rotor R 2');
});

test('where only practice jobs are, the list says why it is empty', async () => {
  const b = rotors([{ ...job('p1', 'R 1', '2026-02-20'), practice: 'quiet-one' }]);
  await b.ready();
  await b.press(digit(b, 'Rotors: what is due'));
  await b.waitFor('Practice jobs are not counted here.');
});

test('of very many rotors the one that is wanted is found by typing', async () => {
  const many = Array.from({ length: 300 }, (_, i) => job(`k${i}`, `R ${1000 + i}`, '2026-04-01'));
  const b = rotors(many);
  await b.ready();
  await b.press(digit(b, 'Start a job'));
  await b.waitFor('Which rotor?');
  await b.press('R', '1', '2', '3', '4');
  await b.waitFor((s) => !s.includes('R 1000'));
  expect(b.screen().match(/R 1\d\d\d \(Fan\)/g)).toEqual(['R 1234 (Fan)']);
  await b.press('enter');
  await b.waitFor('New job on rotor R 1234');
  await b.press('esc');
  await b.waitFor('Which rotor?');
  await b.press('esc');
  // A number that begins with a digit is typed, and picks no line by its first figure.
  await b.press('1', '2', '3', '5');
  await b.waitFor((s) => !s.includes('R 1000'));
  expect(b.screen().match(/R 1\d\d\d \(Fan\)/g)).toEqual(['R 1235 (Fan)']);
});
