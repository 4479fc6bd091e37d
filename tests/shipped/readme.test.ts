/** The README shows a screen: it is the one that the real program was seen with. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const read = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

test('the screen in the README is one of the reviewed captures', () => {
  const screen = /```text\n([\s\S]+?)\n```/.exec(read('README.md'))?.[1] ?? 'none';
  expect(read('tests/pty/snapshots/80x24.txt')).toContain(`===\n${screen}\n`);
});
