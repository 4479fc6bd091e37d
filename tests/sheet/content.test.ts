/** What a sheet must tell, on an invented job of an invented procedure. */
import { describe, expect, test } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toJson } from '../../src/sheet/to-json.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { finished, jobFile, jobText, model } from './fixture.js';

const state = finished();
const sheet = sheetOf(state);
const formats = [toMarkdown(sheet), toHtml(sheet), toJson(sheet)] as const;
const withEntries = (entries: readonly Entry[]): State => new State(state.model, entries, state.now);

describe('the head', () => {
  test('names job, procedure, version, hash, people and times', () => {
    expect(sheet.head).toMatchObject({
      job: 'Test pump',
      procedure: 'fill-coupling',
      version: '2.1.0',
      hash: 'f00dfeed',
    });
    expect(sheet.head.people.map((p) => `${p.initials} ${p.role}`)).toEqual(['AP apprentice', 'MN mentor']);
    expect(sheet.head.started).toBe('2026-03-02T08:00:01.000Z');
    expect(sheet.head.finished).toBe(true);
  });
  test('invented readings are marked PRACTICE in every format', () => {
    expect(formats[0].startsWith('# PRACTICE')).toBe(true);
    expect(formats[1]).toContain('<strong>PRACTICE</strong>');
    expect(JSON.parse(formats[2]).head.practice).toBe('invented readings');
  });
  test('a real job is never marked so', () => {
    const real = sheetOf(finished(jobFile(jobText.replace('invented: true', 'invented: false'))));
    for (const text of [toMarkdown(real), toHtml(real), toJson(real)]) expect(text).not.toMatch(/PRACTICE|"practice"/);
  });
  test('an unfinished job says so and what is open', () => {
    const half = sheetOf(withEntries(state.entries.slice(0, 9)));
    expect(half.head.finished).toBe(false);
    expect(half.head.open.length).toBeGreaterThan(0);
    expect(toMarkdown(half)).toContain('NOT FINISHED');
    expect(toHtml(half)).toContain('NOT FINISHED');
  });
});

describe('figures', () => {
  test('carry unit, half width and place', () => {
    const doses = sheet.headline.filter((f) => f.key === 'dose');
    expect(doses.map((f) => `${f.label} ${f.where} ${f.text}`)).toEqual([
      'Dose that went in Motor side 1.5 mL',
      'Dose that went in Right half 0.8 mL',
    ]);
    expect(sheet.headline.find((f) => f.key === 'marks')).toMatchObject({ value: [9, 13.8], unit: 'mm', known: true });
  });
  test('an unknown figure says what is missing', () => {
    const early = sheetOf(withEntries(state.entries.slice(0, 3)));
    expect(early.headline.find((f) => f.key === 'dose')?.text).toBe('not asked yet');
  });
});

describe('derivation', () => {
  const left = sheet.derivations.find((d) => d.title === 'Room in the coupling' && d.place === 'l');
  test('shows the formula with the numbers in it, inputs and what dominates', () => {
    expect(left?.formula).toBe('V = f L / 10');
    expect(left?.worked).toEqual(['V = 0.5 x 25.4 / 10 = 1.27 mL']);
    expect(left?.results[0]).toMatchObject({ text: '1.27 ± 0.03 mL', dominant: 'Length of the gap' });
    expect(left?.inputs.map((i) => `${i.depth} ${i.label}: ${i.text}`)).toEqual([
      '0 Length of the gap (Gap): 25.4 ± 0.5 mm',
      '0 Shape factor: 0.5',
      '1 Shape: toothed',
    ]);
    expect(left?.inputs[0]?.from).toBe('read by AP, 2026-03-02T08:00:06.000Z, typed “1 in”');
  });
  test('names published sources alone', () => {
    expect(left?.sources).toEqual([{ tag: 'P', says: 'Invented Handbook of Couplings, table 7' }]);
    const says = sheet.derivations.flatMap((d) => [...d.sources, ...d.inputs.flatMap((i) => i.sources)]);
    expect(says).toContainEqual({ tag: 'M', says: 'usual, verify' });
    expect(says).toContainEqual({ tag: 'CP', says: 'common practice, no source' });
    expect(says).toContainEqual({ tag: 'P', says: 'Invented Standard, 3rd ed., table 12' });
    for (const text of formats) expect(text).not.toContain('SECRET');
  });
  test('stands before what rests on it, each once', () => {
    expect(sheet.derivations.map((d) => `${d.title} ${d.place}`)).toEqual([
      'Room in the coupling l',
      'Room in the coupling r',
      'Strokes of the gun job',
    ]);
  });
});

