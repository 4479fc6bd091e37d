/** The brisk pace at the screens: fewer keys, the same record. On an invented hand pump. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});
const brisk = [{ kind: 'pace', pace: 'brisk' }];
async function bench(pace: readonly Record<string, unknown>[], ...steps: Record<string, unknown>[]): Promise<Bench> {
  return benchOf({}, pace, steps);
}
async function benchOf(
  job: Parameters<typeof begun>[0],
  pace: readonly Record<string, unknown>[],
  steps: readonly Record<string, unknown>[],
  size: { readonly cols?: number; readonly rows?: number } = {},
): Promise<Bench> {
  const b = await onStep({ model: pump([...steps, asks.end]), entries: begun(job, pace), ...size });
  open.push(b);
  return b;
}
const answers = (b: Bench): unknown[] =>
  b.kept.entries.flatMap((e) => (e.kind === 'answer' ? [`${e.key}@${e.place}=${String(e.value)}`] : []));

test('the menu turns the pace, and the journal says so', async () => {
  const b = await bench([], asks.choice);
  await b.press('m');
  const menu = await b.waitFor('Pace: learning');
  expect(menu).toContain('Pace: learning');
  while (!/▸.*Pace: learning/.test(b.screen())) await b.press('down');
  await b.press('enter');
  await b.waitFor('Pace: brisk');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'pace', pace: 'brisk', by: 'AP' });
});

test('a dangerous step is done with Enter after its danger was confirmed; in the learning pace with 9', async () => {
  const b = await bench(brisk, asks.danger);
  await b.press('enter');
  expect(
    b.kept.entries.some((e) => e.kind === 'caution'),
    'Enter confirms no danger',
  ).toBe(false);
  await b.press('9');
  await b.waitFor('done');
  await b.press('enter');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'done', step: 'danger' });
  // The key of a danger is right there too; once too many is told.
  const habit = await bench(brisk, asks.danger);
  await habit.press('9', '9');
  await habit.waitFor('9 confirms a danger. Here: Enter done.');
  expect(habit.kept.entries.at(-1)).toMatchObject({ kind: 'caution' });
  await habit.press('9');
  expect(habit.kept.entries.at(-1)).toMatchObject({ kind: 'done', step: 'danger' });
  const slow = await bench([], asks.danger);
  await slow.press('9');
  await slow.waitFor('done');
  await slow.press('enter');
  expect(slow.kept.entries.at(-1)).toMatchObject({ kind: 'caution' });
  await slow.press('9');
  expect(slow.kept.entries.at(-1)).toMatchObject({ kind: 'done' });
});

test('a danger that stands on the screen is not confirmed twice in a sitting, and still stands there', async () => {
  const b = await bench(brisk, asks.danger, { ...asks.danger, id: 'danger-2', title: 'Title of danger-2' });
  await b.press('9');
  await b.waitFor('done');
  await b.press('enter');
  const screen = await b.waitFor('Title of danger-2');
  expect(screen).toContain('Hot steam');
  expect(screen).toContain('done');
});

const seal = step('seal', {
  at: 'valve',
  alike: true,
  ask: [
    { key: 'make', kind: 'text', label: 'Make' },
    { key: 'dry', kind: 'yes-no', label: 'Dry' },
  ],
});

test('Enter takes the answers of the other place; anything typed answers here', async () => {
  const b = await bench(brisk, seal);
  await b.press(...'Mill', 'enter', '1');
  await b.waitFor('Lower valve');
  if (b.screen().includes('nothing more to do here')) await b.press('1');
  await b.waitFor('the same as Upper valve: Mill, yes');
  await b.press('enter');
  expect(answers(b)).toEqual(['make@a=Mill', 'dry@a=true', 'make@b=Mill', 'dry@b=true']);
});

const log = step('heat', {
  ask: [
    { key: 'room', kind: 'quantity', quantity: 'temperature', unit: 'degC', label: 'Room', limits: [-20, 300] },
    ...['a', 'b'].map((at) => ({
      key: `heat_${at}`,
      kind: 'quantity',
      quantity: 'temperature',
      unit: 'degC',
      label: `Heat ${at}`,
      limits: [-20, 300],
      near: 'room',
    })),
  ],
});

test('a reading is complete with its tenth; its point is set where only that can be meant', async () => {
  const b = await bench(brisk, log);
  await b.press('2', '1', 'enter');
  await b.waitFor('Heat a');
  await b.press('2', '2', '6');
  // It went on by itself; Enter out of habit does nothing.
  await b.waitFor('Heat b');
  await b.press('enter');
  expect(b.screen()).not.toContain('nothing was typed');
  await b.press('2', '2', '4');
  await b.waitFor('22.4');
  expect(answers(b), 'the last of a row is recorded by Enter').toEqual(['room@job=21', 'heat_a@job=22.6']);
  await b.press('enter');
  expect(answers(b)).toEqual(['room@job=21', 'heat_a@job=22.6', 'heat_b@job=22.4']);
});

test.each([
  ['a hundred and more is never made a tenth of it', ['1', '0', '5', 'enter', '3', '0', 'enter'], [105, 30]],
  ['whole degrees take their Enter', ['4', '1', 'enter', '3', '8', 'enter'], [41, 38]],
  [
    'far from the reading before the point is not set',
    ['9', '9', '9', 'backspace', 'enter', '3', '0', 'enter'],
    [99, 30],
  ],
])('%s', async (_, keys, [a, other]) => {
  const b = await bench(brisk, log);
  await b.press('2', '1', 'enter');
  await b.waitFor('Heat a');
  await b.press(...keys);
  expect(answers(b)).toEqual(['room@job=21', `heat_a@job=${a}`, `heat_b@job=${other}`]);
});

test('in the learning pace a figure stays as it is typed', async () => {
  const b = await bench([], log);
  await b.press('2', '1', 'enter');
  await b.waitFor('Heat a');
  await b.press('2', '2', '6');
  await b.waitFor('226');
  expect(answers(b)).toEqual(['room@job=21']);
});

test('one whole step stands with the others of its page; what was found moves up', async () => {
  const dry = { key: 'dry', kind: 'yes-no', label: 'Dry' };
  const b = await bench(
    brisk,
    step('feel', { at: 'valve', page: 'look', do: 'Turn it.', ask: [{ ...dry, key: 'rough', label: 'Rough' }] }),
    step('wipe', { at: 'valve', page: 'look', do: 'Wipe it.', ask: [dry] }),
  );
  const first = await b.waitFor('Turn it.');
  expect(first).toContain('Wipe it.');
  expect(first).toContain('Dry');
  await b.press('2');
  const next = await b.waitFor('✓ Rough no');
  expect(next).toContain('Wipe it.');
  expect(next).not.toContain('Turn it.');
});

test('when a bearing has nothing more to do the next one comes on, and is told', async () => {
  const b = await bench(brisk, seal);
  await b.press(...'Mill', 'enter', '1');
  const there = await b.waitFor('Now at LOWER VALVE');
  expect(there).toContain('Lower valve');
  await b.press('enter');
  await b.waitFor((s) => !s.includes('Now at'));
});

test('in the learning pace every place is answered by itself', async () => {
  const b = await bench([], seal);
  await b.press(...'Mill', 'enter', '1');
  await b.waitFor('Lower valve');
  if (b.screen().includes('nothing more to do here')) await b.press('1');
  await b.waitFor('Make');
  expect(b.screen()).not.toContain('the same as');
});

test('Enter in an empty field takes what is suggested, in both paces', async () => {
  const share = step('share', {
    ask: [{ key: 'share', kind: 'number', label: 'Share', limits: [1, 90], suggest: '30.0 / 2.0' }],
  });
  for (const pace of [[], brisk]) {
    const b = await bench(pace, share);
    await b.waitFor('takes 15');
    await b.press('enter');
    expect(answers(b)).toEqual(['share@job=15']);
  }
});

const sound = {
  key: 'sound',
  kind: 'choice',
  label: 'Sound',
  options: [
    { value: 'smooth', label: 'Smooth' },
    { value: 'rough', label: 'Rough' },
  ],
};

test('a row of a log is two figures and two Enters; c changes what is due', async () => {
  const log = step('log', {
    ask: [
      {
        key: 'stage',
        kind: 'number',
        whole: true,
        label: 'Stage',
        limits: [0, 9],
        suggest: 'rows_log + 1.0',
        filled: true,
      },
      { key: 'heat_a', kind: 'number', label: 'Heat above', limits: [0, 100] },
      { key: 'heat_b', kind: 'number', label: 'Heat below', limits: [0, 100] },
      { ...sound, suggest: "'smooth'", filled: true },
    ],
    repeat: { until: 'rows_log >= 2.0', most: 9 },
  });
  const b = await bench(brisk, log);
  // What is due stands in its cell.
  await b.waitFor((s) => /^ *1 +> .*Smooth/m.test(s));
  await b.press('2', '0', 'enter', '2', '1', 'enter');
  expect(answers(b)).toEqual(['heat_a@job=20', 'heat_b@job=21', 'stage@job=1', 'sound@job=smooth']);
  // The stage stays as due, the sound is another.
  await b.waitFor((s) => /^ *2 +> .*Smooth/m.test(s));
  await b.press('c', 'c');
  await b.waitFor('Rough');
  await b.press('2');
  await b.waitFor((s) => /^ *2 +> .*Rough/m.test(s));
  await b.press('3', '0', 'enter', '3', '1', 'enter');
  expect(answers(b).slice(4)).toEqual(['sound@job=rough', 'heat_a@job=30', 'heat_b@job=31', 'stage@job=2']);
});

test('who signed in this sitting signs again with the key of its own; anybody else types their initials', async () => {
  const again = {
    ...asks.hold,
    id: 'held-2',
    title: 'Title of held-2',
    ask: [{ key: 'looked_2', kind: 'yes-no', label: 'Looked again' }],
  };
  for (const [pace, offered] of [
    [brisk, true],
    [[], false],
  ] as const) {
    const b = await benchOf({ mentor: 'MN' }, pace, [asks.hold, again]);
    await b.press('1');
    await b.waitFor('Initials of the mentor');
    expect(b.screen()).not.toContain('I sign this as');
    // The key that signs is no part of initials: pressed for Enter it asks for itself once more.
    await b.press('M', 'N', '9');
    expect(b.screen()).toContain('I sign this as MN');
    await b.press('9');
    await b.waitFor('Looked again');
    await b.press('1');
    await b.waitFor('HOLD');
    expect(b.screen().includes('I sign this as MN')).toBe(offered);
    if (!offered) continue;
    await b.press('enter');
    expect(
      b.kept.entries.filter((e) => e.kind === 'sign'),
      'Enter signs nothing',
    ).toHaveLength(1);
    await b.press('9');
    expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'sign', role: 'mentor', initials: 'MN', step: 'held-2' });
  }
});

test('at a stop in a small window every way on stands there before what was to be done', async () => {
  const way = (n: number) => ({ key: `way_${n}`, kind: 'yes-no', label: `Reading number ${n}` });
  const stop = step('check', {
    do: 'Look at all of it, one part after the other, and write down what you see beside each of the numbers on the card.',
    ask: [1, 2, 3, 4].map(way),
    gates: [
      { id: 'no', must: 'way_1 && way_2', say: 'This can not go on like this. Look again.', overrule: 'with-reason' },
    ],
  });
  const b = await benchOf({}, [], [stop], { cols: 60, rows: 20 });
  await b.press('2', '2', '2', '2');
  const screen = await b.waitFor('STOP');
  expect(screen).toContain('Continue anyway');
  expect(screen).not.toContain('more below');
});

test('a row of a log is the last line of its table; what is picked stands below, also while a figure is typed', async () => {
  const heat = (at: string) => ({ key: `heat_${at}`, kind: 'number', label: `Heat ${at}`, limits: [0, 100] });
  const log = step('log', { ask: [heat('a'), heat('b'), sound], repeat: { until: 'rows_log >= 2.0', most: 9 } });
  const b = await bench(brisk, log);
  expect(await b.waitFor('Heat a')).toMatch(/Heat a +Heat b +Sound\s+> .*\s+Sound {2}1 Smooth {3}2 Rough/);
  await b.press('2', '0', 'enter');
  const next = await b.waitFor((s) => /^ *20 +> /m.test(s));
  expect(next).toContain('1 Smooth   2 Rough');
});

test('the foot leaves out what stands above it, and keeps what does not', async () => {
  for (const [pace, told] of [
    [brisk, false],
    [[], true],
  ] as const) {
    const b = await bench(pace, asks.quantity);
    const screen = await b.waitFor('Bore');
    expect(screen.includes('Enter record')).toBe(told);
    expect(screen.includes('[mm]'), 'units beside a field').toBe(told);
    expect(screen).toContain('Tab other valve');
    expect(screen).toContain('? keys');
    await b.press('down');
    expect(await b.waitFor('[cm]')).toContain('[cm]');
  }
});

test('what was read at the other place is one sentence there; what can hurt is said whole', async () => {
  const dry = { key: 'dry', kind: 'yes-no', label: 'Dry' };
  const options = [
    { value: 'white', label: 'White', note: 'clean' },
    { value: 'grey', label: 'Grey' },
  ];
  const cloth = { key: 'cloth', kind: 'choice', label: 'Cloth', options };
  const wipe = step('wipe', { at: 'valve', do: 'Wipe the seat. Then wipe the lid.', ask: [cloth] });
  const turn = step('turn', {
    at: 'valve',
    do: 'Turn the stem. Then turn it back.',
    ask: [{ ...dry, key: 'rough', label: 'Rough' }],
    hazard: true,
    caution: ['WARNING: The stem pinches: keep fingers out.'],
  });
  for (const [pace, shorter] of [
    [brisk, true],
    [[], false],
  ] as const) {
    const b = await bench(pace, wipe, turn);
    const here = await b.waitFor('Cloth');
    expect(here).toContain('Then wipe the lid.');
    expect(here).toContain('White  (clean)');
    await b.press('1');
    await b.waitFor('The stem pinches');
    await b.press('9');
    await b.waitFor('Rough');
    await b.press('1');
    await b.waitFor('done');
    await b.press(pace.length ? 'enter' : '9');
    await b.waitFor((s) => /Lower valve/i.test(s));
    if (b.screen().includes('nothing more to do here')) await b.press('1');
    const there = await b.waitFor('Wipe the seat.');
    expect(there.includes('Then wipe the lid.')).toBe(!shorter);
    expect(there.includes('(clean)')).toBe(!shorter);
    if (!shorter) continue;
    // Behind w it stands whole.
    await b.press('w');
    expect(await b.waitFor('What to do')).toContain('Then wipe the lid.');
    await b.press('esc', '1');
    expect(await b.waitFor('Turn the stem.')).toContain('Then turn it back.');
  }
});

const tin = step('tin', {
  ask: [
    { key: 'grease', kind: 'text', label: 'Grease', shelf: true },
    { key: 'grade', kind: 'number', label: 'Grade', shelf: true, limits: [0, 6] },
  ],
});
const shelved = (job: string, grease: string) => ({
  step: 'tin',
  from: { job, name: `Job ${job}`, at: '2026-02-20T12:00:00Z' },
  texts: { grease, grade: '2' },
});

test('who knows the job takes what the shop has at hand by Enter, another by an arrow, or types', async () => {
  const shelf = async () => [shelved('7', 'Blue tin'), shelved('5', 'Red tin')];
  const at = async (pace: readonly Record<string, unknown>[], over: Record<string, unknown> = {}) => {
    const b = await onStep({ model: pump([tin, asks.end]), entries: begun(over, pace), app: { shelf } });
    open.push(b);
    await b.waitFor('Grease');
    return b;
  };
  const first = await at(brisk);
  expect((await first.waitFor('Blue tin')).replace(/\s+/g, ' ')).toMatch(/as in Job 7, .*: Blue tin, 2/);
  await first.press('enter');
  expect(answers(first)).toEqual(['grease@job=Blue tin', 'grade@job=2']);
  expect(first.kept.entries.at(-1)).toMatchObject({ from: { job: '7', name: 'Job 7' } });
  const other = await at(brisk);
  await other.waitFor('Blue tin');
  await other.press('down');
  await other.waitFor('Red tin');
  await other.press('enter');
  expect(answers(other)).toEqual(['grease@job=Red tin', 'grade@job=2']);
  const typed = await at(brisk);
  await typed.waitFor('Blue tin');
  await typed.press(...'Own', 'enter');
  expect(answers(typed)).toEqual(['grease@job=Own']);
  // Learning, and on an invented rotor, it is read off the tin.
  for (const b of [await at([]), await at(brisk, { practice: 'invented' })]) {
    await b.press('enter');
    expect(answers(b)).toEqual([]);
    expect(b.screen()).not.toContain('Blue tin');
  }
});

test('the short words stand in place of the instruction, in the learning pace the whole of it', async () => {
  const wipe = step('wipe', {
    do: 'Wipe the seat with a dry cloth.',
    brief: 'Wipe it dry.',
    ask: [{ key: 'wiped', kind: 'yes-no', label: 'Wiped' }],
  });
  const say = step('say', {
    do: 'Say which valve it is.',
    brief: '',
    ask: [{ key: 'dry', kind: 'yes-no', label: 'Dry' }],
  });
  for (const pace of [brisk, []] as const) {
    const b = await bench(pace, wipe, say);
    const screen = await b.waitFor('Title of wipe');
    expect(screen.includes('Wipe it dry.')).toBe(pace === brisk);
    expect(screen.includes('Wipe the seat with a dry cloth.')).toBe(pace !== brisk);
    await b.press('1');
    expect((await b.waitFor('Title of say')).includes('Say which valve it is.')).toBe(pace !== brisk);
    await b.press('w');
    // The reason page has the whole in both.
    if (pace === brisk) expect(await b.waitFor('What to do')).toContain('Say which valve it is.');
  }
});

test('the keys of each page are named at the start of a sitting, later only behind the question mark', async () => {
  const many = Array.from({ length: 16 }, (_, i) =>
    step(`s${i}`, { ask: [{ key: `k${i}`, kind: 'yes-no', label: `Label ${i}` }] }),
  );
  const b = await bench(brisk, ...many);
  expect(await b.waitFor('Label 0')).toContain('Tab other valve');
  for (let i = 0; i < 15; i++) {
    await b.waitFor(`Label ${i}`);
    await b.press('1');
  }
  const late = await b.waitFor('Label 15');
  expect(late).not.toContain('Tab other valve');
  expect(late).toContain('? keys');
});
