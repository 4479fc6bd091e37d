/** The sheet begins with a plain verdict, and its first table has size and speed. */
import { expect, it } from 'vitest';
import { timeOf } from '../../src/commands/practice-clock.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { Job } from './good-job.js';

it('of a finished job it says finished, and by what it was accepted', () => {
  const sheet = sheetOf(new Job().run().state);
  expect(sheet.verdict).toMatch(/^FINISHED\. Regreased by hand and run in to .+ rpm\. Accepted\.$/);
  expect(sheet.verdict).not.toMatch(/OVERRULED|Open:/);
  expect(sheet.headline.map((f) => f.key)).toEqual(expect.arrayContaining(['bearing_size', 'top_speed']));
  expect(toMarkdown(sheet).split('\n').slice(0, 8).join()).toContain('FINISHED');
  expect(toHtml(sheet)).toContain('FINISHED.');
});

it('of one that is not it says what is open and what was overruled', () => {
  const job = new Job().answer('dose', 'a', { dose_set: '2.8 mL' });
  job.step('dose', 'a').overrule = { gate: 'dose-near', reason: 'looked empty', initials: 'MN' };
  job.items.splice(job.items.findLastIndex((x) => 'step' in x && x.step === 'dose') + 1);
  const sheet = sheetOf(job.run().state);
  expect(sheet.verdict).toMatch(/^DO NOT RUN\. The run-in is not accepted\. NOT FINISHED: \d+ of \d+ steps done\./);
  expect(sheet.verdict).toMatch(/1 stop was OVERRULED: Set the dose, Drive end\..*Open: /);
});

it('a practice job is looked at by its own time, so that a wait that passed in it is over', () => {
  const at = new Date(Date.now() + 3_600_000).toISOString();
  const head = { seq: 1, by: 'AP', kind: 'job', name: 'x', procedure: 'x', version: '1', hash: 'x' } as const;
  expect(timeOf([{ ...head, at, practice: 'x' }])).toBeGreaterThanOrEqual(Date.parse(at));
  expect(timeOf([{ ...head, at }])).toBeLessThan(Date.parse(at));
});
