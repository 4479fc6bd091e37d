/** Names beside initials, for whom and by which shop: on the first page and in the data. */
import { expect, test } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { entryFault } from '../../src/store/check-entry.js';
import { finished } from './fixture.js';

function named(list: readonly (readonly [string, string])[]): State {
  let now = finished();
  for (const [of, name] of list) {
    const p = propose(now, { do: 'name', of, name }, 'AP');
    if (!p.ok) throw new Error(p.message);
    const seq = now.entries.length + 1;
    const entry = { ...p.drafts[0], seq, at: now.entries.at(-1)?.at } as Entry;
    expect(entryFault(entry, seq)).toBeUndefined();
    now = new State(now.model, [...now.entries, entry], now.now);
  }
  return now;
}

test('stand beside the initials, the last one counts, and the sheet says for whom and by which shop', () => {
  const sheet = sheetOf(
    named([
      ['AP', 'A. Pupyl'],
      ['AP', ' A.  Pupil '],
      ['customer', 'Invented Mill'],
      ['issuer', 'Invented College, Bench 4'],
    ]),
  );
  expect(sheet.head.people.map((p) => [p.initials, p.name])).toEqual([
    ['AP', 'A. Pupil'],
    ['MN', undefined],
  ]);
  const first = toMarkdown(sheet, { appendix: false }).replaceAll('\\', '').split('## At a glance')[0] ?? '';
  expect(first).toContain('A. Pupil, AP (apprentice), with MN (mentor), who vouches in ink below');
  expect(first).toContain('| For | Invented Mill |');
  expect(first).toContain('| Shop | Invented College, Bench 4 |');
  expect(toMarkdown(sheet)).toContain('A\\. Pupil, apprentice'.replace('\\', ''));
});

test('an empty one and one without end are refused with a sentence', () => {
  const state = finished();
  for (const name of ['', '  ', 'x'.repeat(500)])
    expect(propose(state, { do: 'name', of: 'AP', name }, 'AP')).toMatchObject({ ok: false });
});
test('a signature says whose hands typed it', () => {
  const sheet = sheetOf(finished());
  expect(sheet.signatures.map((s) => [s.initials, s.hands])).toContainEqual(['MN', 'AP']);
  expect(toMarkdown(sheet)).toMatch(/WITNESSED by MN typed by AP, \d+ (s|min) later/);
});
