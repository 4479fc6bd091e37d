/**
 * Does a job in the real program by keys, its readings taken from a replay file. It goes by what stands on the screen:
 * whichever step, place and question that is, the file's item for it says what to press.
 *
 * Hours are passed by moving the program's wall clock from outside (inside.mjs): waits end as on the bench, and the
 * run-in sees its minutes. Nothing in the program gives way for it.
 */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { noneGiven } from '../../src/engine/actions/predictable.js';
import { type ReplayFile, replaySchema, type StepItem } from '../../src/engine/replay/replay-file.js';
import type { Procedure, Question } from '../../src/procedure/schema.js';
import { parseQuantity } from '../../src/units/parse.js';
import { keySequences, type TerminalUnderTest } from './harness.js';
import { digitBefore, emptied, keysOf, words } from './keys-for.js';
import type { Program } from './program.js';
import { type Moment, nameOf, type Reader, type Stands } from './read-screen.js';

export interface Given {
  readonly kind: 'caution' | 'answer' | 'predict' | 'done' | 'sign';
  readonly step: string;
  readonly place: string;
  readonly key?: string;
  /** As typed or picked: the option's value for a choice. */
  readonly text?: string;
}

/** What a driver needs of a terminal: keys, and the screen that they bring. */
export type Keyboard = Pick<
  TerminalUnderTest,
  'write' | 'press' | 'screen' | 'taken' | 'rest' | 'readDanger' | 'waitFor'
>;

export interface DriverOptions {
  readonly program: Pick<Program, 'pass'>;
  readonly reader: Reader;
  readonly procedure: Procedure;
  readonly file: ReplayFile;
  /**
   * 'person' rests before a key that comes twice; 'fast' presses End between, which the keyboard takes for a deliberate
   * second press as well.
   */
  readonly pace: 'person' | 'fast';
  /** Does not let pass what the file says passes. */
  readonly hurry?: boolean;
  /** Told of all that the screen moved past. */
  readonly confirmed?: (given: Given) => void;
}

export function readReplay(file: URL | string): ReplayFile {
  return replaySchema.parse(parse(readFileSync(file, 'utf8')));
}
export const practiceFile = new URL('../../procedures/practice/college-30kw.replay.yaml', import.meta.url);

/**
 * From where everything stands to the bench. That page comes up by itself, and what is pressed at once is not taken as
 * an answer to it.
 */
export async function goOn(term: Keyboard): Promise<void> {
  // A short screen has no room for the words behind every key.
  const here = /^ ?Enter go on .*(I am not|leave this job|page)/m;
  await term.waitFor(here);
  for (let i = 0; i < 5; i++) {
    await term.rest();
    term.press('enter');
    await term.taken();
    if (!here.test(term.screen())) return;
  }
  throw new Error(`Enter does not go on:\n${term.screen()}`);
}

export class Driver {
  private readonly items = new Map<string, StepItem>();
  private readonly rows = new Map<string, number>();
  private readonly waited = new Set<string>();
  private last = '';

  constructor(private readonly options: DriverOptions) {
    for (const s of options.file.steps) if ('step' in s) this.items.set(`${s.step}@${s.at ?? 'job'}`, s);
  }

  /** What stands on the screen once it has come to rest. */
  async stands(term: Keyboard): Promise<Stands> {
    await term.taken();
    return this.options.reader.read(term.screen());
  }

  item(m: Moment): StepItem | undefined {
    return this.items.get(`${m.step.id}@${m.place}`);
  }

