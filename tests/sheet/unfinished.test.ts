/** The sheet of work that is not finished: what nobody was asked yet is no finding, in no format. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { replay } from '../../src/engine/replay/replay.js';
import { replaySchema } from '../../src/engine/replay/replay-file.js';
import { found } from '../../src/engine/state/found.js';
import { State } from '../../src/engine/state/state.js';
import { tableRows, toCsv, toNdjson } from '../../src/sheet/job-table.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import type { Figure, Sheet } from '../../src/sheet/sheet-data.js';
import { tagOf } from '../../src/sheet/tag.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toJson } from '../../src/sheet/to-json.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { clock } from '../../src/sheet/when.js';
import { modelFor } from '../procedure/library.js';
import { Job } from '../shipped/good-job.js';
import { finished, model, procedureText } from './fixture.js';

/** The invented procedure, with a value that counts until it is asked, a branch with one, and what is made of both. */
const own = procedureText
  .replace(
    '      - { key: dirt, kind: yes-no, label: Dirty }',
    '      - { key: dirt, kind: yes-no, label: Dirty }\n' +
      '      - { key: bolt, kind: choice, label: Bolt, otherwise: steel, options: [ { value: steel, label: Steel }, { value: brass, label: Brass } ] }\n' +
      '      - { key: washer, kind: text, label: Washer, when: "bolt == \'brass\'", otherwise: none }',
  )
  .replace(
    '      - { key: leak_at, kind: text, label: Where it leaks }',
    '      - { key: leak_at, kind: text, label: Where it leaks, otherwise: nowhere }',
  )
  .replace(
    'facts:\n',
    'facts:\n' +
      "  - { key: may_turn, at: half, label: It may turn, is: \"bolt == 'steel' ? 'yes' : 'slowly'\" }\n" +
      "  - { key: oil_lost, at: half, label: Oil lost, is: \"leak_at == 'nowhere' ? 'none' : 'some'\" }\n",
  )
  .replace('keys: [shape] }', 'keys: [shape, bolt, washer, may_turn, leak_at, oil_lost] }')
  .replace('headline: [pump]', 'headline: [pump, bolt, may_turn, oil_lost]');
const job = replaySchema.parse(
  parse(`
replay: 1
invented: true
name: Half
procedure: fill-coupling
by: AP
start: 2026-03-02T08:00:00Z
steps:
  - { step: name, answers: { pump: "Pump 7", name_l: "Motor side" } }
  - { step: look, at: l, answers: { shape: toothed, gap: "20 mm", dirt: "no", bolt: steel } }
`),
);
const half = finished(job, model(own));
const sheet = sheetOf(half);
const at = (of: Sheet, key: string, place: string): Figure | undefined =>
  [...of.headline, ...of.groups.flatMap((g) => g.figures)].find((f) => f.key === key && f.place === place);

describe('a value that counts until somebody is asked', () => {
  test('is a finding where it was answered, and not asked yet where it was not', () => {
    expect(at(sheet, 'bolt', 'l')).toMatchObject({ known: true, value: 'steel', text: 'Steel' });
    expect(at(sheet, 'bolt', 'r')).toMatchObject({ known: false, lacks: 'not asked yet', value: null });
    expect(at(sheet, 'bolt', 'r')?.text).toBe('not asked yet');
  });
  test('and so is what is made of it', () => {
    expect(at(sheet, 'may_turn', 'l')).toMatchObject({ known: true, value: 'yes' });
    expect(at(sheet, 'may_turn', 'r')).toMatchObject({ known: false, lacks: 'not asked yet', text: 'not asked yet' });
  });
  test('stands where its question does not apply', () => {
    expect(at(sheet, 'washer', 'l')).toMatchObject({ known: true, value: 'none' });
    expect(at(sheet, 'washer', 'r')).toMatchObject({ known: false, lacks: 'not asked yet' });
  });
  test('still leads the work', () => {
    expect(half.values.get('bolt', 'r')).toMatchObject({ known: true, value: 'steel' });
    expect(found(half).values.get('bolt', 'r').known).toBe(false);
    expect(found(half).view('look', 'r')?.status).toBe(half.view('look', 'r')?.status);
  });
});

test('that nothing was reported is no finding while work goes on, and is one at its end', () => {
  expect(at(sheet, 'leak_at', 'l')).toMatchObject({ known: false, text: 'nothing reported yet', value: null });
  expect(at(sheet, 'oil_lost', 'l')).toMatchObject({ known: false, text: 'nothing reported yet', value: null });
  const rest = parse(`
- { step: look, at: r, answers: { shape: disc, gap: "20 mm", dirt: "no", bolt: brass, washer: M8 } }
- { step: decide, at: l, answers: { dose: "1.3 mL" }, sign: AP }
- { step: decide, at: r, answers: { dose: "0.8 mL" }, sign: AP }
- { step: put-in, at: l }
- { step: put-in, at: r, after: 40 min }
- { step: run, after: 40 min, rows: [ { heat: "25 C" }, { heat: "26 C" }, { heat: "27 C" } ] }
`);
  const whole = finished(
    { ...job, steps: [...job.steps, ...replaySchema.parse({ ...job, steps: rest }).steps] },
    model(own),
  );
  expect(whole.finished).toBe(true);
  expect(at(sheetOf(whole), 'oil_lost', 'l')).toMatchObject({ known: true, value: 'none' });
});

