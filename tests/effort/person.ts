/**
 * Somebody who does the shipped practice job at the real screens with the fewest keys that a person could use: a digit
 * for a pick, a bare number where the unit stands beside the field, one key where one key does.
 */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { noneGiven, predictionOptions } from '../../src/engine/actions/predictable.js';
import { alikeAt } from '../../src/engine/actions/propose.js';
import { boundsOf } from '../../src/engine/actions/propose-answer.js';
import type { State } from '../../src/engine/state/state.js';
import type { StepView } from '../../src/engine/steps/step-view.js';
import { fillIn, suggestionOf } from '../../src/engine/values/texts.js';
import type { Shelved } from '../../src/life/take-over.js';
import type { Model } from '../../src/procedure/model.js';
import { optionsOf } from '../../src/procedure/questions/index.js';
import type { Question, Step } from '../../src/procedure/schema.js';
import { withPoint } from '../../src/screens/ask/quantity.js';
import type { Desk } from '../../src/screens/desk.js';
import { shorterOnce, toDo } from '../../src/screens/step/read-before.js';
import { parseQuantity } from '../../src/units/parse.js';
import type { Bench } from '../screens/bench.js';
import type { Counter } from './count.js';

interface Item {
  readonly step?: string;
  readonly at?: string;
  readonly after?: string;
  readonly answers?: Readonly<Record<string, unknown>>;
  readonly predict?: Readonly<Record<string, string>>;
  readonly rows?: readonly Readonly<Record<string, unknown>>[];
  readonly sign?: string;
}
export interface JobFile {
  readonly name: string;
  readonly procedure: string;
  readonly mentor: string;
  readonly steps: readonly Item[];
}
export const readJob = (file: string): JobFile => parse(readFileSync(file, 'utf8')) as JobFile;

const words = (raw: unknown): string =>
  Array.isArray(raw) ? raw.join(',') : raw === true ? 'yes' : raw === false ? 'no' : String(raw);

/** The shortest that means the same: without the unit that stands beside it, without a nought that tells nothing. */
function bare(text: string, q: Extract<Question, { kind: 'quantity' }>): string {
  const number = /^[-\d.x]+/.exec(text)?.[0] ?? text;
  const plain = number.replace(/^(-?)0\./, '$1.').replace(/(\.\d*?)0+$/, '$1');
  const [whole, ...all] = [text, plain.replace(/\.$/, ''), number].map((t) => ({
    text: t,
    read: parseQuantity(t, q.quantity, q.unit),
  }));
  const same = all.find(
    ({ read }) =>
      read.ok && whole?.read.ok && read.value === whole.read.value && read.plusMinus === whole.read.plusMinus,
  );
  return same?.text ?? text;
}

/** True when what is suggested is what the file says. */
function sameAnswer(q: Question, raw: unknown, due: string): boolean {
  if (raw === undefined) return false;
  if (q.kind !== 'quantity') return words(raw) === due;
  const [said, offered] = [words(raw), due].map((t) => parseQuantity(t, q.quantity, q.unit));
  return said?.ok === true && offered?.ok === true && said.value === offered.value;
}

const isPick = (q: Question): boolean => q.kind === 'choice' || q.kind === 'yes-no';

function keysFor(b: Bench, q: Question, raw: unknown, target: number | undefined): string[] {
  const text = words(raw);
  const digit = (v: string): string => {
    const i = optionsOf(q, b.desk().model.tables).findIndex((o) => o.value === v);
    if (i < 0) throw new Error(`${q.key} has no option ${v}`);
    return String(i + 1);
  };
  switch (q.kind) {
    case 'choice':
    case 'yes-no':
      return [digit(text)];
    case 'series':
      return [...text.split(/[,\s]+/).map(digit), '0'];
    case 'counter':
      // Where one counts in the head, the count is typed.
      return [String(target ?? Number(text)), '0'];
    case 'quantity':
      return [...bare(text, q), 'enter'];
    case 'dimensions':
      return [...text.replace(/\s*mm$/, ''), 'enter'];
    case 'choice-from-table':
    case 'number':
      return [...text, 'enter'];
    case 'text': {
      // What is usually said is put into the field by an arrow, and the rest typed behind it.
      const at = q.offers?.findIndex((o) => text.startsWith(o)) ?? -1;
      const put = q.offers?.[at];
      return put === undefined
        ? [...text, 'enter']
        : [...Array.from({ length: at + 1 }, () => 'down'), ...text.slice(put.length), 'enter'];
    }
  }
}