  /** From the first screen to the first step of a new job. */
  async begin(term: Keyboard): Promise<void> {
    const { file } = this.options;
    const { title } = this.options.procedure;
    const form: Readonly<Record<string, (shown: string) => string | undefined>> = {
      'Which procedure?': (shown) => digitBefore(title, shown),
      'Name of the job': () => `${file.name}\r`,
      'Your initials': (shown) => `${emptied(shown)}${file.by}\r`,
      'Who works on it?': () => (file.apprentice ? '3' : file.mentor ? '2' : '1'),
      'Initials of the apprentice': () => `${file.apprentice}\r`,
      'Initials of the mentor': () => `${file.mentor}\r`,
    };
    const asks = (s: string): string | undefined =>
      s
        .split('\n')
        .find((l) => form[l.trim()])
        ?.trim();
    const begun = (s: string): boolean => ['step', 'notice'].includes(this.options.reader.read(s).kind);
    const home = await term.waitFor('Start a job');
    await this.press(term, digitBefore('Start a job', home) ?? '');
    for (let label: string | undefined; ; ) {
      const shown = await term.waitFor((s) => begun(s) || (asks(s) !== undefined && asks(s) !== label));
      if (begun(shown)) break;
      label = asks(shown) ?? '';
      await term.rest();
      await this.press(term, form[label]?.(shown) ?? '');
    }
    const first = await this.stands(term);
    if (first.kind !== 'notice') return;
    await this.press(term, '\r');
    await this.moved(term, first);
  }

  /** Keys in one write; the first one is made to count where it is the same as the last one before. */
  async press(term: Keyboard, keys: string): Promise<void> {
    const same = keys[0] === this.last || (keys[0] === '\r' && this.last !== '');
    if (same && this.options.pace === 'person') await term.rest();
    term.write(same && this.options.pace === 'fast' ? keySequences.end + keys : keys);
    this.last = keys.at(-1) ?? '';
  }

  /** One thing that the screen wants. False when the job is finished. */
  async step(term: Keyboard): Promise<boolean> {
    const now = await this.stands(term);
    switch (now.kind) {
      case 'finished':
        return false;
      case 'glance':
        await goOn(term);
        this.last = '\r';
        return true;
      case 'elsewhere':
        await this.press(term, '1');
        await this.moved(term, now);
        return true;
      case 'waiting':
        // Any key looks at the clock again.
        this.options.program.pass(5);
        term.write('z');
        await term.taken();
        return true;
      case 'step':
        await this.give(term, now);
        return true;
      default:
        throw new Error(`No step, and nothing else that is known:\n${term.screen()}`);
    }
  }

  /** Goes on until the predicate holds of what stands there; says what it is. */
  async until(term: Keyboard, reached: (m: Moment) => boolean): Promise<Moment> {
    for (let i = 0; i < 2000; i++) {
      const now = await this.stands(term);
      if (now.kind === 'step' && reached(now)) return now;
      if (!(await this.step(term))) throw new Error(`The job was finished first:\n${term.screen()}`);
    }
    throw new Error('No end in sight');
  }

  async toEnd(term: Keyboard): Promise<void> {
    for (let i = 0; i < 2000; i++) if (!(await this.step(term))) return;
    throw new Error('No end in sight');
  }

  /** Lets pass what the file says passes before this. */
  pass(m: Moment): void {
    if (this.options.hurry) return;
    const item = this.item(m);
    const minutes = (after: string | number | undefined): number => {
      if (after === undefined) return 0;
      const read = parseQuantity(String(after), 'duration', 'min');
      if (!read.ok) throw new Error(read.message);
      return read.value;
    };
    const once = (name: string, after: string | number | undefined): void => {
      if (this.waited.has(name)) return;
      this.waited.add(name);
      if (minutes(after) > 0) this.options.program.pass(minutes(after));
    };
    once(`${m.step.id}@${m.place}`, item?.after);
    if (m.step.repeat && m.question && m.question.key === m.step.ask?.[0]?.key)
      once(`${m.step.id}@${m.place}#${this.rowOf(m)}`, item?.rows?.[this.rowOf(m)]?.after);
  }

  private rowOf(m: Moment): number {
    return this.rows.get(m.step.id) ?? 0;
  }
  /** For a program that was started anew: how many rows of a log it has. */
  setRow(step: string, rows: number): void {
    this.rows.set(step, rows);
  }

