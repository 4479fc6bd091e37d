/** What is not the next step: correcting, trying, events, numbers, why, sheet. */
import { afterEach, expect, test } from 'vitest';
import type { App } from '../../src/screens/app-contract.js';
import { commandKeys, commands } from '../../src/screens/step/command-keys.js';
import { parseDimensions, parseQuantity } from '../../src/units/parse.js';
import { type Bench, onStep } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const file = step('file', {
  physical: true,
  rests_on: ['twice'],
  remedy: 'File it to {twice}, it was filed to {twice.old}.',
  show: ['twice'],
});
const model = () =>
  pump([asks.quantity, file, asks.text, step('mop', { branch: 'spill', at: 'job' })], {
    facts: [{ key: 'twice', at: 'job', label: 'Twice the bore', is: 'bore * 2.0', quantity: 'length' }],
    branches: [{ id: 'spill', at: 'job', title: 'Oil was spilt', mark: 'Spilt', reopens: ['file'] }],
  });

async function bench(more: Partial<App> = {}, rows = 24): Promise<Bench> {
  const b = await onStep({
    model: model(),
    entries: begun(),
    rows,
    app: {
      sheetTold: () => [
        { title: 'first page', lines: () => Array.from({ length: 60 }, (_, i) => [{ text: `line ${i + 1} of it` }]) },
        { title: 'the work', lines: () => [[{ text: 'what was decided' }]] },
      ],
      ...more,
    },
  });
  open.push(b);
  return b;
}

test('why, and back', async () => {
  const b = await bench();
  await b.press('w');
  await b.waitFor('Because of bore.');
  await b.press('esc');
  await b.waitFor('Do bore now.');
});

test('a number tells its rule, its inputs and who read them when', async () => {
  const b = await bench();
  await b.press('10', 'enter');
  await b.waitFor('Do file now.');
  await b.press('n');
  await b.waitFor('Twice the bore');
  await b.waitFor('With these numbers');
  await b.waitFor('Title of bore');
  await b.waitFor('08:00, AP');
  await b.press('1');
  await b.waitFor('read: step “Title of bore”');
  await b.press('esc', 'esc');
  await b.waitFor('Do file now.');
});

test('a correction shows first what it changes; Esc leaves all as it is', async () => {
  const b = await bench();
  await b.press('10', 'enter', 'enter');
  await b.waitFor('Do words now.');
  await b.press('esc', 'm', '3', 'enter', '12', 'enter', 'misread', 'enter');
  await b.waitFor('Work already done that must be put right');
  await b.waitFor('File it to 24');
  await b.waitFor('20.0');
  const before = b.kept.entries.length;
  await b.press('enter');
  expect(b.kept.entries).toHaveLength(before);
  await b.press('esc', 'esc', 'esc');
  await b.waitFor('Which one?');
  expect(b.kept.entries).toHaveLength(before);
  await b.press('enter', '12', 'enter', 'misread', 'enter');
  await b.waitFor('to correct it');
  await b.press('9');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'correct', key: 'bore', value: 12, reason: 'misread' });
  await b.waitFor('PUT RIGHT');
  await b.press('esc', 'r');
  await b.waitFor('What was done about it?');
  await b.press('filed again', 'enter');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'settle', reason: 'filed again' });
  await b.waitFor((s) => !s.includes('PUT RIGHT'));
});

test('the page of work to put right has the dangers of that work', async () => {
  const caution = ['CAUTION: It pinches: mind fingers. Wash it.', 'WARNING: It is hot and burns: wear gloves.'];
  const facts = [{ key: 'twice', at: 'job', label: 'Twice the bore', is: 'bore * 2.0', quantity: 'length' }];
  const b = await onStep({
    model: pump([asks.quantity, { ...file, caution }, asks.text], { facts }),
    entries: begun(),
  });
  open.push(b);
  await b.press('10', 'enter', '9', 'enter');
  await b.waitFor('Do words now.');
  await b.press('esc', 'm', '3', 'enter', '12', 'enter', 'misread', 'enter');
  await b.waitFor('to correct it');
  await b.press('9');
  await b.waitFor('PUT RIGHT');
  await b.press('esc', 'r');
  const screen = await b.waitFor('What was done about it?');
  expect(screen.replace(/\s+/g, ' ')).toMatch(/burns: wear gloves\. .*CAUTION: It pinches: mind fingers\./);
});