/**
 * Goes on to the first reading of the file that the guide asks for: those before it are not due.
 * @returns minutes until then
 */
function readWhenDue(state: State, rows: readonly Readonly<Record<string, unknown>>[], log: { at: number }): number {
  const due = state.values.get('next_due', 'job');
  const wanted = log.at >= 0 && due.known && typeof due.value === 'number' ? due.value : 0;
  let minutes = 0;
  do {
    log.at += 1;
    minutes += Number.parseFloat(String(rows[log.at]?.after ?? '0'));
  } while (minutes < wanted && log.at < rows.length - 1);
  return minutes;
}

/** Without its point where the guide sets it. */
function shorter(b: Bench, q: Question, keys: string[], place: string): string[] {
  const { near } = boundsOf(b.desk().state, q, place);
  const typed = keys.slice(0, -1).join('');
  if (q.kind !== 'quantity' || near === undefined || b.desk().state.ledger.pace !== 'brisk') return keys;
  const digits = typed.replace('.', '');
  return withPoint(digits, near) === typed ? [...digits, 'enter'] : keys;
}

/** What the shop offers from an earlier job is what the file says. */
function onShelf(desk: Desk, step: Step, item: Item | undefined): boolean {
  const texts = Object.entries(desk.shelf(step)[0]?.texts ?? {});
  return texts.length > 0 && texts.every(([key, text]) => words(item?.answers?.[key]) === text);
}

/** What an earlier job of the shop, done with the same grease and instruments, leaves on its shelf. */
export function shelfLike(job: JobFile, model: Model): readonly Shelved[] {
  return model.procedure.steps.flatMap((step): Shelved[] => {
    const answers = job.steps.find((s) => s.step === step.id)?.answers ?? {};
    const marked = (step.ask ?? []).filter((q) => q.shelf && answers[q.key] !== undefined);
    const texts = Object.fromEntries(marked.map((q) => [q.key, words(answers[q.key])]));
    const from = { job: '2026-0001', name: 'Other motor', at: '2026-02-20T12:00:00Z' };
    return marked.length ? [{ step: step.id, from, texts }] : [];
  });
}

/** Same readings as at the place whose answers are offered. */
function alikeHere(items: ReadonlyMap<string, Item>, b: Bench, step: string, place: string, other: string): boolean {
  const { state } = b.desk();
  const here = items.get(`${step}@${place}`)?.answers ?? {};
  const there = state.view(step, other)?.answered ?? [];
  const said = items.get(`${step}@${other}`)?.answers ?? {};
  return there.every(({ question: { key } }) => words(here[key]) === words(said[key]));
}

const flat = (text: string): string => text.replace(/[^\p{L}\p{N}]+/gu, ' ');

/** True where the instruction of a step and what it asks stood on the frame before, apart from their marks. */
function stoodThere(b: Bench, view: StepView, before: string): boolean {
  const { values } = b.desk().state;
  const said = [toDo(b.desk(), view), ...(view.question ? [view.question.label] : [])];
  // As it is shown: what was read at the other bearing is shorter.
  const shown = (t: string): string => shorterOnce(b.desk(), view, fillIn(values, t, view.place), '');
  return said.every((t) => flat(before).includes(flat(shown(t)).replace(/ w ?$/, '').trim()));
}

