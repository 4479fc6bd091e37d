/** What the books say of the code is there: each path leads to a file, each room and each test that is named exists. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { expect, it } from 'vitest';

/** Folders from which a book names a file. */
const books: Readonly<Record<string, readonly string[]>> = {
  'DEVELOPERS.md': ['.', 'src', 'src/engine', 'src/screens', 'tests'],
  'procedures/README.md': ['.', 'procedures'],
};
/** What the program, its build or the reader makes. */
const made = /<|^(my-shop|dist|previous|\.bench|\/tmp)\/|^(practice\/|parts\/NAME\.yaml|index\.jsonl|latest\.json)$/;
/** A test is named without its ending. */
const endings = ['', '.test.ts', '.test.tsx', '.fuzz.test.ts'];

/** A slash between plain words, or an ending of ours. */
const isPath = (word: string): boolean =>
  /^[\w.<>*-]+(?:\/[\w.<>*-]*)+$|^[\w*-]+\.(?:tsx?|mjs|ya?ml|json|jsonl|md)$/.test(word) && !made.test(word);

/** The file, or one whose name fits where there is a star. */
function fits(file: string): boolean {
  if (!file.includes('*')) return existsSync(file);
  const name = new RegExp(`^${basename(file).replaceAll('.', '\\.').replaceAll('*', '.*')}$`);
  return existsSync(dirname(file)) && readdirSync(dirname(file)).some((f) => name.test(f));
}
const isThere = (path: string, folders: readonly string[]): boolean =>
  folders.some((folder) => endings.some((ending) => fits(join(folder, path + ending))));

const fenced = /^ *```[\s\S]*?^ *```$/gm;

it.each(Object.entries(books))('%s names no file that is not there', (book, folders) => {
  const prose = readFileSync(book, 'utf8').replace(fenced, '');
  const words = [...prose.matchAll(/`([^`\n]+)`/g)].flatMap((m) => (m[1] ?? '').split(/[\s'"]+/));
  const paths = [...new Set(words)].filter(isPath);
  expect(paths.length).toBeGreaterThan(5);
  expect(paths.filter((path) => !isThere(path, folders))).toEqual([]);
});

it('DEVELOPERS.md names for each fault a test that is there', () => {
  const table = /\| Fault \|.*\n([\s\S]*?)\n\n/.exec(readFileSync('DEVELOPERS.md', 'utf8'))?.[1] ?? '';
  const named = table.split('\n').flatMap((row) => row.split('|').at(-2)?.trim().split(/, /) ?? []);
  expect(named.length).toBeGreaterThan(20);
  expect(named.filter((test) => test.includes('/') && !isThere(test, ['tests']))).toEqual([]);
});

it('DEVELOPERS.md names every room of the code', () => {
  const rooms = readFileSync('DEVELOPERS.md', 'utf8').match(fenced)?.[0] ?? '';
  const named = (indent: string): string[] =>
    [...rooms.matchAll(new RegExp(`^${indent}([a-z]+)/ `, 'gm'))].map((m) => m[1] ?? '').sort();
  const folders = (path: string): string[] =>
    readdirSync(path, { withFileTypes: true })
      .filter((e) => e.isDirectory())
      .map((e) => e.name)
      .sort();
  expect(named('  ')).toEqual(folders('src'));
  expect(named('    ')).toEqual(folders('src/engine'));
});
