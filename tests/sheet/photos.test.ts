/** Pictures on the sheet: two of one thing beside each other, with words, and nothing but a picture. */
import { describe, expect, test } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { entryFault } from '../../src/store/check-entry.js';
import { finished } from './fixture.js';
import { readHtml } from './read-html.js';

const state = finished();
const hash = (c: string): string => c.repeat(64);
const uri = 'data:image/jpeg;base64,/9j/4AAQ';

function withPictures(list: readonly (readonly [step: string, place: string, c: string, shows?: string])[]): State {
  let now = state;
  for (const [step, place, c, shows] of list) {
    const action = {
      do: 'picture',
      step,
      place,
      file: `${hash(c)}.jpg`,
      sha256: hash(c),
      bytes: 9,
      name: `${c}.jpg`,
    } as const;
    const p = propose(now, shows === undefined ? action : { ...action, shows }, 'AP');
    if (!p.ok) throw new Error(p.message);
    const seq = now.entries.length + 1;
    const entry = { ...p.drafts[0], seq, at: now.entries.at(-1)?.at } as Entry;
    expect(entryFault(entry, seq)).toBeUndefined();
    now = new State(state.model, [...now.entries, entry], state.now);
  }
  return now;
}
const taken = withPictures([
  ['look', 'r', 'a', 'the disc'],
  ['look', 'l', 'b', 'Teeth'],
  ['put-in', 'r', 'c', 'the gap'],
  ['decide', 'l', 'd', 'teeth'],
]);
const made = sheetOf(taken, { picture: (file) => (file.startsWith('d') ? undefined : uri) });

describe('pictures', () => {
  test('stand by place, two of one thing side by side, however they were taken', () => {
    expect(made.photos.map((p) => `${p.place} ${p.shows}`)).toEqual(['l Teeth', 'l teeth', 'r the disc', 'r the gap']);
  });
  test('are on the page with words; one that can’t be shown is named', () => {
    const document = readHtml(toHtml(made));
    const found = Array.from(document.querySelectorAll('#photos figure'));
    expect(found).toHaveLength(4);
    expect(Array.from(document.querySelectorAll('#photos img')).map((i) => i.getAttribute('src'))).toEqual([
      uri,
      uri,
      uri,
    ]);
    for (const i of Array.from(document.querySelectorAll('#photos img')))
      expect(i.getAttribute('alt')?.length).toBeGreaterThan(10);
    expect(found[1]?.textContent).toContain('not shown here');
    expect(found[1]?.textContent).toContain(`${hash('d')}.jpg`);
    expect(toMarkdown(made)).toContain('## Pictures');
  });
  test('an address that is no picture never reaches the page', () => {
    for (const src of ['javascript:alert(1)', 'http://a.invalid/x.jpg', 'data:text/html;base64,AAAA', '"><script>']) {
      const html = toHtml(sheetOf(taken, { picture: () => src }));
      expect(html).not.toContain(src);
      expect(readHtml(html).querySelectorAll('img, script').length).toBe(0);
    }
  });
  test('change nothing else of the sheet, and can be taken back', () => {
    const { photos, entries, takenBack, undone, head, ...rest } = sheetOf(taken);
    const before = sheetOf(state);
    expect({ ...rest, findings: before.findings }).toEqual({
      ...JSON.parse(
        JSON.stringify({
          ...before,
          photos: undefined,
          entries: undefined,
          takenBack: undefined,
          undone: undefined,
          head: undefined,
        }),
      ),
    });
    const p = propose(taken, { do: 'undo' }, 'AP');
    if (!p.ok) throw new Error(p.message);
    const entry = { ...p.drafts[0], seq: taken.entries.length + 1, at: taken.entries.at(-1)?.at } as Entry;
    const back = sheetOf(new State(state.model, [...taken.entries, entry], state.now));
    expect(back.photos).toHaveLength(3);
    expect(back.takenBack.at(-1)).toMatchObject({ what: 'picture', text: 'd.jpg' });
    expect([photos.length, entries, takenBack.length, undone, head.done]).toBeDefined();
  });
  test('an entry that names another file is no entry', () => {
    const seq = 2;
    const good = {
      kind: 'picture',
      step: 'look',
      place: 'l',
      file: `${hash('a')}.jpg`,
      sha256: hash('a'),
      bytes: 9,
      name: 'x',
      by: 'AP',
      at: '2026-03-02T08:00:00.000Z',
      seq,
    };
    expect(entryFault(good, seq)).toBeUndefined();
    for (const file of ['../../x.jpg', 'x.jpg', `${hash('a')}.svg`])
      expect(entryFault({ ...good, file }, seq)).toMatch(/file/);
  });
});
