/** Expressions that are evaluated as trees: what comes out is what the library makes of them, whatever is known. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { isList, isRecord } from '../../src/guards/guards.js';
import type { Answer } from '../../src/procedure/answer.js';
import { compile, evaluationOf, keptTree } from '../../src/procedure/expression.js';
import { type Model, modelOf } from '../../src/procedure/model.js';
import { size } from '../setup/size.js';
import { library } from './library.js';

const numbers = [0, 1, 2, 0.5, -3, 12.25, 1000, 70];

/** Each text of a procedure that is an expression. */
function expressionsOf({ procedure, environment }: Model): string[] {
  const out = new Set<string>();
  const visit = (part: unknown): void => {
    if (isList(part)) for (const item of part) visit(item);
    else if (isRecord(part)) for (const value of Object.values(part)) visit(value);
    else if (typeof part === 'string' && part.length < 1_000 && environment.check(part).valid) out.add(part);
  };
  visit(procedure);
  return [...out];
}

/** What a name may be, of its type; one in six is not known, one in twenty of another type. */
function drawn(model: Model, name: string, words: readonly string[]): fc.Arbitrary<Answer | undefined> {
  const word = fc.constantFrom(...words, '');
  const number = fc.constantFrom(...numbers);
  const byType: Record<string, fc.Arbitrary<Answer>> = {
    double: number,
    string: word,
    bool: fc.boolean(),
    'list<double>': fc.array(number, { maxLength: 3 }),
    'list<string>': fc.array(word, { maxLength: 3 }),
    'list<bool>': fc.array(fc.boolean(), { maxLength: 3 }),
  };
  const own = byType[model.keys.get(name)?.type ?? ''] ?? word;
  return fc.oneof(
    { weight: 16, arbitrary: own },
    { weight: 3, arbitrary: fc.constant(undefined) },
    { weight: 1, arbitrary: fc.oneof(...Object.values(byType)) },
  );
}

describe.each([...library.procedures.values()])('expressions of $procedure.procedure', ({ procedure, hash }) => {
  const model = modelOf(procedure, hash, library.tables, calculators);
  const types = (name: string) => model.keys.get(name)?.type;
  const own = evaluationOf(types, library.tables);
  const texts = expressionsOf(model);

  it('come to the same', () => {
    let known = 0;
    for (const text of texts) {
      const [ours, theirs] = [compile(() => model.environment, text, own), compile(() => model.environment, text)];
      expect(ours.names, text).toStrictEqual(theirs.names);
      const words = [...text.matchAll(/'([^']*)'/g)].map((m) => m[1] ?? '');
      const each = theirs.names.filter((n) => model.keys.has(n)).map((n) => [n, drawn(model, n, words)] as const);
      fc.assert(
        fc.property(fc.record(Object.fromEntries(each)), (all) => {
          const values = Object.fromEntries(
            Object.entries(all).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])),
          );
          const came = ours.run(values);
          expect(came, text).toStrictEqual(theirs.run(values));
          if (came !== undefined) known++;
        }),
        { numRuns: size(each.length > 1 ? 12 : 4, 300) },
      );
    }
    expect(known).toBeGreaterThan(2 * texts.length);
  });

  it('come to the same when the tree was kept', () => {
    let kept = 0;
    for (const text of texts.filter((t) => !/^\w*$/.test(t))) {
      const tree = keptTree(model.environment, text);
      if (tree === undefined) continue;
      kept++;
      const read = compile(() => model.environment, text, own);
      const given = compile(
        () => {
          throw new Error('It is not to be read again.');
        },
        text,
        own,
        JSON.parse(JSON.stringify(tree)),
      );
      expect(given.names).toStrictEqual(read.names);
      const values = Object.fromEntries(
        read.names.flatMap((n): [string, Answer][] => {
          const type = types(n);
          return type === 'double' ? [[n, 2]] : type === 'bool' ? [[n, true]] : type === 'string' ? [[n, 'x']] : [];
        }),
      );
      expect(given.run(values), text).toStrictEqual(read.run(values));
    }
    expect(kept).toBeGreaterThan(50);
  });
});
