/** A procedure as readable Markdown, to be printed and reviewed. */
import type { Calculator } from '../calc/types.js';
import { sayOf, whenOf } from '../procedure/caution.js';
import { type KeyInfo, keysOf } from '../procedure/model.js';
import type { UsedPart } from '../procedure/parts.js';
import type { Procedure, Step } from '../procedure/schema.js';
import { escapeMarkdown, safeText } from '../text/safe-text.js';
import { inWords } from './condition-words.js';
import {
  anewWords,
  gateWords,
  labels,
  overruleWords,
  questionDetails,
  waitWords,
  waysWords,
  withLabels,
} from './question-words.js';

type Keys = ReadonlyMap<string, KeyInfo>;

/**
 * @param parts those that the procedure names; a step that came from one says so
 * @param ids whether the names that files of readings and conditions use stand beside the words
 */
export function outline(
  p: Procedure,
  calculators: Readonly<Record<string, Calculator>>,
  parts: readonly UsedPart[] = [],
  ids = false,
): string {
  const from = new Map(parts.flatMap((u) => u.steps.map((s) => [s, ` (from part ${u.part})`] as const)));
  const raw: Keys = new Map(keysOf(p, calculators).map((k) => [k.key, k]));
  // A label may tell a figure of its own.
  const keys: Keys = new Map([...raw].map(([key, k]) => [key, { ...k, label: withLabels(k.label, raw) }]));
  const where = new Map([['job', ''], ...p.places.map((k) => [k.id, `each ${k.name.toLowerCase()}`] as const)]);
  const lines: string[] = [
    `# ${esc(p.title)}`,
    '',
    `Procedure ${p.procedure}, version ${p.version}. ${esc(p.summary)}`,
    '',
  ];
  if (p.notice) lines.push(`> ${esc(p.notice)}`, '');
  if (p.follows)
    lines.push(
      `Follows a finished job of ${p.follows.procedure} and reads from it: ${esc(labels(Object.keys(p.follows.reads), keys))}.`,
      '',
    );
  if (p.followed_by) lines.push(`Due later, once it is finished: a job of ${p.followed_by}.`, '');
  for (const k of p.places)
    lines.push(
      `- ${esc(k.name)}${k.within ? `, within each ${esc(where.get(k.within)?.replace('each ', '') ?? k.within)}` : ''}: ${esc(
        k.instances.map((i) => (i.when ? `${i.label} (if ${inWords(i.when, keys)})` : i.label)).join('; '),
      )}`,
    );
  for (const { name, left } of p.places)
    if (left)
      lines.push(
        `- Before ${name.toLowerCase()} is left for another: ${esc(withLabels(left.say, keys))} Only if ${esc(inWords(left.when, keys))}.`,
      );
  if (p.places.length) lines.push('');
  const titles = new Map(p.steps.map((s) => [s.id, s.title]));
  const number = new Map(p.steps.filter((s) => !s.branch).map((s, i) => [s.id, i + 1]));
  for (const phase of p.phases) {
    const steps = p.steps.filter((s) => s.phase === phase.id && !s.branch);
    if (!steps.length) continue;
    lines.push(`## ${esc(phase.title)}`, '');
    for (const s of steps) lines.push(...stepLines(s, `${number.get(s.id)}. `, { keys, where, from, ids, titles }));
  }
  if (p.branches?.length) {
    lines.push('## If something happens', '', 'Reported at any time; the steps below come before all others then.', '');
    for (const b of p.branches) {
      lines.push(`### ${esc(b.title)}${at(b.at, where)}${ids ? ` \`${b.id}\`` : ''}`, '');
      if (b.when) lines.push(`Can be reported only if ${esc(inWords(b.when, keys))}.`, '');
      if (b.reopens?.length) {
        const steps = b.reopens.map((id) => p.steps.find((s) => s.id === id) ?? { title: id, branch: undefined });
        const titles = (of: typeof steps): string => esc(of.map((s) => s.title).join('; '));
        const gone = steps.filter((s) => s.branch && s.branch !== b.id);
        const again = steps.filter((s) => !gone.includes(s));
        if (again.length) lines.push(`To be done again afterwards: ${titles(again)}.`, '');
        if (gone.length) lines.push(`Counts no longer, where it was reported before: ${titles(gone)}.`, '');
      }
      for (const s of p.steps.filter((x) => x.branch === b.id))
        lines.push(...stepLines(s, '', { keys, where, from, ids, titles }, '####'));
    }
  }
  lines.push(...worked(p, keys, calculators), ...sheetLines(p, keys));
  return `${lines.join('\n').trimEnd()}\n`;
}

/** Escaped for Markdown, but for code and for the brackets around figures. */
const esc = (text: string): string =>
  text
    .split(/(`[^`]+`)/)
    .map((part, i) => (i % 2 ? safeText(part) : spaced(part, escapeMarkdown(part).replace(/\\([[\]])/g, '$1'))))
    .join('');
/** Keeps the blanks at both ends that escaping takes away. */
const spaced = (from: string, to: string): string =>
  `${/^\s/.test(from) ? ' ' : ''}${to}${/\S\s+$/.test(from) ? ' ' : ''}`;
const at = (kind: string, where: ReadonlyMap<string, string>): string => {
  const words = where.get(kind);
  return words ? ` (${esc(words)})` : '';
};

interface Around {
  readonly keys: Keys;
  readonly where: ReadonlyMap<string, string>;
  readonly from: ReadonlyMap<string, string>;
  readonly ids: boolean;
  readonly titles: ReadonlyMap<string, string>;
}

function stepLines(s: Step, number: string, { keys, where, from, ids, titles }: Around, heading = '###'): string[] {
  const origin = from.get(s.id) ?? '';
  const id = (name: string): string => (ids ? ` \`${name}\`` : '');
  const out = [
    `${heading} ${number}${esc(s.title)}${at(s.at, where)}${s.hazard ? ' - HAZARD' : ''}${origin}${id(s.id)}`,
    '',
  ];
  const para = (head: string, text: string | undefined): void => {
    if (text) out.push(`**${head}** ${esc(withLabels(text, keys))}`, '');
  };
  if (s.when) out.push(`*Only if ${esc(inWords(s.when, keys))}.*`, '');
  for (const c of s.caution ?? []) {
    const when = whenOf(c);
    para(when === undefined ? 'Caution:' : `Caution, only if ${esc(inWords(when, keys))}:`, sayOf(c));
  }
  for (const g of (s.gates ?? []).filter((x) => x.at === 'enter')) out.push(...gateLines(g, keys));
  para('Do:', s.do);
  for (const g of s.lays_out ?? []) out.push(`- ${esc(g.for)}: ${esc(g.things.join(', '))}`);
  if (s.lays_out) out.push('');
  if (s.uses) para('Takes:', `${s.uses.join(', ')}.`);
  para('Why:', s.why);
  para('If you skip this:', s.otherwise);
  para('Right when:', s.tell);
  if (s.show?.length) para('Shown:', `${labels(s.show, keys)}.`);
  if (s.predict?.length) para('An apprentice says first:', `${labels(s.predict, keys)}.`);
  if (s.repeat)
    para('Log:', `these questions row by row until ${inWords(s.repeat.until, keys)}; at most ${s.repeat.most} rows.`);
  if (s.repeat?.pause) para('From row to row, at least:', inWords(s.repeat.pause, keys));
  for (const q of s.ask ?? []) {
    out.push(`- [ ] ${esc(withLabels(q.label, keys))}${id(q.key)}: ${esc(questionDetails(q, keys).join('; '))}`);
    if (ids && 'options' in q && q.options) out.push(`  - ${q.options.map((o) => `\`${o.value}\``).join(', ')}`);
    if (q.help) out.push(`  - ${esc(withLabels(q.help, keys))}`);
    if ('options' in q) for (const o of q.options ?? []) if (o.note) out.push(`  - ${esc(`${o.label}: ${o.note}`)}`);
  }
  if (s.ask?.length) out.push('');
  for (const g of (s.gates ?? []).filter((x) => x.at === 'leave')) out.push(...gateLines(g, keys));
  if (s.hold) {
    para('Hold point:', s.hold.say);
    para('Alone:', s.hold.self_check);
  }
  para('Then wait:', waitWords(s, keys));
  if (s.decision) para('Decision:', `asked again when one of these changes: ${labels(s.rests_on ?? [], keys)}.`);
  para('If a figure changes after the work:', s.remedy);
  para('Nothing to do then:', s.no_remedy && `${s.no_remedy.say} When ${inWords(s.no_remedy.when, keys)}.`);
  para('Asked anew:', anewWords(s));
  if (s.reopens) para('Done again with it after an event:', `${s.reopens.map((n) => titles.get(n) ?? n).join('; ')}.`);
  if (s.together) para('Not to be interrupted:', `belongs to “${s.together}”.`);
  para('On the sheet:', s.mark);
  para('A picture, if one can be taken:', s.picture);
  return out;
}

function gateLines(g: NonNullable<Step['gates']>[number], keys: Keys): string[] {
  const ways = waysWords(g, keys);
  return [
    `**Gate:** ${esc(gateWords(g, keys))}. “${esc(withLabels(g.say, keys))}” ${overruleWords(g)}${ways ? ` ${esc(ways)}` : ''}`,
    '',
  ];
}

function worked(p: Procedure, keys: Keys, calculators: Readonly<Record<string, Calculator>>): string[] {
  const rows: string[] = [];
  for (const f of p.facts ?? []) {
    const rule =
      'over' in f
        ? `${f.all ? 'all' : f.any ? 'any' : f.count ? 'number' : 'list'} over each ${f.over}: ${inWords(f.all ?? f.any ?? f.count ?? f.list ?? '', keys)}`
        : inWords(f.is, keys);
    rows.push(`| ${cell(withLabels(f.label, keys))} | ${cell(rule)} |`);
  }
  for (const c of p.calcs ?? []) {
    const title = (Object.hasOwn(calculators, c.calc) ? calculators[c.calc]?.title : undefined) ?? c.calc;
    const from = Object.values(c.with).map((e) => inWords(e, keys));
    rows.push(
      `| ${cell(labels(Object.values(c.gives), keys))} | ${cell(`${title}, from ${from.join('; ')}${c.when ? `; only if ${inWords(c.when, keys)}` : ''}`)} |`,
    );
  }
  return rows.length ? ['## Worked out by the guide', '', '| Figure | From |', '| --- | --- |', ...rows, ''] : [];
}
const cell = esc;

function sheetLines(p: Procedure, keys: Keys): string[] {
  const s = p.sheet;
  if (!s) return [];
  const out = ['## On the job sheet', ''];
  if (s.headline?.length) out.push(`- Known by: ${esc(labels(s.headline, keys))}`);
  out.push(`- Figures: ${esc(s.figures.map((f) => f.heading ?? keys.get(f.key)?.label ?? f.key).join(', '))}`);
  for (const g of s.groups ?? []) out.push(`- ${esc(g.title)}: ${esc(labels(g.keys, keys))}`);
  if (s.next?.length) out.push(`- Next: ${esc(labels(s.next, keys))}`);
  return [...out, ''];
}
