/** Checks what the job sheet is to show. */
import type { NameCheck } from './check-names.js';
import type { Judge } from './judge.js';
import type { KeyInfo } from './model.js';
import type { Path } from './problem.js';
import type { Procedure } from './schema.js';

export function checkSheet(
  p: Procedure,
  keys: ReadonlyMap<string, KeyInfo>,
  steps: readonly string[],
  kinds: readonly string[],
  judge: Judge,
  one: NameCheck,
): void {
  const sheet = p.sheet;
  const known = (key: string, path: Path): void => {
    if (!keys.has(key)) judge.noKey(key, path);
  };
  const { life } = p;
  for (const name of ['rotor', 'machine', 'hours', 'a_day'] as const) {
    const key = life?.[name];
    if (key !== undefined) judge.name(key, 'job', ['life', name]);
  }
  (life?.trend ?? []).forEach((t, i) => {
    known(t.key, ['life', 'trend', i, 'key']);
  });
  if (!sheet) return;
  sheet.figures.forEach((f, i) => {
    known(f.key, ['sheet', 'figures', i, 'key']);
  });
  (sheet.decisions ?? []).forEach((d, i) => {
    one(['sheet', 'decisions', i], d, steps, 'step');
  });
  for (const list of ['headline', 'next'] as const)
    (sheet[list] ?? []).forEach((k, i) => {
      known(k, ['sheet', list, i]);
    });
  (sheet.groups ?? []).forEach((g, i) => {
    g.keys.forEach((k, j) => {
      known(k, ['sheet', 'groups', i, 'keys', j]);
    });
  });
  const { front } = sheet;
  const lines = (
    list: readonly { readonly at?: string; readonly when?: string; readonly say: string }[] | undefined,
    path: Path,
  ): void => {
    list?.forEach((line, i) => {
      const at = line.at ?? 'job';
      if (!one([...path, i, 'at'], at, ['job', ...kinds], 'kind of place')) return;
      judge.expression(line.when, at, 'bool', [...path, i, 'when']);
      judge.text(line.say, at, [...path, i, 'say']);
    });
  };
  if (front) {
    for (const part of ['verdict', 'rows', 'unusual', 'watch', 'instruments', 'tag'] as const)
      lines(front[part], ['sheet', 'front', part]);
    (front.known_by ?? []).forEach((k, i) => {
      known(k, ['sheet', 'front', 'known_by', i]);
    });
    lines(front.due?.why, ['sheet', 'front', 'due', 'why']);
    judge.name(front.due?.hours, 'job', ['sheet', 'front', 'due', 'hours']);
    judge.name(front.due?.a_day, 'job', ['sheet', 'front', 'due', 'a_day']);
  }
  if (sheet.strip) {
    known(sheet.strip.marks, ['sheet', 'strip', 'marks']);
    if (one(['sheet', 'strip', 'each'], sheet.strip.each, kinds, 'kind of place'))
      judge.expression(sheet.strip.when, sheet.strip.each ?? 'job', 'bool', ['sheet', 'strip', 'when']);
  }
}