test('of what a correction changes the decisions stand first; what no step shows is only counted', async () => {
  const facts = Array.from({ length: 9 }, (_, i) => ({
    key: `times_${i}`,
    at: 'job',
    label: `Times ${i + 2}`,
    is: `bore * ${i + 2}.0`,
    quantity: 'length',
  }));
  const model = pump(
    [
      asks.quantity,
      step('see', { show: ['times_0'] }),
      step('choose', { decision: true, show: ['times_8'] }),
      asks.end,
    ],
    { facts },
  );
  const b = await onStep({ model, entries: begun(), rows: 40 });
  open.push(b);
  await b.press('10', 'enter', 'm', '3', 'enter', '12', 'enter', 'misread', 'enter');
  const screen = (await b.waitFor('Press 9 to correct it')).replace(/\s+/g, ' ');
  expect([...screen.matchAll(/Times \d+ /g)].map((m) => m[0])).toEqual(['Times 10 ', 'Times 2 ']);
  expect(screen).toContain('and 7 other figures');
});

test('what a correction changes can be moved through where it is longer than the window', async () => {
  const facts = Array.from({ length: 9 }, (_, i) => ({
    key: `times_${i}`,
    at: 'job',
    label: `Times ${i + 2}`,
    is: `bore * ${i + 2}.0`,
    quantity: 'length',
  }));
  const model = pump([asks.quantity, step('see', { show: facts.map((f) => f.key) }), asks.end], { facts });
  const b = await onStep({ model, entries: begun(), rows: 16 });
  open.push(b);
  await b.press('10', 'enter', 'm', '3', 'enter', '12', 'enter', 'misread', 'enter');
  await b.waitFor('more below');
  expect(b.screen()).not.toContain('Times 10');
  await b.press('pagedown', 'pagedown');
  await b.waitFor('Times 10');
  await b.waitFor('120');
  await b.press(b.desk().safetyKey);
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'correct', value: 12 });
});

test('a long list is searched by typing', async () => {
  const b = await bench();
  await b.press('10', 'enter', 'enter');
  await b.waitFor('Do words now.');
  await b.press('some', 'enter', 'esc', 'm', '3');
  await b.waitFor('Words: some');
  await b.press('b', 'o');
  await b.waitFor((s) => s.includes('Bore: 10 mm') && !s.includes('Words: some'));
  await b.press('q');
  await b.waitFor('No line holds that');
  await b.press('backspace', 'enter');
  await b.waitFor('Bore was 10 mm');
  await b.press('esc', 'esc');
  await b.waitFor('Words: some');
  await b.press('esc');
  await b.waitFor('Menu');
});

test('a digit where there is nothing to pick is told what goes on', async () => {
  const b = await bench();
  await b.press('esc');
  await b.waitFor('Title of bore');
  await b.press('7');
  await b.waitFor(/Here: .*Enter/);
});

test('what if records nothing', async () => {
  const b = await bench();
  await b.press('10', 'enter');
  await b.waitFor('Do file now.');
  await b.press('m', '4', 'enter', '15', 'enter');
  await b.waitFor('Bore 10 mm → 15 mm');
  await b.waitFor('Twice the bore 20.0 ± 0.2 mm → 30.0 ± 0.2 mm');
  expect(b.kept.entries).toHaveLength(2);
});

test('an event brings its steps and says which are to be done again', async () => {
  const b = await bench();
  await b.press('10', 'enter', 'enter');
  await b.waitFor('Do words now.');
  await b.press('esc', 'm', '5', 'enter', 'a cupful', 'enter');
  await b.waitFor('To be done again: Title of file.');
  await b.press('9');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'raise', branch: 'spill', text: 'a cupful' });
  await b.waitFor('Do mop now.');
});