  /** What is to be pressed for it, and what that gives. */
  keysFor(m: Moment, screen: string): { keys: string; given: Given } {
    const at = { step: m.step.id, place: m.place };
    const item = this.item(m);
    const safety = m.safety ?? '';
    switch (m.wants) {
      case 'caution':
        return { keys: safety, given: { kind: 'caution', ...at } };
      case 'confirm':
        return { keys: m.safety ?? '\r', given: { kind: 'done', ...at } };
      case 'sign': {
        const { mentor, by } = this.options.file;
        // A mentor says what they found themselves.
        const [set] = Object.values(item?.answers ?? {});
        const seen = item?.own ?? (m.step.hold?.near ? String(set ?? '') : 'clean');
        const found = mentor && m.step.hold?.own && seen ? `${seen} ` : '';
        const keys = m.safety ?? `${emptied(screen)}${found}${item?.sign ?? mentor ?? by}\r`;
        return { keys, given: { kind: 'sign', ...at } };
      }
      case 'predict': {
        const text = String(item?.predict?.[m.figure ?? ''] ?? noneGiven);
        const given: Given = { kind: 'predict', ...at, key: m.figure, text };
        // A word stands in a list, with a capital.
        const label = text === noneGiven ? 'No idea' : `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
        const listed = new RegExp(`(?:^|\\s)(\\d)\\s+${label}\\s*$`, 'm').exec(screen);
        return listed?.[1] ? { keys: listed[1], given } : { keys: `${emptied(screen)}${text}\r`, given };
      }
      case 'question': {
        const q = m.question as Question;
        const from = m.step.repeat ? item?.rows?.[this.rowOf(m)] : item?.answers;
        const raw = from?.[q.key];
        if (raw === undefined && !q.optional) throw new Error(`The file has no ${q.key} for ${nameOf(m)}:\n${screen}`);
        const text =
          q.kind === 'series'
            ? words(raw)
                .split(/[,\s]+/)
                .join(',')
            : words(raw);
        const given: Given = { kind: 'answer', ...at, key: q.key, text };
        // Behind a pick a bare Enter is asked about: another key comes between.
        const empty = q.kind === 'quantity' && raw === undefined && !m.unusual ? keySequences.end : '';
        return { keys: empty + (m.unusual ? safety : keysOf(q, text, screen)), given };
      }
      default:
        throw new Error(`The file says nothing for this:\n${screen}`);
    }
  }

  /** Gives one answer and waits until the screen has moved past it. */
  async give(term: Keyboard, m: Moment): Promise<void> {
    this.pass(m);
    const { keys, given } = this.keysFor(m, term.screen());
    // A danger is confirmed by no key before it can have been read.
    if (m.safety !== undefined && keys === m.safety) await term.readDanger();
    await this.press(term, keys);
    const next = await this.moved(term, m);
    if (recorded(m, next)) this.done(m, given);
  }

  /** Notes an answer that the screen has moved past. */
  done(m: Moment, given: Given): void {
    if (m.step.repeat && m.question && m.question.key === m.step.ask?.at(-1)?.key)
      this.rows.set(m.step.id, this.rowOf(m) + 1);
    this.options.confirmed?.(given);
  }

  async moved(term: Keyboard, from: Stands): Promise<Stands> {
    const name = nameOf(from);
    const other = (s: string): boolean => {
      const now = this.options.reader.read(s);
      return now.kind !== 'other' && nameOf(now) !== name;
    };
    await term.waitFor(other);
    return this.stands(term);
  }
}

/** False while the same answer only wants to be confirmed once more. */
export const recorded = (m: Moment, next: Stands): boolean =>
  !(
    next.kind === 'step' &&
    next.step.id === m.step.id &&
    next.place === m.place &&
    next.wants === m.wants &&
    next.question?.key === m.question?.key &&
    ((next.unusual && !m.unusual) || (m.wants === 'sign' && m.safety === undefined))
  );
