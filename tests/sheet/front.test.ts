/** The first page: what the procedure names for it, and what the journal shows to be out of the ordinary. */
import { describe, expect, test } from 'vitest';
import { loadProcedure, loadTable } from '../../src/procedure/load.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import type { Sheet } from '../../src/sheet/sheet-data.js';
import { tagOf } from '../../src/sheet/tag.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { clock } from '../../src/sheet/when.js';
import { calculators, finished, jobFile, jobText, model, procedureText, tableText } from './fixture.js';

const front = `
sheet:
  front:
    known_by: [pump]
    barred: [{ until: run, say: It was not run. }]
    ended: [{ event: leak, when: "shape == 'toothed'", say: never said }, { event: leak, say: "found at the {leak_at}" }]
    verdict:
      - { when: "pump == 'Pump 8'", say: Never said. }
      - { once: run, say: "{pump} was filled." }
    rows:
      - { heading: Filled, at: half, once: put-in, say: "with {dose}" }
      - { heading: Pump, say: "{pump}" }
      - { heading: Dose, at: half, say: "{dose} into {gap}" }
      - { heading: Leak, at: half, say: "at the {leak_at}" }
    unusual:
      - { at: half, when: "shape == 'disc'", say: This half has a disc. }
    due: { hours: turns, why: [{ at: half, when: "shape == 'disc'", say: a disc. }] }
    watch: [{ say: "Look at {pump}." }, { at: half, say: "{pump} leaks at the {leak_at}." }]
    instruments: [{ heading: Gun, say: "number 4" }]
    tag: [{ heading: Pump, say: "{pump}" }]
`;
const turns = '      - { key: turns, kind: number, label: Hours to the next look, limits: [1, 10000] }\n';
const text = procedureText
  .replace('\nsheet:\n', front)
  .replace('      - { key: name_l', `${turns}      - { key: name_l`)
  .replace('  next: [name_l]', '  next: [turns, name_l]');
const job = jobText.replace('name_l: "Motor side"', 'name_l: "Motor side", turns: "480"');
const sheet = sheetOf(finished(jobFile(job), model(text)));

describe('by the procedure', () => {
  test('rows stand at their places; one of which nothing is known is left out', () => {
    expect(sheet.front.rows.map((r) => `${r.heading} ${r.where}: ${r.text}`)).toEqual([
      'Filled Motor side: with 1.5 mL',
      'Filled Right half: with 0.8 mL',
      'Pump : Pump 7',
      'Dose Motor side: 1.5 mL into 25.4 ± 0.5 mm',
      'Dose Right half: 0.8 mL into 20.0 ± 0.5 mm',
      'Leak Right half: at the lower bolt',
    ]);
  });
  test('the first verdict that holds is said', () => {
    expect(sheet.verdict).toMatch(/^FINISHED\. Pump 7 was filled\. /);
  });
  test('the next look has hours, days and its reason', () => {
    // 480 h from 2 March 2026: 20 days day and night, 60 days at 8 h a day (calendar, by hand).
    expect(sheet.front.due?.dates.map((d) => [d.aDay, d.at.slice(0, 10)])).toEqual([
      [24, '2026-03-22'],
      [8, '2026-05-01'],
    ]);
    expect(sheet.front.due?.why.map((w) => `${w.where}: ${w.text}`)).toEqual(['Right half: a disc.']);
    expect(toMarkdown(sheet)).toContain('22 Mar 2026 if it runs day and night; 1 May 2026 at 8 h a day');
    expect(toMarkdown(sheet)).toContain('480 hours of running');
  });
});