test('what happened is found by typing; what no line holds can be said in words', async () => {
  const b = await bench();
  await b.press('10', 'enter', 'enter');
  await b.waitFor('Do words now.');
  await b.press('esc', 'm', '5');
  await b.waitFor('What happened?');
  await b.press(...'no such thing');
  await b.waitFor((s) => s.includes('Something else') && !s.includes('Spill'));
  await b.press('enter');
  await b.waitFor('A note for the job sheet');
  await b.press(...'It hums', 'enter');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'note', text: 'It hums' });
});

test('a note goes to the journal; an empty one is refused', async () => {
  const b = await bench();
  await b.press('m', '1', 'enter');
  await b.waitFor('The note is empty');
  await b.press('Smells burnt', 'enter');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'note', text: 'Smells burnt' });
});

test('a long sheet is paged within the frame', async () => {
  const b = await bench();
  await b.press('m', '6');
  await b.waitFor('line 1 of it');
  expect(b.screen()).not.toContain('line 40 of it');
  await b.press(' ', ' ', ' ');
  await b.waitFor('line 60 of it');
  expect(b.screen().split('\n').length).toBeLessThanOrEqual(23);
  // At its end the same key turns the page, and the arrows turn it back.
  await b.press(' ');
  await b.waitFor('what was decided');
  expect(b.screen()).toContain('page 2 of 2');
  await b.press('left');
  await b.waitFor('line 1 of it');
});

test('the page of keys names each key that works on a step', async () => {
  const b = await bench({}, 60);
  await b.press('?');
  const page = await b.waitFor('What can be typed');
  const any = page.slice(page.indexOf('Any time'), page.indexOf('What can be typed'));
  expect(any).toContain('one step back, always');
  const words = any.split(/\s+/).map((w) => w.replace(/[:;,]$/, ''));
  for (const command of commands)
    for (const char of commandKeys[command].chars ?? [])
      expect(words, `the key ${char}, for ${command}, stands in no line of the page of keys`).toContain(char);
});

test('the page of keys calls a position by the name that the procedure gives it', async () => {
  const b = await bench({}, 60);
  await b.press('?');
  const said = await b.waitFor('one step back, always');
  expect(said.replace(/\s+/g, ' ')).toContain('Tab the other valve');
});

test('while a text is typed Tab is offered only where there is somewhere to go', async () => {
  const typing = async (more: Record<string, unknown>): Promise<string> => {
    const b = await onStep({ model: pump([asks.text], more), entries: begun() });
    open.push(b);
    return b.screen();
  };
  expect(await typing({})).toContain('Tab other valve');
  expect(await typing({ places: [] })).not.toContain('Tab');
});

test('each key at the foot of a step does something there, and the menu has the lines that have a key', async () => {
  const b = await bench();
  await b.waitFor('Do bore now.');
  const foot = [
    ...b
      .screen()
      .slice(b.screen().lastIndexOf('Enter'))
      .matchAll(/(?:^|\s)([a-z?]) /g),
  ].map((m) => m[1]!);
  expect(foot).toEqual(expect.arrayContaining(['w', 'n', 'm', '?']));
  for (const char of foot) {
    const before = b.screen();
    await b.press(char);
    expect(b.screen(), `the key ${char}`).not.toBe(before);
    if (char === 'm')
      for (const line of commands.flatMap((c) => commandKeys[c].menu?.label ?? [])) expect(b.screen()).toContain(line);
    await b.press('esc');
    await b.waitFor('Do bore now.');
  }
});

