/** Two positions, waiting, coming back, handing over. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep, openBench } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const glue = step('glue', { at: 'valve', wait: { minutes: '20.0', label: 'glue setting' } });
const press = step('press', { at: 'valve', ask: [{ key: 'pressed', kind: 'yes-no', label: 'Pressed' }] });
const model = () => pump([glue, press, asks.end]);

async function bench(): Promise<Bench> {
  const b = await onStep({ model: model(), entries: begun() });
  open.push(b);
  return b;
}

test('while glue sets the other position is offered, one key away', async () => {
  const b = await bench();
  await b.waitFor('Upper valve · Work');
  await b.press('enter');
  await b.waitFor('Upper valve: nothing more to do here now. Next: Lower valve.');
  await b.waitFor('20 min left, until 08:20');
  await b.press('1');
  await b.waitFor('Lower valve · Work');
  await b.waitFor('Do glue now.');
});

test('time goes by; what has finished waiting can be gone on with', async () => {
  const b = await bench();
  await b.press('enter', '1', 'enter');
  await b.waitFor('Nothing to do but wait.');
  await b.pass(8);
  await b.waitFor('12 min left, until 08:20');
  await b.pass(12);
  await b.waitFor('Pressed');
});

test('Tab goes to the other position and back', async () => {
  const b = await bench();
  await b.press('tab');
  await b.waitFor('Lower valve · Work');
  await b.press('tab');
  await b.waitFor('Upper valve · Work');
});

test('a wait is cut short only with a reason', async () => {
  const b = await bench();
  await b.press('enter', '3');
  await b.waitFor('glue setting is not over yet');
  await b.press('quick glue', 'enter', 'AP', 'enter', '9');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'overrule', gate: 'wait', reason: 'quick glue' });
  await b.waitFor('Pressed');
});

test('on return everything is said at once, with the word of the last person', async () => {
  const b = await bench();
  await b.press('enter', 'm', '2', 'Glue is nearly used up', 'enter');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'handover' });
  const back = openBench({ model: model(), entries: b.kept.entries, at: '2026-03-03T07:30:00Z' });
  open.push(back);
  await back.ready();
  await back.press('1');
  await back.waitFor('Finished waiting: glue setting (Upper valve), over at Mon 08:20');
  await back.waitFor('Word from AP');
  await back.waitFor('Glue is nearly used up');
  await back.waitFor('Next: Upper valve, Title of press.');
  await back.press('i', 'MN', 'enter');
  expect(back.kept.entries.at(-1)).toMatchObject({ kind: 'operator', initials: 'MN', by: 'MN' });
  // Who has only just come did not work last.
  expect(await back.waitFor('I am not MN')).toMatch(/Last worked on .* by AP\./);
  await back.press('enter');
  await back.waitFor('Upper valve · Work');
});

test('the first screen tells what waits and what has finished waiting', async () => {
  const b = await bench();
  await b.press('enter');
  await b.press('esc', 'l');
  await b.waitFor('waits: glue setting (Upper valve), 20 min left, until 08:20');
  expect(b.kept.closed).toBe(1);
  await b.pass(25);
  await b.waitFor('finished waiting: glue setting');
});

test('a clock that was set back does not end a wait', async () => {
  const b = await bench();
  await b.press('enter');
  await b.pass(-120);
  await b.waitFor('was set back');
});

test('q leaves from the first screen with code 0, Ctrl-C at any time with 130', async () => {
  const b = openBench({ model: model() });
  open.push(b);
  await b.ready();
  await b.waitFor('No job yet.');
  await b.stack.press({ name: 'char', char: 'q' });
  expect(b.kept.quit).toBe(0);
  const c = await bench();
  c.stack.quit(130);
  expect(c.kept.quit).toBe(130);
  expect(c.kept.closed).toBe(1);
});

test('initials that are offered are taken by Enter; what is typed takes their place', async () => {
  for (const [keys, by] of [
    [['enter'], 'AP'],
    [['BC', 'enter'], 'BC'],
    [['backspace', 'Q', 'enter'], 'AQ'],
  ] as const) {
    const b = openBench({ model: pump([asks.end]), app: { initials: { get: () => 'AP', set: () => undefined } } });
    open.push(b);
    await b.ready();
    await b.press('1', 'Fan', 'enter');
    await b.waitFor('Your initials');
    await b.press(...keys, '1');
    await b.waitFor('Last word');
    expect(b.kept.entries[0]).toMatchObject({ kind: 'job', by });
  }
});

test('a new job asks for name, initials and who learns', async () => {
  const b = openBench({ model: model() });
  open.push(b);
  await b.ready();
  await b.press('1', 'Pump 7', 'enter', '7', 'enter');
  await b.waitFor('Initials are one to eight');
  await b.press('backspace', 'MN', 'enter', '3', 'AP', 'enter', 'AP', 'enter');
  await b.waitFor('another person');
  await b.press('backspace', 'backspace', 'MN', 'enter');
  expect(b.kept.entries[0]).toMatchObject({ kind: 'job', name: 'Pump 7', by: 'AP', apprentice: 'AP', mentor: 'MN' });
  await b.waitFor('Upper valve · Work');
});

test('in a form Esc is one step back', async () => {
  const b = openBench({ model: model() });
  open.push(b);
  await b.ready();
  await b.press('1', 'Pump 7', 'enter', 'esc');
  await b.waitFor('> Pump 7');
  await b.press('esc');
  await b.waitFor('Start a job');
});

test('a damaged job offers what can be had back', async () => {
  let recovered = false;
  const b = openBench({ model: model(), entries: begun() });
  open.push(b);
  const { open: whole } = b.app.jobs;
  (b.app.jobs as { open: typeof whole }).open = async (id, o) => {
    if (!o?.recover)
      return {
        ok: false,
        trouble: {
          code: 'damaged',
          sentence: 'This job’s file is damaged; 3 entries can be had back.',
          offer: { entries: 3, last: '' },
        },
      };
    recovered = true;
    return whole(id, o);
  };
  await b.ready();
  await b.press('1');
  await b.waitFor('3 entries can be had back');
  await b.press('enter');
  await b.waitFor('Start a job');
  expect(recovered).toBe(false);
  await b.press('1', '2');
  await b.waitFor('Next: Upper valve');
  expect(recovered).toBe(true);
});

test('a position is not all done while the whole job has something left that it waits for', async () => {
  const ended = pump([press, step('run', { title: 'Run it' }), asks.end]);
  const b = await onStep({ model: ended, entries: begun() });
  open.push(b);
  await b.press('1', '1', '1', 'esc');
  const shown = await b.waitFor('Lower valve');
  expect(shown).not.toContain('all done');
  await b.waitFor('Upper valve done so far, waits for: Run it');
});

test('a wait that was skipped is not told as one that came to its end', async () => {
  const b = await bench();
  await b.press('enter', '3', 'quick glue', 'enter', 'AP', 'enter', b.desk().safetyKey);
  await b.waitFor('Pressed');
  await b.press('esc');
  await b.waitFor('Skipped by AP: glue setting (Upper valve), quick glue');
  expect(b.screen()).not.toContain('Finished waiting');
});

test('go on goes to the step that is named as the next', async () => {
  const b = await bench();
  await b.press('enter');
  await b.waitFor('nothing more to do here now');
  await b.press('esc');
  await b.waitFor('Next: Lower valve, Title of glue.');
  await b.press('enter');
  await b.waitFor('Do glue now.');
  expect(b.desk().place).toBe('b');
});

test('the first screen names what is next once a wait is over', async () => {
  const b = await bench();
  await b.press('enter');
  await b.waitFor('nothing more to do here now');
  await b.press('esc', 'l');
  await b.waitFor('Lower valve: Title of glue; waits: glue setting');
  await b.pass(21);
  await b.waitFor('Upper valve: Title of press; finished waiting: glue setting');
});

test('what can be worked on at a position stands before what waits there', async () => {
  const look = step('look', {
    at: 'valve',
    not_after: ['glue'],
    ask: [{ key: 'seen', kind: 'yes-no', label: 'Seen' }],
  });
  const b = await onStep({ model: pump([glue, look, asks.end]), entries: begun() });
  open.push(b);
  await b.press('enter');
  await b.waitFor('Seen');
  await b.press('esc');
  const shown = await b.waitFor('Next: Upper valve, Title of look.');
  expect(shown).toContain('Upper valve  Work: Title of look (meanwhile: glue setting)');
  expect(shown).not.toMatch(/Upper valve\s+waits/);
});

test('a folder that takes no job says so before anything is filled in', async () => {
  const b = openBench({ model: model() });
  open.push(b);
  const sentence = 'No job can be saved in /x because the disk can only be read.';
  (b.app.jobs as { canSave?: unknown }).canSave = () => ({ ok: false, trouble: { code: 'read-only', sentence } });
  await b.ready();
  await b.waitFor('Start a job');
  await b.press('1');
  const shown = await b.waitFor('No job can be saved');
  expect(shown).toContain('Start a job');
  expect(shown).not.toContain('Name of the job');
});

test('a job that can only be looked at asks for nothing: it tells what comes next', async () => {
  const b = await onStep({
    model: pump([press, asks.end]),
    entries: begun(),
    readOnly: 'This job is open in another window.',
  });
  open.push(b);
  const shown = await b.waitFor('Not done yet. What comes next here: the answer to “Pressed”.');
  expect(shown).not.toMatch(/Yes|record/);
  await b.press('1');
  expect(await b.waitFor('This job is open in another window.')).toContain('What comes next here');
  await b.press('m');
  await b.waitFor('Menu');
});
