/**
 * Words that can be misread: what `check --words` warns of in a procedure or a part. Each file is read by itself, so a part
 * is held to the same rules. Limits: 20 words in a sentence that instructs, 25 in one that tells.
 */
import { isRecord } from '../guards/guards.js';
import { readSource } from './document.js';
import type { Path, Problem } from './problem.js';
import { instructionsIn, sentencesOf, wordCount } from './sentences.js';
import type { Word } from './word-list.js';

type WordFault =
  | 'several instructions'
  | 'no instruction'
  | 'long'
  | 'word not used'
  | 'sign unexplained'
  | 'signal word'
  | 'order of cautions'
  | 'caution without hazard and what to do';

export interface WordProblem extends Problem {
  readonly fault: WordFault;
  /** The step is a dangerous one. */
  readonly hazard: boolean;
}

interface Text {
  readonly path: Path;
  readonly text: string;
  readonly as: 'do' | 'instructs' | 'tells' | 'label' | 'caution';
}

const words = (v: unknown): string | undefined => (typeof v === 'string' ? v : undefined);
const list = (v: unknown): readonly Record<string, unknown>[] => (Array.isArray(v) ? v : []);
/** Graver first. */
const signals = ['DANGER', 'WARNING', 'CAUTION', 'NOTICE'];

function textsOf(step: Readonly<Record<string, unknown>>, path: Path): readonly Text[] {
  const out: Text[] = [];
  const add = (at: Path, value: unknown, as: Text['as']): void => {
    const text = words(value);
    if (text) out.push({ path: [...path, ...at], text, as });
  };
  add(['do'], step.do, 'do');
  add(['brief'], step.brief, 'do');
  add(['brief'], step.brief, 'instructs');
  for (const key of ['why', 'otherwise', 'tell', 'mark'] as const) add([key], step[key], 'tells');
  add(['title'], step.title, 'label');
  add(['remedy'], step.remedy, 'instructs');
  if (isRecord(step.no_remedy)) add(['no_remedy', 'say'], step.no_remedy.say, 'tells');
  list(step.caution).forEach((c, i) => {
    if (typeof c === 'string') add(['caution', i], c, 'caution');
    else add(['caution', i, 'say'], c.say, 'caution');
  });
  list(step.gates).forEach((g, i) => {
    add(['gates', i, 'say'], g.say, 'instructs');
  });
  const hold = isRecord(step.hold) ? step.hold : {};
  add(['hold', 'say'], hold.say, 'instructs');
  add(['hold', 'self_check'], hold.self_check, 'tells');
  list(step.ask).forEach((q, i) => {
    add(['ask', i, 'label'], q.label, 'label');
    add(['ask', i, 'help'], q.help, 'tells');
    list(q.options).forEach((o, j) => {
      add(['ask', i, 'options', j, 'label'], o.label, 'label');
      add(['ask', i, 'options', j, 'note'], o.note, 'label');
    });
  });
  add(['wait', 'label'], isRecord(step.wait) ? step.wait.label : undefined, 'label');
  return out;
}

/** What a fact says in words of its own: the written texts of its expression that are more than one word. */
const writtenIn = (is: unknown): readonly string[] =>
  [...(words(is) ?? '').matchAll(/'((?:[^'\\]|\\.)*)'/g)].flatMap((m) => (m[1]?.trim().includes(' ') ? [m[1]] : []));

/** Texts of the sheet, wherever they stand. */
function sheetTexts(value: unknown, path: Path): readonly Text[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, v]): readonly Text[] =>
    typeof v === 'string' && ['say', 'heading', 'title'].includes(key)
      ? [{ path: [...path, key], text: v, as: 'label' }]
      : sheetTexts(v, [...path, key]),
  );
}

export interface InstructionCount {
  readonly all: number;
  readonly dangerous: number;
}

/** How many sentences the steps of one file instruct with, and how many of them at dangerous steps. */
export function countInstructions(text: string, file: string): InstructionCount {
  const counts = list(readSource(text, file).source?.plain.steps).map((s) => {
    const all = sentencesOf(words(s.do) ?? '').length + sentencesOf(words(s.brief) ?? '').length;
    return { all, dangerous: s.hazard === true ? all : 0 };
  });
  const sum = (of: (c: InstructionCount) => number): number => counts.reduce((n, c) => n + of(c), 0);
  return { all: sum((c) => c.all), dangerous: sum((c) => c.dangerous) };
}