test('a correction shows labels, never the codes of a series', async () => {
  const b = await onStep({ model: pump([asks.series, asks.yesNo, asks.end]), entries: begun(), rows: 30 });
  open.push(b);
  await b.press('1', '1', '0');
  await b.waitFor('It leaks');
  await b.press('m', '3');
  await b.waitFor('Knocks: Dull, Dull');
  await b.press('1', '2', '1', '0');
  await b.waitFor('Why is it corrected?');
  await b.waitFor('Ringing, Dull');
  expect(b.screen()).not.toContain('ringing,dull');
  await b.press('misheard', 'enter');
  await b.waitFor('Dull, Dull → Ringing, Dull');
  expect(b.screen()).not.toContain('ringing,dull');
});

test('what is to be done again is only what was done, here', async () => {
  const parts = ['wash', 'wipe', 'dry'].map((id) => step(id, { at: 'valve', do: `Do ${id} here.` }));
  const raised = pump(
    [
      ...parts,
      step('look', { branch: 'drop', at: 'valve' }),
      step('glance', { branch: 'drop', at: 'valve', when: '1.0 > 2.0' }),
      asks.end,
    ],
    {
      branches: [{ id: 'drop', at: 'valve', title: 'It fell', mark: 'It fell', reopens: ['wash', 'wipe', 'dry'] }],
    },
  );
  const done = (id: string, place: string) => ({ kind: 'done', step: id, place });
  const entries = begun({}, [done('wash', 'a'), done('wipe', 'a')]);
  const b = await onStep({ model: raised, entries });
  open.push(b);
  await b.waitFor('Do dry here.');
  const raise = async (title: string): Promise<string> => {
    await b.press('m');
    const at = /(\d) {2}Something unforeseen/.exec(b.screen())?.[1] ?? '';
    await b.press(at);
    await b.waitFor('What happened?');
    await b.press(new RegExp(`(\\d) {2}It fell {2}\\(${title}\\)`).exec(b.screen())?.[1] ?? '');
    await b.waitFor('In a few words');
    await b.press('enter');
    return (await b.waitFor('Press 9 to record it')).replace(/\s+/g, ' ');
  };
  const upper = await raise('Upper valve');
  expect(upper).toMatch(/Press 9 to record it: It fell, .*Upper valve\./);
  expect(upper).toContain('Comes first now: Title of look.');
  expect(upper).toContain('To be done again: Title of wash; Title of wipe.');
  await b.press('esc', 'esc', 'esc', 'esc');
  // Nothing was done at the other valve.
  expect(await raise('Lower valve')).not.toContain('To be done again');
});

test('what an event brings is told in the order of work, and only what comes', async () => {
  const washing = ['wash', 'wipe', 'dry', 'fill'].map((id) => step(id, { at: 'valve' }));
  const steps = [
    asks.yesNo,
    step('lock', { makes_safe: true }),
    // Whoever locks it anew has no need of it.
    step('own', { anew: { each: 'person', after: ['lock'], lost_with: ['lock'] } }),
    ...washing,
    step('look', { branch: 'drop', at: 'valve' }),
    step('cool', { branch: 'drop', at: 'valve', when: 'leak' }),
    asks.end,
  ];
  const reopens = ['fill', 'wipe', 'wash', 'dry', 'lock'];
  const model = pump(steps, { branches: [{ id: 'drop', at: 'valve', title: 'It fell', mark: 'It fell', reopens }] });
  const done = (id: string, place: string) => ({ kind: 'done', step: id, place });
  const entries = begun({}, [
    { kind: 'answer', step: 'leak', place: 'job', key: 'leak', value: false, typed: '2' },
    done('lock', 'job'),
    ...washing.map(({ id }) => done(id, 'a')),
  ]);
  const b = await onStep({ model, entries, rows: 40 });
  open.push(b);
  await b.press('m');
  await b.press(/(\d) {2}Something unforeseen/.exec(await b.waitFor('Something unforeseen'))?.[1] ?? '');
  await b.press(/(\d) {2}It fell {2}\(Upper valve\)/.exec(await b.waitFor('It fell'))?.[1] ?? '');
  await b.waitFor('In a few words');
  await b.press('enter');
  const told = (await b.waitFor('Press 9 to record it')).replace(/\s+/g, ' ');
  expect(told).toContain('Comes first now: Title of lock; Title of look.');
  expect(told).toContain('To be done again: Work (4 steps).');
  expect(told).toContain('step by step: Title of wash; Title of wipe; Title of dry; Title of fill.');
});