describe('every format of an unfinished job', () => {
  const rows = tableRows(half, 'pump-1');
  test('leaves it empty in the table, null in NDJSON', () => {
    expect(rows.map((r) => [r.place, r.bolt, r.may_turn, r.oil_lost])).toEqual([
      ['l', 'steel', 'yes', null],
      ['r', null, null, null],
    ]);
    const [head = '', , right = ''] = toCsv(rows).split('\r\n');
    expect(right.split(',')[head.split(',').indexOf('bolt')]).toBe('');
    expect(JSON.parse(toNdjson(rows).split('\n')[1] ?? '').may_turn).toBeNull();
  });
  test('says it in words beside what is known, null in JSON', () => {
    expect(toMarkdown(sheet)).toMatch(/\| Bolt \| Steel \| not asked yet \|/);
    expect(toHtml(sheet)).toContain('not asked yet');
    const { groups } = JSON.parse(toJson(sheet)) as { groups: { figures: Figure[] }[] };
    expect(groups[0]?.figures.find((f) => f.key === 'bolt' && f.place === 'r')?.value).toBeNull();
  });
});

describe('the shipped job, stopped before a solvent is chosen', () => {
  const file = replaySchema.parse(
    parse(readFileSync(new URL('../../procedures/practice/college-30kw.replay.yaml', import.meta.url), 'utf8')),
  );
  const cut = file.steps.findIndex((s) => 'step' in s && s.step === 'solvent-choice');
  const run = replay(modelFor('regrease-in-place'), { ...file, steps: file.steps.slice(0, cut) });
  if (!run.ok) throw new Error(run.message);
  const { state } = run;
  const shipped = sheetOf(state);
  test('states nothing of what comes after', () => {
    const later = ['rinse', 'cage_rinse', 'cage_soak', 'left_behind', 'moved_total', 'run_in_result', 'syringe_bore'];
    const told = [...shipped.headline, ...shipped.groups.flatMap((g) => g.figures)].filter((f) =>
      later.includes(f.key),
    );
    expect(new Set(told.map((f) => f.key))).toEqual(new Set(later));
    expect(told.filter((f) => f.known).map((f) => `${f.key} ${f.place}: ${f.text}`)).toEqual([]);
    const row = tableRows(state, 'fan-1')[0] ?? {};
    expect([row.rinse, row.cage_rinse, row.left_behind_mL, row.moved_total_mL]).toEqual([null, null, null, null]);
  });
  test('names nothing twice in one cell, and still warns of the speed', () => {
    expect(toMarkdown(shipped)).not.toMatch(/needs ([^,|]+), \1[,| ]/);
    expect(shipped.front.unusual.map((u) => u.text).join(' ')).toMatch(/It turns at 14\s000\srpm/);
  });
  test('has a tag that says when work was done last, not that it is done', () => {
    const lines = tagOf(shipped, clock().show)?.lines.map((l) => l.label);
    expect(lines).toContain('NOT FINISHED');
    expect(lines).toContain('Last worked on');
    expect(lines).not.toContain('Done');
  });
});

test('a clock that was set back is told with both times, plainly', () => {
  const entries = half.entries.map((e, i) =>
    i < half.entries.length - 2 ? e : { ...e, at: '2026-03-02T06:00:00.000Z' },
  );
  const told = sheetOf(new State(half.model, entries, half.now)).front.unusual.map((u) => u.text);
  expect(told.join(' ')).toContain('clock of the computer was set back by 2 h');
});

test('a clock that was set forward while the guide was open is told on page 1', () => {
  const last = half.entries.at(-1)!;
  const note = { kind: 'note', place: 'job', text: 'Seen.', clock: { gained: 3_600_000 } } as const;
  const entries = [...half.entries, { ...note, by: 'AP', seq: last.seq + 1, at: last.at }];
  const told = sheetOf(new State(half.model, entries, half.now)).front.unusual.map((u) => u.text);
  expect(told.join(' ')).toContain('clock of the computer was set forward by 60 min');
});

test('a value of one bearing stands under that bearing, not under the whole job', () => {
  const { state } = new Job().run();
  const rows = sheetOf(state).front.rows.filter((r) => r.heading === 'Warm after the run-in');
  expect(rows.map((r) => r.place)).toEqual(['a', 'b']);
});
