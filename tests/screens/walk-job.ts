/** The shipped practice job, from the first screen to the last signature, key by key. */

import { readFileSync } from 'node:fs';
import stringWidth from 'string-width';
import { expect } from 'vitest';
import { parse } from 'yaml';
import { noneGiven, predictionOptions } from '../../src/engine/actions/predictable.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { sayOf } from '../../src/procedure/caution.js';
import type { Model } from '../../src/procedure/model.js';
import { optionsOf } from '../../src/procedure/questions/index.js';
import type { Question } from '../../src/procedure/schema.js';
import { toAscii } from '../../src/screens/look/plain-letters.js';
import { columns } from '../../src/screens/parts/frame-layout.js';
import { modelFor } from '../procedure/library.js';
import type { Bench } from './bench.js';

interface Item {
  readonly step?: string;
  readonly at?: string;
  readonly answers?: Readonly<Record<string, unknown>>;
  readonly predict?: Readonly<Record<string, string>>;
  readonly rows?: readonly Readonly<Record<string, unknown>>[];
  readonly sign?: string;
}

const file = parse(
  readFileSync(new URL('../../procedures/practice/college-30kw.replay.yaml', import.meta.url), 'utf8'),
) as {
  readonly mentor: string;
  readonly procedure: string;
  readonly steps: readonly Item[];
};
const items = new Map(file.steps.filter((s) => s.step).map((s) => [`${s.step}@${s.at ?? 'job'}`, s]));

export const shippedModel = (): Model => modelFor(file.procedure);