/** Does the whole job and counts. `b` stands on its first step. */
export async function doJob(b: Bench, job: JobFile, count: Counter): Promise<void> {
  const items = new Map(job.steps.filter((s) => s.step).map((s) => [`${s.step}@${s.at ?? 'job'}`, s]));
  const press = async (keys: readonly string[], as?: 'pick' | 'safety'): Promise<void> => {
    for (const key of keys) {
      count.key(key, as);
      await b.press(key);
    }
  };
  let last = { of: '', frame: '' };
  const begun = new Set<number>();
  const log = { at: -1 };
  for (let i = 0; i < 3000; i++) {
    const desk = b.desk();
    const { state } = desk;
    const stage = desk.stage();
    if (stage.kind === 'finished') {
      count.screen(b.screen());
      return;
    }
    if (stage.kind === 'waiting') {
      await b.pass(5);
      continue;
    }
    if (stage.kind === 'step') count.step(`${stage.view.step.id}@${stage.view.place}`);
    // What to do and what is asked stood on the screen before: going on to it is no other screen.
    const of = stage.kind === 'step' ? `${stage.view.step.id}@${stage.view.place}` : '';
    const row = stage.kind === 'step' && stage.view.step.repeat && of === last.of;
    const stood =
      stage.kind === 'step' && state.ledger.pace === 'brisk' && (row || stoodThere(b, stage.view, last.frame));
    count.screen(b.screen(), stood);
    last = { of, frame: b.screen() };
    if (stage.kind === 'elsewhere') {
      await press(['1'], 'pick');
      continue;
    }
    if (stage.kind !== 'step') throw new Error(`${stage.kind}:\n${b.screen()}`);
    const before = b.kept.entries.length;
    const { view } = stage;
    const item = items.get(`${view.step.id}@${view.place}`);
    switch (view.wants) {
      case 'caution':
        await press([desk.safetyKey], 'safety');
        break;
      case 'predict': {
        const key = view.step.predict?.find((k) => !view.ledger?.predictions.some((p) => p.key === k)) ?? '';
        const options = predictionOptions(state.model, key);
        const said = item?.predict?.[key] ?? noneGiven;
        if (options.length) await press([String(options.findIndex((o) => o.value === said) + 1)], 'pick');
        else await press([...said, 'enter']);
        break;
      }
      case 'question': {
        const q = view.question as Question;
        const row = state.values.completeRows(view.step.id, view.place).length;
        // Once for each row, whichever question it begins with.
        if (view.step.repeat && !begun.has(row)) {
          begun.add(row);
          const minutes = readWhenDue(state, item?.rows ?? [], log);
          b.clock.now += minutes * 60_000;
          if (b.desk().state.view(view.step.id, view.place)?.question?.key !== view.question?.key) break;
        }
        const from = view.step.repeat ? item?.rows?.[log.at] : item?.answers;
        const other = state.ledger.pace === 'brisk' ? alikeAt(state, view) : undefined;
        if (other !== undefined && alikeHere(items, b, view.step.id, view.place, other)) {
          await press(['enter']);
          break;
        }
        const raw = from?.[q.key];
        if (q.shelf && state.ledger.pace === 'brisk' && onShelf(desk, view.step, item)) {
          await press(['enter']);
          break;
        }
        const due = suggestionOf(state.values, q, view.place);
        // A pick is one key as well, and Enter behind a figure that went on by itself is left out.
        if (due !== undefined && !isPick(q) && sameAnswer(q, raw, due)) {
          await press(['enter']);
          break;
        }
        if (raw === undefined && !q.optional)
          throw new Error(`${view.step.id} ${view.place}: nothing for ${q.key}\n${b.screen()}`);
        const to = q.kind === 'counter' ? state.values.evaluate(q.to, view.place) : undefined;
        const keys = raw === undefined ? ['enter'] : keysFor(b, q, raw, to?.known ? Number(to.value) : undefined);
        for (const key of shorter(b, q, keys, view.place)) {
          // What went on by itself needs no other key: a figure no Enter, what stands alone no end.
          if ((key === 'enter' || key === '0') && b.kept.entries.length > before) break;
          const as = isPick(q) || q.kind === 'series' || (q.kind === 'counter' && key === '0') ? 'pick' : undefined;
          await press([key], as);
          // A 9 behind the 9 that confirmed a danger is asked for again.
          if (key === desk.safetyKey && b.screen().includes('came too soon')) await press([key], as);
        }
        if (desk.unusual) await press(['+']);
        // Behind a pick an Enter that leaves out is asked for again.
        if (b.screen().includes('Nothing typed.')) await press(['enter']);
        break;
      }
      case 'sign':
        // The mentor's own initials stand in the field where they are known.
        if (!b.screen().includes('I sign this as')) {
          await press([...(b.screen().includes(`> ${job.mentor}`) ? [] : (item?.sign ?? job.mentor)), 'enter']);
          count.screen(b.screen(), true);
          // A finding of the mentor's own is asked for once.
          if (!b.screen().includes('I sign this as')) await press(['enter']);
        }
        await press([desk.safetyKey], 'safety');
        break;
      case 'confirm':
        if (view.step.hazard && view.cautions.length && state.ledger.pace !== 'brisk')
          await press([desk.safetyKey], 'safety');
        else await press(['enter']);
        break;
      default:
        throw new Error(`${view.step.id} ${view.place} wants ${view.wants}\n${b.screen()}`);
    }
    if (b.kept.entries.length === before) throw new Error(`Nothing was recorded at ${view.step.id}:\n${b.screen()}`);
  }
  throw new Error('no end in sight');
}
