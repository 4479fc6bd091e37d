/** An invented log with one question of each common kind, and what the screen showed of it, frame by frame. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Entry } from '../../src/engine/journal/entry.js';
import { showQuantity } from '../../src/units/show.js';
import type { TerminalUnderTest } from './harness.js';
import { newProgram, type Program } from './program.js';

const procedure = `procedure: burst-log
version: 1.0.0
title: Invented log for fast fingers
summary: Invented. Rows without end, so that hundreds of answers can be given.
places:
  - { id: position, name: Bearing, instances: [ { id: a, label: Drive end } ] }
phases:
  - { id: work, title: Work }
steps:
  - id: rows
    phase: work
    at: job
    title: Rows
    do: Fill in row after row.
    why: It is a test.
    repeat: { until: "rows_rows >= 1900.0", most: 2000 }
    ask:
      - key: colour
        kind: choice
        label: Colour
        options:
          - { value: amber, label: Amber }
          - { value: brown, label: Brown }
          - { value: cream, label: Cream }
          - { value: dark, label: Dark }
      - { key: length, kind: quantity, quantity: length, unit: mm, label: Length, limits: [0.001, 100000] }
      - { key: count, kind: number, label: Amount, limits: [0, 100000] }
      - { key: words, kind: text, label: Words, longest: 200 }
      - { key: smooth, kind: yes-no, label: Smooth }
`;

export const questions = ['Colour', 'Length', 'Amount', 'Words', 'Smooth'] as const;
/** In the order in which they are asked, row by row. */
export const order: readonly string[] = [...questions];
export type Asked = (typeof questions)[number];
export const colours = ['Amber', 'Brown', 'Cream', 'Dark'] as const;

export interface BurstLog {
  readonly program: Program;
  /** Starts it, or goes on with the job that is there, and waits for the question. */
  open(): Promise<TerminalUnderTest>;
  /** The journal as it stands on disk. */
  entries(): readonly Entry[];
  remove(): void;
}

const name = 'Burst job';

export function burstLog(): BurstLog {
  const program = newProgram();
  const folder = mkdtempSync(join(tmpdir(), 'rotorside-burst-'));
  writeFileSync(join(folder, 'burst-log.yaml'), procedure);
  const wide = { cols: 160, rows: 34 };
  let begun = false;
  return {
    program,
    async open() {
      const term = program.open([...(begun ? ['resume'] : []), '--procedures', folder], wide);
      if (begun) {
        await term.waitFor('leave this job');
        await term.rest();
        term.press('enter');
      } else {
        await term.waitFor('Start a job');
        term.write('1');
        const picks = await term.waitFor('Which procedure?');
        term.write(/(\d) +Invented log/.exec(picks)?.[1] ?? '');
        await term.waitFor('Name of the job');
        term.write(`${name}\r`);
        await term.waitFor('Your initials');
        term.write('BT\r');
        await term.waitFor('Who works on it?');
        term.write('1');
      }
      await term.waitFor('Fill in row after row.');
      begun = true;
      return term;
    },
    entries() {
      const jobs = join(program.data, 'jobs');
      const file = readdirSync(jobs).find((f) => f.endsWith('.json'));
      const { entries } = JSON.parse(readFileSync(join(jobs, file ?? ''), 'utf8')) as { entries: [string, Entry][] };
      return entries.map(([, e]) => e);
    },
    remove() {
      program.remove();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** As a terminal sends what is pasted. */
export const paste = (text: string): string => `\x1b[200~${text}\x1b[201~`;

/** The question that stands on the screen; undefined on any other page. */
export function asked(screen: string): Asked | undefined {
  if (!screen.includes('Fill in row after row.')) return undefined;
  const lines = screen.split('\n').map((l) => l.trim());
  // The heading of a row that is just begun may read the same; below a question is what answers it.
  return questions.find((q) => lines.some((l, i) => l === q && /^(>|▸? *1 )/.test(lines[i + 1] ?? '')));
}

const codes = /\x1b(?:\[[0-9;?]*[ -/]*[@-~]|\][^\x07]*\x07|[@-Z\\-_])/g;
const plain = (text: string): string => text.replace(/[\s\u00a0]+/g, ' ').trim();

/** Every line “Recorded …” that was ever sent to the terminal, in order, each frame's own. */
export const echoes = (raw: string): string[] =>
  raw
    .replace(codes, '')
    .split('\n')
    .flatMap((l) => (/^ *Recorded {2}/.test(l) ? [echoOf(l)] : []));

/** What it says was recorded, without the words that were typed for it. */
export const echoOf = (line: string): string => plain(line.replace(/^ *Recorded/, '')).replace(/ \(typed .*\)$/, '');

const cell = (e: Entry | undefined): string => {
  if (e?.kind !== 'answer') return '…';
  const { key, value } = e;
  if (key === 'colour') return colours.find((c) => c.toLowerCase() === value) ?? String(value);
  if (key === 'smooth') return value ? 'yes' : 'no';
  return plain(key === 'length' ? showQuantity(Number(value), 'length') : String(value));
};
const keys = ['colour', 'length', 'count', 'words', 'smooth'];

/** What an answer of the log reads like. */
export const reads = (e: Entry): string | undefined =>
  e.kind === 'answer' ? `${questions[keys.indexOf(e.key)] ?? e.key}: ${cell(e)}` : undefined;

/** Answers that hold: what was taken back is left out. */
function holding(entries: readonly Entry[]): readonly Entry[] {
  const undone = new Set(entries.flatMap((e) => (e.kind === 'undo' ? [e.of] : [])));
  return entries.filter((e) => e.kind === 'answer' && !undone.has(e.seq));
}

/** The last six rows as the journal has them; “…” where one is still to come. */
export function journalRows(entries: readonly Entry[]): string[] {
  const rows: Map<string, Entry>[] = [];
  for (const e of holding(entries)) {
    if (e.kind !== 'answer') continue;
    const open = rows.at(-1);
    if (!open || open.size === keys.length) rows.push(new Map([[e.key, e]]));
    else open.set(e.key, e);
  }
  return rows.slice(-6).map((r) => keys.map((key) => cell(r.get(key))).join(' | '));
}

/** The rows that stand on the screen, cell by cell. */
export function screenRows(screen: string): string[] {
  const lines = screen.split('\n').map((l) => l.replaceAll('\u00a0', ' '));
  const head = lines.findIndex(
    (l, i) => /^ *Colour( {2,}\S+)* *$/.test(l) && !/^ *(>|▸? *1 )/.test(lines[i + 1] ?? ''),
  );
  if (head < 0) return [];
  const labels = (lines[head] ?? '').trim().split(/ {2,}/);
  const below = lines.slice(head + 1);
  const end = below.findIndex((l) => l.trim() === '');
  return below.slice(0, end).map((l) => {
    const cells = l.trim().split(/ {2,}/);
    return questions.map((q) => (labels.includes(q) ? (cells[labels.indexOf(q)] ?? '') : '…')).join(' | ');
  });
}
