/** What ships can be read with wet gloves and little English: the check of words finds nothing where it could hurt. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { checkWords } from '../../src/procedure/check-words.js';
import { loadWordList } from '../../src/procedure/word-list.js';

const folder = new URL('../../procedures/', import.meta.url);
const text = (path: string): string => readFileSync(new URL(path, folder), 'utf8');
const yaml = (path: string): string[] =>
  readdirSync(new URL(path, folder)).flatMap((f) => (f.endsWith('.yaml') ? [`${path}${f}`] : []));
const { words } = loadWordList(text('words/words.yaml'), 'words.yaml');
const found = ['', 'parts/'].flatMap(yaml).flatMap((f) => checkWords(text(f), f, words));
const told = (wanted: (p: (typeof found)[number]) => boolean) =>
  found.filter(wanted).map((p) => `${p.file}:${p.line}: ${p.message}`);

it('no caution lacks its signal word, its hazard or what to do, or follows a lesser one', () => {
  const faults = ['signal word', 'order of cautions', 'caution without hazard and what to do'];
  expect(told((p) => faults.includes(p.fault))).toEqual([]);
});
it('no dangerous step instructs several things in a sentence, or nothing', () => {
  expect(told((p) => p.hazard && /instruction/.test(p.fault))).toEqual([]);
});
it('elsewhere such sentences are rare, as are long ones and words that are not used', () => {
  for (const fault of ['several instructions', 'no instruction', 'long', 'word not used', 'sign unexplained'])
    expect(told((p) => p.fault === fault).length, fault).toBeLessThanOrEqual(8);
});