describe('before it was run', () => {
  const items = jobFile(job).steps;
  const early = (until: string): Sheet => {
    const to = items.findIndex((s) => 'step' in s && s.step === until);
    return sheetOf(finished({ ...jobFile(job), steps: items.slice(0, to) }, model(text)));
  };
  const half = early('run');
  test('the bar is told first, on page and tag, and the verdict that waits for the run is not', () => {
    expect(half.verdict).toMatch(/^DO NOT RUN\. It was not run\. NOT FINISHED: /);
    expect(half.verdict).not.toContain('was filled');
    expect(tagOf(half, clock().show)?.lines[1]).toEqual({ label: 'DO NOT RUN', text: 'It was not run.' });
    expect(sheet.front.barred).toEqual([]);
  });
  test('no next look is named, though its hours are recorded', () => {
    expect(half.next.find((f) => f.key === 'turns')?.text).toBe('480');
    expect(half.front.due).toBeUndefined();
    expect(sheet.front.due?.by).toBe('AP');
  });
  test('what waits for a step at its own place does not wait for the other place', () => {
    const rows = (s: Sheet) => s.front.rows.filter((r) => r.heading === 'Filled').map((r) => r.where);
    expect(rows(early('put-in'))).toEqual([]);
    const one = finished(
      { ...jobFile(job), steps: items.slice(0, items.findIndex((s) => 'note' in s) + 2) },
      model(text),
    );
    expect(rows(sheetOf(one, {}))).toEqual([]);
    expect(rows(sheet)).toEqual(['Motor side', 'Right half']);
  });
  test('an event says what is still open', () => {
    const open = early('recheck');
    expect(open.front.unusual.map((u) => u.text).join(' ')).toContain('NOT SETTLED, still to do: Look for the leak');
  });
  test('a line to watch for is left out where anything in it is not known', () => {
    expect(sheet.front.watch.map((w) => w.text)).toEqual(['Look at Pump 7.', 'Pump 7 leaks at the lower bolt.']);
  });
});

describe('out of the ordinary', () => {
  const all = sheet.front.unusual.map((u) => `${u.where}: ${u.text}`);
  test('is first what the procedure names, then what the journal shows', () => {
    expect(all[0]).toBe('Right half: This half has a disc.');
    expect(all.join('\n')).toMatch(/OVERRULED by MN: Put it in\..*shift ends \(the time was not made up\)/);
    expect(all.join('\n')).toMatch(/OVERRULED by MN: Look at it\..*oil mist only/);
    expect(all.join('\n')).toMatch(/STILL TO BE PUT RIGHT: Put it in\./);
    expect(all.join('\n')).toMatch(/Unforeseen: Leak: lower bolt\. found at the lower bolt \(noted/);
    expect(all.join('\n')).toMatch(/1 reading was corrected afterwards: .* → 1\.5 mL \(read the wrong line\); see/);
  });
  test('each stop that was overruled is there, behind what the next owner needs first and before the pages of the work', () => {
    const md = toMarkdown(sheet).replaceAll('\\', '');
    expect(sheet.overruled.length).toBeGreaterThan(1);
    for (const o of sheet.overruled) {
      expect(md.indexOf(o.reason)).toBeGreaterThan(md.indexOf('## At a glance'));
      expect(md.indexOf(o.reason)).toBeLessThan(md.indexOf('## Next look'));
    }
  });
  test('checks signed by the technician alone are told', () => {
    const alone = sheetOf(finished(jobFile(jobText.replace('mentor: MN\n', '').replace('apprentice: AP\n', ''))));
    expect(alone.front.unusual.map((u) => u.text)).toContain(
      'NO WITNESS: 2 checks were signed by the technician alone.',
    );
  });
});

test.each([
  ['a value that is not there', '{pump}', '{pomp}', 'There is no value “pomp”.'],
  ['a place that is not there', 'at: half, when', 'at: quarter, when', 'kind of place'],
  ['a step that is not there', 'once: put-in', 'once: put-on', 'put-on'],
  ['an event that is not there', 'event: leak, say', 'event: lake, say', 'lake'],
  ['a condition that is none', "shape == 'disc'", "shape == 'star'", 'can never be'],
])('the check names %s, and its line', (_, from, to, says) => {
  const { table } = loadTable(tableText, 'shapes.yaml');
  const own = text.slice(0, text.indexOf('  front:')) + text.slice(text.indexOf('  front:')).replace(from, to);
  const { problems } = loadProcedure(own, 'x.yaml', { tables: table ? { shapes: table } : {}, calculators });
  expect(problems.map((p) => p.message).join('\n')).toContain(says);
  const line = own.slice(0, own.lastIndexOf(to.slice(0, 12))).split('\n').length;
  expect(problems.some((p) => Math.abs(p.line - line) <= 25)).toBe(true);
});
