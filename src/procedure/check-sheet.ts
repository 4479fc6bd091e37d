/** Checks what the job sheet is to show. */
import type { NameCheck } from './check-names.js';
import type { Judge } from './judge.js';
import type { KeyInfo } from './model.js';
import type { Complain, Path } from './problem.js';
import type { Procedure } from './schema.js';

export function checkSheet(
  p: Procedure,
  keys: ReadonlyMap<string, KeyInfo>,
  steps: readonly string[],
  kinds: readonly string[],
  judge: Judge,
  one: NameCheck,
  complain: Complain,
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
  if (life?.found !== undefined) known(life.found, ['life', 'found']);
  (life?.keeps ?? []).forEach((group, i) => {
    const path: Path = ['life', 'keeps', i];
    group.keys.forEach((key, j) => {
      const info = keys.get(key);
      const first = keys.get(group.keys[0] ?? '');
      if (!info) judge.noKey(key, [...path, 'keys', j]);
      else if (info.from.by !== 'question' || info.from.step.repeat || info.from.part !== undefined)
        complain(
          'kept-is-no-answer',
          [...path, 'keys', j],
          `“${key}” is no answer that a later job could take over.`,
          'Name keys of questions outside logs.',
        );
      else if (first && info.at !== first.at)
        complain(
          'kept-elsewhere',
          [...path, 'keys', j],
          `“${key}” belongs to ${info.at}, and the first of its group to ${first.at}.`,
          'Make a group for each kind of place.',
        );
    });
    const there = group.from === undefined ? undefined : keys.get(group.from);
    judge.name(group.from, keys.get(group.keys[0] ?? '')?.at ?? 'job', [...path, 'from']);
    if (there && there.from.by !== 'question')
      complain(
        'kept-is-no-answer',
        [...path, 'from'],
        `“${group.from}” is no answer that a later job could take over.`,
        'Name the key of a question.',
      );
    judge.expression(group.when, keys.get(group.keys[0] ?? '')?.at ?? 'job', 'bool', [...path, 'when']);
  });
  if (!sheet) return;
  sheet.figures.forEach((f, i) => {
    known(f.key, ['sheet', 'figures', i, 'key']);
    judge.expression(f.when, keys.get(f.key)?.at ?? 'job', 'bool', ['sheet', 'figures', i, 'when']);
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
    // Of figures of the whole job it is not asked.
    for (const at of new Set(g.keys.map((k) => keys.get(k)?.at ?? 'job').filter((k) => k !== 'job')))
      judge.expression(g.when, at, 'bool', ['sheet', 'groups', i, 'when']);
  });
  const { front } = sheet;
  const lines = (
    list:
      | readonly {
          readonly at?: string;
          readonly when?: string;
          readonly once?: string;
          readonly until?: string;
          readonly say: string;
        }[]
      | undefined,
    path: Path,
  ): void => {
    list?.forEach((line, i) => {
      const at = line.at ?? 'job';
      if (!one([...path, i, 'at'], at, ['job', ...kinds], 'kind of place')) return;
      for (const name of ['once', 'until'] as const)
        if (line[name] !== undefined) one([...path, i, name], line[name], steps, 'step');
      judge.expression(line.when, at, 'bool', [...path, i, 'when']);
      judge.text(line.say, at, [...path, i, 'say']);
    });
  };
  if (front) {
    for (const part of ['barred', 'verdict', 'rows', 'unusual', 'watch', 'instruments', 'tag'] as const)
      lines(front[part], ['sheet', 'front', part]);
    const { branches = [] } = p;
    (front.ended ?? []).forEach((e, i) => {
      const path: Path = ['sheet', 'front', 'ended', i];
      if (
        !one(
          [...path, 'event'],
          e.event,
          branches.map((b) => b.id),
          'branch',
        )
      )
        return;
      const at = branches.find((b) => b.id === e.event)?.at ?? 'job';
      if (e.once !== undefined) one([...path, 'once'], e.once, steps, 'step');
      judge.expression(e.when, at, 'bool', [...path, 'when']);
      judge.text(e.say, at, [...path, 'say']);
    });
    (front.known_by ?? []).forEach((k, i) => {
      known(k, ['sheet', 'front', 'known_by', i]);
    });
    lines(front.due?.why, ['sheet', 'front', 'due', 'why']);
    judge.name(front.due?.hours, 'job', ['sheet', 'front', 'due', 'hours']);
    judge.name(front.due?.first?.hours, 'job', ['sheet', 'front', 'due', 'first', 'hours']);
    judge.name(front.due?.a_day, 'job', ['sheet', 'front', 'due', 'a_day']);
  }
  if (sheet.strip) {
    known(sheet.strip.marks, ['sheet', 'strip', 'marks']);
    if (one(['sheet', 'strip', 'each'], sheet.strip.each, kinds, 'kind of place'))
      judge.expression(sheet.strip.when, sheet.strip.each ?? 'job', 'bool', ['sheet', 'strip', 'when']);
  }
}