test('where the figures come from: page by page, from the menu', async () => {
  const b = await onStep({
    model: model(),
    entries: begun(),
    app: {
      sourcesTold: () => [
        { title: 'at a glance', lines: () => [[{ text: '76 published' }]] },
        { title: 'common practice, no source', lines: () => [[{ text: 'drying times' }]] },
      ],
    },
  });
  open.push(b);
  await b.press('m');
  await b.waitFor('Where the figures come from');
  while (!/▸.*Where the figures come from/.test(b.screen())) await b.press('down');
  await b.press('enter');
  await b.waitFor('76 published');
  await b.press(' ');
  await b.waitFor('drying times');
  await b.press('esc', 'esc');
  await b.waitFor('Do bore now.');
});

test('a picture is asked once where it belongs, kept, and recorded with this step', async () => {
  const told: string[] = [];
  const file = `${'a'.repeat(64)}.jpg`;
  const b = await bench({
    pictures: {
      keep: async (_, typed) => {
        told.push(typed);
        return typed.includes('missing')
          ? 'There is no such file; look at its path.'
          : { file, sha256: 'a'.repeat(64), bytes: 9, name: 'seal.jpg' };
      },
    },
  });
  const add = async (path: string): Promise<void> => {
    await b.press('m');
    await b.waitFor('Picture');
    for (let i = 0; i < 15 && !/▸ +Picture/.test(b.screen()); i++) await b.press('down');
    await b.press('enter');
    await b.waitFor('Drop the picture');
    await b.press(path, 'enter');
    await b.waitFor('What it shows');
    await b.press('front seal', 'enter');
    await b.waitFor('Does it belong to');
    await b.press('enter');
  };
  await add("'/home/missing one.jpg'");
  await b.waitFor('There is no such file');
  expect(b.kept.entries.some((e) => e.kind === 'picture')).toBe(false);
  await b.press('esc', 'esc', 'esc', 'esc');
  await add('/home/seal.jpg');
  await b.waitFor('Kept.');
  expect(told).toEqual(["'/home/missing one.jpg'", '/home/seal.jpg']);
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'picture', file, name: 'seal.jpg', shows: 'front seal' });
});

test('a picture that was taken back is asked for again', async () => {
  const opened = async (more: readonly Record<string, unknown>[]): Promise<Bench> => {
    const b = await onStep({
      model: pump([{ ...asks.quantity, picture: 'the label' }]),
      entries: begun({}, more),
      app: { pictures: { keep: async () => 'not here' } },
    });
    open.push(b);
    return b;
  };
  const at = { kind: 'picture', step: 'bore', place: 'job', file: 'a.jpg', sha256: 'a', bytes: 9, name: 'seal.jpg' };
  expect((await opened([])).screen()).toContain('A picture helps: the label');
  expect((await opened([at])).screen()).not.toContain('A picture helps');
  expect((await opened([at, { kind: 'undo', of: 2 }])).screen()).toContain('A picture helps: the label');
});

test('a picture that is dropped on a step is asked about in one line, whatever the step asks for', async () => {
  const told: string[] = [];
  const file = `${'a'.repeat(64)}.jpg`;
  const b = await bench({
    pictures: {
      keep: async (_, typed) => {
        told.push(typed);
        return typed.includes('gone')
          ? 'There is no such file; look at its path.'
          : { file, sha256: 'a'.repeat(64), bytes: 9, name: 'seal.jpg' };
      },
    },
  });
  const drop = (path: string) => b.press(`\x1b[200~${path}\x1b[201~`);
  await b.waitFor('Do bore now.');
  await drop("'/home/seal of.jpg' ");
  await b.waitFor('Does it belong to “Title of bore”');
  await b.press('esc');
  await b.waitFor('Do bore now.');
  expect(told).toEqual([]);
  await drop('/home/gone.jpg');
  await b.waitFor('Does it belong to');
  await b.press('enter');
  await b.waitFor('There is no such file');
  expect(b.kept.entries.some((e) => e.kind === 'picture')).toBe(false);
  await b.press('esc');
  await drop('/home/seal.jpg');
  await b.waitFor('Does it belong to');
  await b.press('enter');
  await b.waitFor('Kept.');
  expect(told).toEqual(['/home/gone.jpg', '/home/seal.jpg']);
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'picture', file, shows: 'Title of bore' });
  // On a page that is no step it says where to drop it.
  await b.press('?');
  await drop('/home/seal.jpg');
  await b.waitFor('A picture goes to a step');
});

