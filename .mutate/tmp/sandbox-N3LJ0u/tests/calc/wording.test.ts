/** What the calculators say is read in the guide as well as on the shell: no sentence may be about the shell's keys. */
// @ts-nocheck

import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { calculators } from '../../src/calc/index.js';

const folder = new URL('../../src/calc/', import.meta.url);
/** The shell edge, where keys are what is spoken about. */
const shell = new Set(['command.ts', 'read-arguments.ts', 'print.ts', 'define.ts']);
const files = readdirSync(folder).filter((f) => f.endsWith('.ts') && !shell.has(f));

/** Texts in quotes, comments left out. */
function texts(source: string): string[] {
  const code = source.replace(/\/\*[\s\S]*?\*\//g, '').replace(/^\s*\/\/.*$/gm, '');
  return [...code.matchAll(/'((?:[^'\\\n]|\\.)*)'|"((?:[^"\\\n]|\\.)*)"|`((?:[^`\\]|\\.)*)`/g)].map(
    (m) => m[1] ?? m[2] ?? m[3] ?? '',
  );
}

/** Keys that are no words of the language. */
const coined = new Set(
  Object.values(calculators)
    .flatMap((c) => Object.keys(c.inputs))
    .filter((k) => /[a-z][A-Z]|^ndm$|^nu\d+$/.test(k)),
);

test.each(files)('%s speaks of things, not of keys', (file) => {
  const sentences = texts(readFileSync(new URL(file, folder), 'utf8')).filter((t) => /\s/.test(t) && /[.:;]/.test(t));
  for (const t of sentences) {
    expect(t).not.toMatch(/\b[a-z][A-Za-z0-9]*=\S/);
    expect(t).not.toMatch(/\btype [a-z]+[A-Z]/);
    const said = t.replace(/\$\{[^}]*\}/g, '').split(/[^A-Za-z0-9]+/);
    expect(said.filter((w) => coined.has(w))).toEqual([]);
  }
});
