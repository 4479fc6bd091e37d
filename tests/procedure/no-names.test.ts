/** Nothing in the program names a step, key, branch, gate or phase of a shipped procedure: content is data. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { calculators } from '../../src/calc/index.js';
import { underscored } from '../../src/procedure/model.js';
import type { Procedure, TableFile } from '../../src/procedure/schema.js';
import { canonicalUnit } from '../../src/units/kinds.js';
import { content } from './content.js';
import { literalsOf } from './literals.js';

const root = new URL('../../', import.meta.url).pathname;
const filesIn = (folder: string, end: RegExp): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((f) =>
    f.isDirectory() ? filesIn(join(folder, f.name), end) : end.test(f.name) ? [join(folder, f.name)] : [],
  );
// With their parts in them.
const procedures = content.procedures.map((p) => p.procedure);

/** Words that the program has for reasons of its own. */
function ownWords(): Set<string> {
  const out = new Set<string>(Object.keys(canonicalUnit));
  for (const c of Object.values(calculators)) {
    for (const word of [c.name, ...Object.keys(c.inputs), ...Object.keys(c.results)]) out.add(word);
    for (const spec of Object.values(c.inputs)) if ('choices' in spec) for (const w of spec.choices) out.add(w);
  }
  for (const f of readdirSync(join(root, 'procedures/tables'))) {
    const t = parse(readFileSync(join(root, 'procedures/tables', f), 'utf8')) as TableFile;
    for (const word of [t.table, ...Object.keys(t.columns), ...t.rows.map((r) => r.id)]) out.add(word);
  }
  // What a drawing is given has names of its own.
  for (const s of procedures.flatMap((p) => p.steps)) for (const word of Object.keys(s.draw?.with ?? {})) out.add(word);
  out.add('job');
  return out;
}
/** Single words are also words of code and trade ("stopped", "sheet"); they count only where something is looked up by them. */
const compound = (name: string): boolean => /[-_]/.test(name);
const lookedUp = (source: string): string[] =>
  [...source.matchAll(/\.(?:get|has|evaluate|holds|view)\(\s*['"`]([\w-]+)['"`]/g)].map((m) => m[1] as string);

const namesOf = (p: Procedure): string[] => [
  p.procedure,
  ...p.phases.map((f) => f.id),
  ...p.places.flatMap((k) => [k.id, ...k.instances.map((i) => i.id)]),
  ...p.steps.flatMap((s) => [
    s.id,
    s.together ?? '',
    ...(s.gates ?? []).map((g) => g.id),
    ...(s.ask ?? []).flatMap((q) => [q.key, ...(q.kind === 'dimensions' ? q.parts : [])]),
    ...(s.repeat ? [`rows_${underscored(s.id)}`, `elapsed_${underscored(s.id)}`] : []),
  ]),
  ...(p.facts ?? []).map((f) => f.key),
  ...(p.calcs ?? []).flatMap((c) => Object.values(c.gives)),
  ...(p.branches ?? []).flatMap((b) => [b.id, `event_${underscored(b.id)}`]),
  ...Object.keys(p.follows?.reads ?? {}),
];

describe('the program knows no procedure', () => {
  it('reads literals, not comments or patterns', () => {
    const source = `const a = 'x'; // 'no'\n/* "no" */ f(/'no'/, \`y\${b('z')}w\`, "it's");`;
    expect(literalsOf(source)).toEqual(['x', 'y', 'z', 'w', "it's"]);
  });

  it('has no literal that names a part of one', () => {
    const own = ownWords();
    const names = new Set(procedures.flatMap(namesOf).filter((n) => n && !own.has(n)));
    expect(names.size).toBeGreaterThan(250);
    const files = filesIn(join(root, 'src'), /\.tsx?$/);
    const found = files.flatMap((file) =>
      [...literalsOf(readFileSync(file, 'utf8')).filter(compound), ...lookedUp(readFileSync(file, 'utf8'))]
        .filter((l) => names.has(l))
        .map((l) => `${file.slice(root.length)}: ${l}`),
    );
    expect(found).toEqual([]);
  });
});