test('notes can be read again, the latest first, with where, who and when', async () => {
  const b = await bench();
  await b.press('m', '1', 'the lid hums', 'enter');
  await b.waitFor('Do bore now.');
  await b.press('m', '2', 'oil is ordered', 'enter');
  await b.waitFor('Do bore now.');
  await b.press('m');
  await b.waitFor('Menu');
  for (let n = 0; n < 20 && !/▸.*Read the notes/.test(b.screen()); n++) await b.press('down');
  await b.press('enter');
  await b.waitFor('Notes and handovers');
  expect(b.screen()).toMatch(
    /Handover · AP, 08:00[\s\S]*oil is ordered[\s\S]*Whole job · AP, 08:00[\s\S]*the lid hums/,
  );
  await b.press('esc', 'esc');
  await b.waitFor('Do bore now.');
});

test('a mentor refuses from the hold point, and it stands there for whoever comes next', async () => {
  const looks = { kind: 'yes-no', key: 'looks', label: 'Looks good' };
  const b = await onStep({
    model: pump([step('look', { ask: [looks], hold: { say: 'Mentor looks.', self_check: 'I looked.' } })]),
    entries: begun({ mentor: 'MN' }),
  });
  open.push(b);
  await b.press('1');
  await b.waitFor('HOLD');
  await b.press('!', 'lip is folded', 'enter', 'AP', 'enter');
  await b.waitFor('another person, the mentor');
  expect(b.kept.entries.at(-1)?.kind).toBe('answer');
  await b.press('esc', 'esc');
  await b.waitFor('HOLD');
  await b.press('!', 'lip is folded', 'enter', 'MN', 'enter');
  await b.waitFor('Not signed by MN: lip is folded');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'refuse', initials: 'MN', reason: 'lip is folded' });
  await b.press('MN', 'enter', '9');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'sign', initials: 'MN' });
});

test('the page of keys says what can be typed, and all of it is read', async () => {
  // Written out by hand: 1.45 cm = 14.5 mm, 0.571 in = 14.50 mm, 158 °F = 70 °C, 12 krpm = 12 000 rpm, 4.5 oz = 127.6 g.
  for (const [text, kind, value] of [
    ['14,5', 'length', 14.5],
    ['1.45 cm', 'length', 14.5],
    ['0.571 in', 'length', 14.5034],
    ['158 F', 'temperature', 70],
    ['12 krpm', 'speed', 12_000],
    ['4.5 oz', 'mass', 127.573],
    ['1.5 cc', 'volume', 1.5],
    ['1 h 30 min', 'duration', 90],
    ['1h30', 'duration', 90],
    ['1.5 h', 'duration', 90],
    ['8x6x3 m', 'room', 144],
  ] as const)
    expect(parseQuantity(text, kind), text).toMatchObject({ ok: true, value: expect.closeTo(value, 3) });
  for (const text of ['8 +- 0.1', '8±0.1'])
    expect(parseQuantity(text, 'length')).toMatchObject({ value: 8, plusMinus: 0.1 });
  expect(parseDimensions('8x6x3', 3, 'mm').ok).toBe(true);
  const b = await bench();
  await b.press('?');
  await b.waitFor('All keys');
  await b.press('pagedown');
  await b.waitFor('What can be typed');
});
