/** The calculator rounds the hours to the next look down to two figures; no procedure may round them again, 4 h to 0 or 6 to 10. */
// @ts-nocheck

import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parse } from 'yaml';

const folder = new URL('../../procedures/', import.meta.url);
const facts = readdirSync(folder)
  .filter((file) => file.endsWith('.yaml'))
  .flatMap((file) =>
    ((parse(readFileSync(new URL(file, folder), 'utf8')).facts ?? []) as { key: string; is?: string }[]).map(
      (fact) => [file, fact] as const,
    ),
  );

test('no fact of an inspection rounds its hours', () => {
  const hours = facts.filter(([, fact]) => /inspect_(after|here|list|hours)/.test(`${fact.key} ${fact.is ?? ''}`));
  expect(hours.length).toBeGreaterThan(2);
  for (const [file, fact] of hours) expect(fact.is ?? '', `${file}: ${fact.key}`).not.toMatch(/\bround\(/);
});