/** What is wrong with the words of one file; nothing where the file cannot be read. */
export function checkWords(text: string, file: string, known: readonly Word[]): readonly WordProblem[] {
  const { source } = readSource(text, file);
  if (!source) return [];
  const out: WordProblem[] = [];
  const verbs = new Set(known.filter((w) => w.is === 'do').map((w) => w.word));
  const hazards = new RegExp(
    `\\b(?:${known
      .filter((w) => w.is === 'hazard')
      .map((w) => w.word)
      .join('|')})`,
    'i',
  );
  const signs = known.filter((w) => w.is === 'sign');
  const avoided = known.flatMap((w) =>
    (w.not ?? []).map((not) => ({
      use: w,
      at: new RegExp(`(?<![\\w-])${not}(?![\\w-])`, /[A-Z]/.test(not) ? '' : 'i'),
    })),
  );
  let hazard = false;
  const say = (fault: WordFault, path: Path, message: string, cure: string, offset?: number): void => {
    out.push({ file, ...source.spot(path, offset), code: 'words', message, cure, fault, hazard });
  };
  const wordsOf = ({ path, text, as }: Text): void => {
    for (const { use, at } of avoided) {
      const found = at.exec(text);
      if (!found) continue;
      const cure = `Say it with “${use.word}” where you mean: ${use.means}.`;
      say('word not used', path, `“${found[0]}” is not used here.`, cure, found.index);
    }
    if (as === 'label') return;
    const most = as === 'tells' ? 25 : 20;
    for (const s of sentencesOf(text)) {
      const count = wordCount(s.text);
      if (count > most)
        say('long', path, `A sentence has ${count} words, at most ${most} are read well.`, 'Make two of it.', s.at);
    }
  };
  const step = (s: Readonly<Record<string, unknown>>, path: Path): void => {
    hazard = s.hazard === true;
    const texts = textsOf(s, path);
    texts.forEach(wordsOf);
    texts.filter((x) => x.as === 'do').forEach(instructs);
    const all = texts.map((t) => t.text).join(' ');
    for (const { word, said = [], means } of signs) {
      const first = texts.find((t) => new RegExp(`(?<![\\w-])${word}(?![\\w-])`).test(t.text));
      if (first && !said.some((w) => all.toLowerCase().includes(w.toLowerCase())))
        say('sign unexplained', first.path, `“${word}” is not explained here.`, `Say what it is: ${means}.`);
    }
    cautions(texts.filter((t) => t.as === 'caution'));
  };
  const instructs = (t: Text): void => {
    for (const sentence of sentencesOf(t.text)) {
      // What a figure begins may well instruct.
      if (sentence.text.startsWith('{')) continue;
      const found = instructionsIn(sentence.text, verbs);
      if (found.length > 1)
        say(
          'several instructions',
          t.path,
          `One sentence instructs ${found.length} things: ${found.join(', ')}.`,
          'Give each a sentence, in the order of doing.',
          sentence.at,
        );
      if (found.length === 0)
        say(
          'no instruction',
          t.path,
          `“${sentence.text.slice(0, 50)}” instructs nothing.`,
          'Begin with a verb of the word list, after the condition.',
          sentence.at,
        );
    }
  };
  const cautions = (told: readonly Text[]): void => {
    let before = 0;
    for (const t of told) {
      const word = /^([A-Z]+):\s/.exec(t.text)?.[1] ?? '';
      const rank = signals.indexOf(word);
      if (rank < 0) {
        say(
          'signal word',
          t.path,
          'A caution begins with no signal word.',
          `Begin with one of ${signals.join(', ')} and a colon.`,
        );
      } else if (rank < before)
        say('order of cautions', t.path, `${word} stands after a lesser word.`, 'Put the graver one first.');
      before = Math.max(before, rank);
      const first = sentencesOf(t.text)[0]?.text ?? '';
      const [does, names] = [
        instructionsIn(first, verbs).length > 0,
        word === 'NOTICE' || hazards.test(first.slice(word.length)),
      ];
      if (!does || !names)
        say(
          'caution without hazard and what to do',
          t.path,
          `The first sentence of a caution stays on the screen and does not say ${[...(names ? [] : ['what hurts']), ...(does ? [] : ['what to do'])].join(' nor ')}.`,
          'Say both in it, in ten words.',
        );
    }
  };
  list(source.plain.steps).forEach((s, i) => {
    step(s, ['steps', i]);
  });
  hazard = false;
  sheetTexts(source.plain.sheet, ['sheet']).forEach(wordsOf);
  const steps = list(source.plain.steps);
  const inDo = new Set(steps.flatMap((s) => [...(words(s.do) ?? '').matchAll(/\{(\w+)\}/g)].map((m) => m[1])));
  list(source.plain.facts).forEach((f, i) => {
    const path = ['facts', i, 'is'];
    for (const text of writtenIn(f.is)) {
      wordsOf({ path, text, as: 'tells' });
      // A piece of an instruction begins small; a whole one is held to the same rules.
      if (inDo.has(String(f.key)) && /^[A-Z]/.test(text)) instructs({ path, text, as: 'do' });
    }
    const label = words(f.label);
    if (!label) return;
    wordsOf({ path: ['facts', i, 'label'], text: label, as: 'label' });
    for (const { word, said = [], means } of signs)
      if (
        new RegExp(`(?<![\\w-])${word}(?![\\w-])`).test(label) &&
        !said.some((w) => label.toLowerCase().includes(w.toLowerCase()))
      )
        say('sign unexplained', ['facts', i, 'label'], `“${word}” is not explained here.`, `Say what it is: ${means}.`);
  });
  list(source.plain.branches).forEach((b, i) => {
    for (const key of ['title', 'mark'])
      if (words(b[key])) wordsOf({ path: ['branches', i, key], text: String(b[key]), as: 'label' });
  });
  return out.sort((a, b) => a.line - b.line || a.column - b.column);
}
