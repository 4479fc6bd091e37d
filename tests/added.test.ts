/** Whoever adds a calculator or a kind of question without a test of it is told here where the test belongs. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { calculators } from '../src/calc/index.js';
import { questionKinds } from '../src/procedure/questions/index.js';
import { asks } from './screens/pump.js';

const textOf = (folder: string): string =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.test.ts'))
    .map((name) => readFileSync(`${folder}/${name}`, 'utf8'))
    .join('\n');

describe('what is added has a test', () => {
  it.each(Object.keys(calculators))(
    'the calculator %s: with figures by hand, in tests/calc or tests/outside',
    (name) => {
      const tests = textOf('tests/calc') + textOf('tests/outside');
      // As it is typed at the shell, or by its name alone.
      expect(tests).toMatch(new RegExp(`['"\`]${name}(?: [\\w-]+=|['"\`])`));
    },
  );

  it.each(Object.keys(questionKinds))('the kind of question %s: a step with it in tests/screens/pump.ts', (kind) => {
    const asked = Object.values(asks).flatMap((step) => ('ask' in step ? (step.ask as { kind: string }[]) : []));
    expect(asked.map((q) => q.kind)).toContain(kind);
  });
});