describe('what happened', () => {
  test('a correction keeps old, new, reason and person', () => {
    expect(sheet.corrections).toMatchObject([
      { label: 'Dose', where: 'Motor side', old: '1.3 mL', now: '1.5 mL', reason: 'read the wrong line', by: 'AP' },
    ]);
  });
  test('work done under the old figure is flagged until settled', () => {
    const open = sheet.remedies.find((r) => r.place === 'l');
    expect(open?.text).toBe('Now 1.5 mL, was 1.3 mL: change +0.2 mL.');
    expect(open?.settled).toBeUndefined();
    const settled = finished(jobFile(`${jobText}  - { settle: { step: put-in, at: l, reason: added the rest } }\n`));
    const lines = sheetOf(settled).remedies.filter((r) => r.place === 'l');
    expect(lines).toMatchObject([{ settled: { reason: 'added the rest' } }]);
  });
  test('a signature given before the correction no longer stands', () => {
    expect(sheet.signatures.map((s) => `${s.place} ${s.role} ${s.stands}`)).toEqual([
      'l witnessed false',
      'r witnessed true',
      'l witnessed true',
    ]);
  });
  test('an overrule says who, why and whether it still holds', () => {
    expect(sheet.overruled).toMatchObject([
      { gate: 'clean', initials: 'MN', reason: 'oil mist only', now: 'lapsed' },
      { gate: 'wait', initials: 'MN', reason: 'shift ends', now: 'in force' },
    ]);
  });
  test('witnessed, self-checked and overruled differ in words and in shape', () => {
    const alone = jobText.replace('mentor: MN\n', '').replace('apprentice: AP\n', '');
    const self = sheetOf(finished(jobFile(alone)));
    expect(self.signatures.every((s) => s.role === 'self-checked')).toBe(true);
    const html = toHtml(self);
    expect(html).toContain('<span class="badge self">self-checked by MN, no witness</span>');
    expect(html).not.toContain('class="badge witnessed"');
    expect(formats[1]).toContain('<span class="badge witnessed">WITNESSED by MN</span>');
    expect(formats[1]).toContain('<span class="badge overruled">OVERRULED by MN</span>');
    expect(toMarkdown(self)).toContain('self-checked by MN, no witness');
  });
  test('event, waits, cautions, notes and predictions', () => {
    expect(sheet.events).toMatchObject([{ mark: 'Leak: lower bolt', text: 'at the flange', where: 'Right half' }]);
    expect(sheet.waits.map((w) => `${w.place} ${w.minutes} ${w.state}`)).toEqual(['l 30 over', 'r 30 cut short']);
    expect(sheet.cautions.length).toBe(3);
    expect(sheet.notes.map((n) => n.kind)).toEqual(['note', 'handover']);
    expect(sheet.predictions[0]).toMatchObject({ predicted: '1.5 mL', actual: '1.27 ± 0.03 mL' });
  });
  test('readings asked again after an event are kept apart', () => {
    expect(sheet.setAside.map((s) => `${s.place} ${s.label} ${s.text}`)).toEqual([
      'r Shape disc',
      'r Gap 20 mm',
      'r Dirty yes',
    ]);
  });
  test('what was taken back counts for nothing, and is listed as such', () => {
    const last = state.entries.at(-1)!;
    const note = { kind: 'note', place: 'job', text: 'slip of the pen', by: 'AP', at: last.at } as const;
    const more = [
      ...state.entries,
      { ...note, seq: last.seq + 1 },
      { kind: 'undo', of: last.seq + 1, by: 'AP', at: last.at, seq: last.seq + 2 } as const,
    ];
    const s = sheetOf(withEntries(more));
    expect(s.undone).toBe(1);
    expect(s.notes.map((n) => n.text)).not.toContain('slip of the pen');
    for (const text of [toMarkdown(s), toHtml(s)]) expect(text.split('slip of the pen')).toHaveLength(2);
    expect(toMarkdown(s)).toContain('1 entry was taken back');
  });
  test('a clock that was set back is told', () => {
    const entries = state.entries.map((e, i) => (i === 4 ? { ...e, at: '2026-03-02T07:00:00.000Z' } : e));
    const s = sheetOf(withEntries(entries));
    expect(s.clockJumps).toHaveLength(1);
    expect(toHtml(s)).toContain('The clock of the computer was set back');
  });
});

describe('the log and the strip', () => {
  test('rows with units, and the curve drawn from them', () => {
    expect(sheet.logs[0]?.rows.map((r) => r.cells)).toEqual([['25 °C'], ['25 °C'], ['40 °C']]);
    const curve = sheet.pictures.find((p) => p.picture === 'run-in-curve');
    expect(curve?.values.temp).toEqual([25, 25, 40]);
  });
  test('marks bear the names of their places', () => {
    expect(sheet.strip?.marks.map((m) => [m.mm, m.name])).toEqual([
      [9, 'Motor side'],
      [13.8, 'Right half'],
    ]);
  });
});

describe('times', () => {
  test('are shown in the zone asked for, in UTC otherwise', () => {
    expect(toMarkdown(sheet, { zone: 'Europe/Berlin' })).toContain('2 Mar 2026, 09:00');
    expect(toMarkdown(sheet, { zone: 'Europe/Berlin' })).toContain('Europe/Berlin');
    expect(toMarkdown(sheet, { zone: 'No/Such' })).toContain('2 Mar 2026, 08:00');
  });
});

test('a sheet can be made after each entry', () => {
  for (let n = 0; n <= state.entries.length; n++) {
    const s = sheetOf(withEntries(state.entries.slice(0, n)));
    expect(toMarkdown(s).length + toHtml(s).length + toJson(s).length).toBeGreaterThan(1000);
  }
});

test('names no step of a procedure: another procedure gives its own sheet', () => {
  const other = model();
  expect(other.procedure.procedure).toBe('fill-coupling');
  expect(formats[0]).toContain('Fill a coupling');
});

test('JSON is the sheet, and its sections beside it', () => {
  const { sections, format: _, timeZone: __, ...data } = JSON.parse(formats[2]);
  expect(data).toEqual(JSON.parse(JSON.stringify(sheet)));
  expect(sections.length).toBeGreaterThan(5);
});
