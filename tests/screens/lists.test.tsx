/** Lists from which something begins, and the way back from what began. */
import { afterEach, expect, test } from 'vitest';
import type { ListedJob } from '../../src/screens/app-contract.js';
import { type Bench, openBench } from './bench.js';
import { asks, pump } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const rotors = ['One', 'Two', 'Three'].map((title) => ({ id: title, title: `Rotor ${title}`, procedure: 'pump' }));

test('a digit opens the rotor beside it, a stray Enter none', async () => {
  const b = openBench({ model: pump([asks.choice]), app: { practices: () => rotors } });
  open.push(b);
  await b.ready();
  await b.press('2');
  await b.waitFor('Which invented rotor?');
  await b.press('enter');
  await b.waitFor('Nothing is picked yet');
  await b.press('2');
  await b.waitFor('Your initials');
  expect(b.screen()).toContain('Rotor Two');
  await b.press('esc');
  await b.waitFor('Which invented rotor?');
  await b.press('enter');
  await b.waitFor('Your initials');
  expect(b.screen()).toContain('Rotor Two');
});

test('Esc before the first step makes no job; who goes on from it later reads it again and still picks the pace', async () => {
  const model = pump([asks.choice]);
  const told = { ...model, procedure: { ...model.procedure, notice: 'Mind your fingers.' } };
  const b = openBench({ model: told });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('Name of the job');
  await b.press('Bench job', 'enter', 'AP', 'enter', '1');
  await b.waitFor('Before you begin');
  await b.press('esc');
  await b.waitFor('Who works on it?');
  expect(b.kept.entries, 'no job was made').toEqual([]);
  await b.press('1');
  await b.waitFor('Before you begin');
  await b.press('b');
  await b.waitFor('Title of colour');
  expect(b.kept.entries).toMatchObject([{ kind: 'job' }, { kind: 'pace', pace: 'brisk' }]);
});

test.each([
  ['at other minutes', 60_000, /09:5\d/g],
  ['within one minute', 1000, /09:5\d:\d\d/g],
  ['with one and the same time', 0, /09:59:59/g],
])('jobs of one name, last worked on %s, each have a digit and lead to their own job', async (_what, apart, times) => {
  const model = pump([asks.choice]);
  const opened: string[] = [];
  const jobs = [0, 1, 2, 3, 4, 5, 6].map((n) => ({
    id: `j${n}`,
    name: n < 3 ? 'Bench rotor' : `Other ${n}`,
    procedure: 'pump',
    changed: new Date(Date.parse('2026-03-02T09:59:59Z') - n * apart).toISOString(),
    summary: { next: 'Clean' },
  }));
  const b = openBench({
    model,
    app: {
      now: () => Date.parse('2026-03-02T12:00:00Z'),
      jobs: {
        list: () => ({ ok: true, value: jobs }),
        latest: () => ({ ok: true, value: { jobs: jobs.slice(0, 5), count: jobs.length } }),
        create: async () => ({ ok: false, trouble: { code: 'none', sentence: 'None.' } }),
        open: async (id) => {
          opened.push(id);
          return { ok: false, trouble: { code: 'none', sentence: `Not ${id}.` } };
        },
      },
    },
  });
  open.push(b);
  await b.ready();
  const digits = (): string[] => [...b.screen().matchAll(/^[ >❯›▸]*(\d) {1,2}\S/gm)].map((m) => m[1] ?? '');
  const same = (): string[] => b.screen().match(/Bench rotor .*$/gm) ?? [];
  const sameTimes = (): number => new Set(same().flatMap((line) => line.match(times) ?? [])).size;
  expect(digits()).toEqual(['1', '2', '3', '4', '5', '6', '7', '8', '9']);
  expect(same()).toHaveLength(3);
  expect(sameTimes()).toBe(apart ? 3 : 1);
  await b.press('2');
  await b.waitFor('Not j1.');
  await b.press(/(\d) +All \d+ jobs/.exec(b.screen())?.[1] ?? '');
  await b.waitFor('All jobs');
  await b.waitFor('Other 6');
  expect(digits()).toEqual(['1', '2', '3', '4', '5', '6', '7']);
  expect(same()).toHaveLength(3);
  expect(sameTimes()).toBe(apart ? 3 : 1);
  await b.press('3');
  await b.waitFor('Not j2.');
  expect(opened).toEqual(['j1', 'j2']);
});

test('the keys before the first step stay in the foot of a small window', async () => {
  const model = pump([asks.choice]);
  const notice = 'Mind your fingers and those of everybody near. '.repeat(30).trim();
  const b = openBench({ model: { ...model, procedure: { ...model.procedure, notice } }, cols: 60, rows: 20 });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor('Name of the job');
  await b.press('Bench job', 'enter', 'AP', 'enter', '1');
  const screen = await b.waitFor('Before you begin');
  expect(screen).toMatch(/Enter go on +b brisk/);
});

test('of a class each job tells whose it is, how far, and when a key was pressed by the clock on the wall', async () => {
  const job = { procedure: 'pump', practice: 'x' };
  const jobs: ListedJob[] = [
    // Waits were let pass in it, so that its last entry lies ahead.
    {
      ...job,
      id: 'a',
      name: 'Rotor 403',
      changed: '2026-03-02T13:02:00Z',
      summary: { by: 'LK', next: 'Whole job: Run it', touched: '2026-03-02T11:44:00Z' },
    },
    { ...job, id: 'b', name: 'Rotor 414', changed: '2026-03-02T11:43:00Z', summary: { by: 'C4' } },
    // Kept before the wall’s time was noted.
    {
      ...job,
      id: 'c',
      name: 'Rotor 415',
      changed: '2026-03-02T14:00:00Z',
      summary: { by: 'C5', next: 'Whole job: Run it' },
    },
  ];
  const b = openBench({
    model: pump([asks.choice]),
    cols: 100,
    app: {
      now: () => Date.parse('2026-03-02T12:00:00Z'),
      jobs: {
        list: () => ({ ok: true, value: jobs }),
        latest: () => ({ ok: true, value: { jobs, count: jobs.length } }),
        create: async () => ({ ok: false, trouble: { code: 'none', sentence: 'None.' } }),
        open: async () => ({ ok: false, trouble: { code: 'none', sentence: 'None.' } }),
      },
    },
  });
  open.push(b);
  await b.ready();
  expect(b.screen()).toMatch(/Rotor 403 \[practice, LK\] +\(Whole job: Run it; 11:44\)/);
  expect(b.screen()).toMatch(/Rotor 414 \[practice, C4\] +\(nothing typed yet; 11:43\)/);
  expect(b.screen()).toMatch(/Rotor 415 \[practice, C5\] +\(Whole job: Run it; 12:00\)/);
});