const flat = (text: string): string =>
  text
    .replace(/[┃▲✓◷|!+~]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

/** Every frame stays within the terminal; what matters most is on it, whole. */
function checkFrame(b: Bench, must: readonly string[]): void {
  const frame = b.screen();
  const lines = frame.split('\n');
  const { rows } = b.stdout;
  expect(lines.length, frame).toBeLessThanOrEqual(rows - 1);
  for (const line of lines) expect(stringWidth(line), frame).toBeLessThanOrEqual(b.stdout.columns);
  // Where a drawing stands beside, the words are in the left column.
  const left = lines.map((l) => l.slice(0, columns(b.stack.room, true).body + 1)).join('\n');
  for (const text of must)
    expect(
      [flat(frame), flat(left)].some((f) => f.includes(flat(text)) || f.includes(flat(toAscii(text)))),
      `${text}\nis not on\n${frame}`,
    ).toBe(true);
}

function keysFor(b: Bench, q: Question, raw: unknown, target: number | undefined): string[] {
  const text = Array.isArray(raw) ? raw.join(',') : raw === true ? 'yes' : raw === false ? 'no' : String(raw);
  const digit = (v: string): string => {
    const i = optionsOf(q, b.desk().model.tables).findIndex((o) => o.value === v);
    expect(i, `${v} of ${q.key}`).toBeGreaterThanOrEqual(0);
    return String(i + 1);
  };
  switch (q.kind) {
    case 'choice':
    case 'yes-no':
      return [digit(text)];
    case 'series':
      return [...text.split(/[,\s]+/).map(digit), '0'];
    case 'counter':
      return [...Array.from({ length: target ?? Number(text) }, () => 'enter'), '0'];
    case 'quantity':
      // A bare number has the unit in which the question was answered last.
      return [/\p{L}|[°"%]/u.test(text) ? text : `${text} ${q.unit}`, 'enter'];
    default:
      return [text, 'enter'];
  }
}

export interface Window {
  readonly cols: number;
  readonly rows: number;
  readonly ascii: boolean;
}

/** @param windows changed after each screen */
export async function walk(b: Bench, windows: readonly Window[]): Promise<void> {
  for (let i = 0; i < 2500; i++) {
    const { cols, rows, ascii } = windows[i % windows.length]!;
    const { terminal } = b.app;
    if (cols !== b.stdout.columns || rows !== b.stdout.rows || ascii !== terminal.ascii) {
      Object.assign(b.stdout, { columns: cols, rows });
      Object.assign(terminal, { ascii });
      const drawn = b.stack.version();
      b.stack.changed();
      await b.waitFor(() => b.stack.version() > drawn);
      await b.ready();
    }
    const desk = b.desk();
    const { state } = desk;
    const stage = desk.stage();
    const before = b.kept.entries.length;
    if (stage.kind === 'finished') return;
    if (stage.kind === 'waiting') {
      await b.pass(5);
      continue;
    }
    if (stage.kind === 'elsewhere') {
      checkFrame(b, ['nothing more to do here now']);
      await b.press('1');
      continue;
    }
    if (stage.kind !== 'step') throw new Error(`${stage.kind}:\n${b.screen()}`);
    const { view } = stage;
    const item = items.get(`${view.step.id}@${view.place}`);
    const do_ =
      view.wants === 'predict' || (view.wants === 'sign' && view.step.hold?.own)
        ? view.step.title
        : fillIn(state.values, view.step.do, view.place);
    const caution = view.cautions.map((c) => fillIn(state.values, sayOf(c), view.place));
    // In little room an instruction that was read gives way to dangers and choices, by whole sentences.
    const gaveWay = caution.length > 0 && view.wants !== 'caution' && b.screen().includes('more than fits here');
    const sentences = do_.split('. ');
    const stays = view.answered.length || view.wants === 'confirm' ? sentences.at(-1)! : sentences[0]!;
    const must = [gaveWay ? stays : do_, ...(view.wants === 'caution' ? caution : [])];
    if (caution.length && view.wants !== 'caution') {
      // The worst of them.
      const worst = ['DANGER', 'WARNING', ''].map((w) => caution.find((c) => c.startsWith(w))).find(Boolean);
      must.push(worst?.split('. ')[0] ?? '');
    }
    if (view.question) must.push(fillIn(state.values, view.question.label, view.place));
    checkFrame(b, must);
    switch (view.wants) {
      case 'caution':
        await b.press('enter');
        expect(b.kept.entries.length, 'Enter confirms no caution').toBe(before);
        await b.press(desk.safetyKey);
        break;
      case 'predict': {
        const key = view.step.predict?.find((k) => !view.ledger?.predictions.some((p) => p.key === k)) ?? '';
        const words = predictionOptions(state.model, key);
        const said = item?.predict?.[key] ?? noneGiven;
        if (words.length) await b.press(String(words.findIndex((o) => o.value === said) + 1));
        else await b.press(said, 'enter');
        break;
      }
      case 'question': {
        const q = view.question as Question;
        const row = state.values.completeRows(view.step.id, view.place).length;
        const from = view.step.repeat ? item?.rows?.[row] : item?.answers;
        const raw = from?.[q.key];
        if (raw === undefined && !q.optional)
          throw new Error(`${view.step.id} ${view.place}: nothing for ${q.key}\n${b.screen()}`);
        if (view.step.repeat && from && !view.answered.some((a) => a.question.key === q.key)) {
          const minutes = Number.parseFloat(String(from.after ?? '0'));
          b.clock.now += minutes * 60_000;
        } else if (view.step.repeat && q.key === view.step.ask?.[0]?.key)
          b.clock.now += Number.parseFloat(String(from?.after ?? '0')) * 60_000;
        const to = q.kind === 'counter' ? state.values.evaluate(q.to, view.place) : undefined;
        const keys =
          raw === undefined || raw === '' ? ['enter'] : keysFor(b, q, raw, to?.known ? Number(to.value) : undefined);
        await b.press(...keys);
        // Behind a pick an Enter that leaves out is asked for again.
        if (b.screen().includes('Nothing typed. Enter again')) await b.press('enter');
        if (desk.unusual) {
          checkFrame(b, [desk.unusual.says]);
          await b.press('enter');
          expect(b.kept.entries.length, 'Enter records nothing unusual').toBe(before);
          await b.press('+');
        }
        break;
      }
      case 'sign':
        await b.press(item?.sign ?? file.mentor, 'enter');
        await b.press('enter');
        expect(b.kept.entries.length, 'Enter signs nothing').toBe(before);
        checkFrame(b, [`I sign this as ${item?.sign ?? file.mentor}`]);
        await b.press(desk.safetyKey);
        break;
      case 'confirm':
        if (view.step.hazard && view.cautions.length > 0) {
          await b.press('enter');
          expect(b.kept.entries.length, 'Enter confirms no danger').toBe(before);
          await b.press(desk.safetyKey);
        } else await b.press('enter');
        break;
      default:
        throw new Error(`${view.step.id} ${view.place} wants ${view.wants}\n${b.screen()}`);
    }
    expect(b.kept.entries.length, `${view.step.id} ${view.place} ${view.wants}\n${b.screen()}`).toBeGreaterThan(before);
  }
  throw new Error('no end in sight');
}
