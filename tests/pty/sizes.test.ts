/**
 * The main screens in a real terminal of three sizes, kept as text that people read through when it changes
 * (`vitest -u` writes it anew), and what holds at any size: the frame leaves the last row free, never clears the
 * scrollback, and without colour or UTF-8 says the same.
 */
import { afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { long } from '../setup/size.js';
import { Driver, goOn, practiceFile, readReplay } from './drive.js';
import { closeTerminals, type KeyName, type TerminalOptions, type TerminalUnderTest } from './harness.js';
import { entriesBefore, InTurn, jobBefore } from './job-at.js';
import { newProgram } from './program.js';
import { type Moment, screenReader, shipped } from './read-screen.js';

const file = readReplay(practiceFile);
const { procedure } = shipped(file.procedure);
const reader = screenReader(procedure);

type Keys = readonly (KeyName | { readonly text: string })[];
interface Shot {
  readonly name: string;
  /** The job stands before this step. */
  readonly before: readonly [step: string, place: string, rows?: number];
  /** Goes on from there by the file's readings until this holds. */
  readonly until?: (m: Moment) => boolean;
  /** Goes on until there is nothing to do but wait. */
  readonly waits?: boolean;
  /** Keys that are pressed before that and record something. */
  readonly first?: string;
  /** Keys from the bench to what is shown. */
  readonly keys?: Keys;
  readonly shows: string;
}

const at = (step: string, wants: Moment['wants']) => (m: Moment) => m.step.id === step && m.wants === wants;
const doseAsked = at('dose', 'question');
const letter = (text: string) => ({ text });

const sizes = [
  [60, 20],
  [80, 24],
  [120, 40],
] as const;
/** Colours, not boldness or inversion. */
const colour = /\x1b\[(?:\d+;)*(?:3[0-8]|4[0-8]|9[0-7]|10[0-7])(?:;\d+)*m/;

const shots: readonly Shot[] = [
  { name: 'what is laid out', before: ['kit', 'job'], shows: 'All of this lies here' },
  { name: 'a choice', before: ['make', 'a'], shows: 'Balls, as claimed' },
  { name: 'a size from a table', before: ['size', 'a'], shows: 'Bearing size' },
  { name: 'a quantity', before: ['duty', 'job'], shows: 'Top speed' },
  { name: 'a danger', before: ['isolate', 'job'], shows: 'DANGER' },
  { name: 'a gate', before: ['prove-leads', 'a'], first: '2', shows: 'STOP' },
  { name: 'ball by ball', before: ['probe-balls', 'a'], shows: 'One answer for each ball' },
  { name: 'a prediction', before: ['dose', 'a'], shows: 'what do you expect' },
  { name: 'a dose', before: ['dose', 'a'], until: doseAsked, shows: 'Dose set' },
  {
    name: 'where a number comes from',
    before: ['dose', 'a'],
    until: doseAsked,
    keys: [letter('n')],
    shows: 'Which figure?',
  },
  {
    name: 'behind a number',
    before: ['dose', 'a'],
    until: doseAsked,
    keys: [letter('n'), letter('1')],
    shows: 'With these numbers',
  },
  {
    name: 'why',
    before: ['dose', 'a'],
    until: doseAsked,
    keys: [letter('w')],
    shows: 'If you skip this',
  },
  { name: 'a hold point', before: ['seals-seated', 'a'], until: at('seals-seated', 'sign'), shows: 'HOLD' },
  { name: 'the marks', before: ['marks', 'job'], until: at('marks', 'confirm'), shows: 'Mark the barrel' },
  {
    name: 'gap by gap',
    before: ['gap-fill', 'a'],
    until: (m) => m.question?.key === 'gaps',
    shows: 'Gaps with one bead',
  },
  { name: 'the run-in', before: ['run-in-log', 'job', 14], shows: 'Watch the sensors' },
  { name: 'the menu', before: ['make', 'a'], keys: [letter('m')], shows: 'Correct an earlier reading' },
  { name: 'the job sheet', before: ['run-in-accept', 'job'], keys: [letter('m'), letter('6')], shows: 'page 1 of' },
  { name: 'while one bearing dries', before: ['white-cloth', 'a'], shows: 'solvent drying' },
  { name: 'nothing to do but wait', before: ['white-cloth', 'a'], waits: true, shows: 'Nothing to do but wait' },
  { name: 'every key', before: ['make', 'a'], keys: [letter('?')], shows: 'All keys' },
];

const alike = (a: Shot, b: Shot): boolean =>
  `${a.before}` === `${b.before}` && a.until === b.until && a.waits === b.waits && a.first === b.first;
/** Shots that begin at the same instant of a job share it, and one program. */
const groups = shots.flatMap((shot, i) =>
  shots.findIndex((other) => alike(shot, other)) === i ? [shots.filter((other) => alike(shot, other))] : [],
);
/** The journal at that instant, worked on in one program for all of them. */
const journals = new Map<Shot, { readonly entries: readonly Entry[]; readonly later: number }>();
async function prepare(): Promise<void> {
  const jobs = new InTurn();
  const { program } = jobs;
  for (const group of groups) {
    const shot = group[0] as Shot;
    let entries = entriesBefore(file, ...shot.before);
    let later = 1;
    if (shot.until || shot.first || shot.waits) {
      const driver = new Driver({ program, reader, procedure, file, pace: 'fast', hurry: true });
      const term = await jobs.open(file.name, entries);
      if (shot.first) {
        const from = await driver.stands(term);
        await driver.press(term, shot.first);
        await driver.moved(term, from);
      }
      if (shot.until) await driver.until(term, shot.until);
      while (shot.waits && (await driver.stands(term)).kind !== 'waiting') await driver.step(term);
      entries = program.entries(file.name);
      later = 0;
    }
    for (const each of group) journals.set(each, { entries, later });
  }
  closeTerminals();
  jobs.remove();
}

/** Goes through the shots in one program; `look` at each of them, at each of these sizes. */
async function tour(
  options: Omit<TerminalOptions, 'args'>,
  taken: readonly Shot[],
  sizes: readonly (readonly [cols: number, rows: number])[],
  look: (term: TerminalUnderTest, shot: Shot, rows: number, cols: number) => void,
): Promise<void> {
  const jobs = new InTurn(options);
  for (const group of groups) {
    const shown = group.filter((shot) => taken.includes(shot));
    if (shown.length === 0) continue;
    const { entries, later } = journals.get(shown[0] as Shot) ?? { entries: [], later: 0 };
    const term = await jobs.open(file.name, entries, { cols: sizes[0]?.[0], rows: sizes[0]?.[1], later });
    // Its window made larger: what a small window pushed off its top would come back in a larger one.
    for (const [cols, rows] of sizes) {
      term.resize(cols, rows);
      for (const shot of shown) {
        await press(term, shot);
        wellBehaved(term, rows);
        look(term, shot, rows, cols);
        await back(term, shot);
      }
    }
  }
  closeTerminals();
  jobs.remove();
}

/** The frames of each size. */
const frames = new Map<string, Map<Shot, string>>(sizes.map(([cols, rows]) => [`${cols}x${rows}`, new Map()]));
const frameOf = (shot: Shot, size: string): string => frames.get(size)?.get(shot) ?? '';

beforeAll(async () => {
  await prepare();
  let coloured = false;
  let from = 0;
  await tour({}, shots, sizes, (term, shot, rows, cols) => {
    frames.get(`${cols}x${rows}`)?.set(shot, term.screen());
    coloured ||= shot.name === 'a danger' && colour.test(term.raw().slice(from));
    from = term.raw().length;
  });
  expect(coloured, 'so that a test below can fail').toBe(true);
});
afterEach(() => closeTerminals());

/** From the bench to what is shown. */
async function press(term: TerminalUnderTest, shot: Shot): Promise<void> {
  for (const key of shot.keys ?? []) {
    await term.taken();
    term.press(key);
  }
  await term.waitFor((s) => s.replace(/\s+/g, ' ').includes(shot.shows));
  await term.taken();
}
/** And back to the bench. */
async function back(term: TerminalUnderTest, shot: Shot): Promise<void> {
  for (const _ of shot.keys ?? []) {
    await term.rest();
    term.press('escape');
    await term.taken();
  }
}

/** What holds of every frame. */
function wellBehaved(term: TerminalUnderTest, rows: number): void {
  expect(term.raw(), 'clears the scrollback').not.toContain('\x1b[3J');
  expect(term.lines()).toHaveLength(rows);
  expect(term.lines().at(-1), 'the last row stays free').toBe('');
  expect(term.scrolledOff(), 'nothing is pushed off the top').toEqual([]);
}

/** What differs from one build to the next. */
const masked = (screen: string): string => screen.replace(/\b[0-9a-f]{16}\b/g, 'HASH');
const page = (name: string, screen: string): string => `=== ${name} ===\n${masked(screen)}\n`;

/** The first screen and from it to a job and back, at each size. */
const homes = new Map<string, string[]>();
beforeAll(async () => {
  const empty = newProgram();
  empty.stand('2026-03-02T08:00:00Z');
  const [[cols, rows]] = sizes;
  const first = empty.open([], { cols, rows });
  const one = newProgram();
  await jobBefore(one, file, ...(shots[0] as Shot).before);
  const home = one.open([], { cols, rows });
  await first.waitFor('Start a job');
  for (const [cols, rows] of sizes) {
    first.resize(cols, rows);
    await first.taken();
    wellBehaved(first, rows);
    home.resize(cols, rows);
    await home.waitFor('College test bench');
    await home.taken();
    wellBehaved(home, rows);
    const pages = [page('the first screen, no job yet', first.screen()), page('the first screen', home.screen())];
    await home.rest();
    home.press(letter('1'));
    await home.waitFor('leave this job');
    await home.taken();
    pages.push(page('back at a job', home.screen()));
    homes.set(`${cols}x${rows}`, pages);
    await home.rest();
    home.press(letter('l'));
    await home.waitFor('Start a job');
  }
  closeTerminals();
  empty.remove();
  one.remove();
});

describe.each(sizes)('%i by %i', (cols, rows) => {
  test('the screens', async () => {
    const size = `${cols}x${rows}`;
    const pages = [...(homes.get(size) ?? []), ...shots.map((shot) => page(shot.name, frameOf(shot, size)))];
    await expect(pages.join('\n')).toMatchFileSnapshot(`snapshots/${size}.txt`);
  });
});

describe('what a terminal can show', () => {
  const some = shots.filter((s) => ['a choice', 'a danger', 'a gate', 'the run-in', 'the marks'].includes(s.name));

  const plain = new Map<string, string>();
  let without = '';
  beforeAll(() =>
    tour({ noColor: true }, some, [[80, 24]], (term, shot) => {
      plain.set(shot.name, term.screen());
      without = term.raw();
    }),
  );
  test.each(some)('NO_COLOR: $name says the same without a colour', (shot) => {
    expect(plain.get(shot.name)).toBe(frameOf(shot, '80x24'));
    expect(without).not.toMatch(colour);
  });

  // Every screen of a whole job is looked at in ASCII by tests/screens/walk; here the locale is what asks for it.
  const others = shots.filter((_, i) => long || i % 4 === 0);
  test(`LANG=C: ${others.length} screens are pure ASCII`, async () => {
    const seen: string[] = [];
    await tour({ lang: 'C' }, others, [[80, 24]], (term, shot) => {
      expect(term.raw().match(/[^\x00-\x7f]/gu) ?? [], shot.name).toEqual([]);
      seen.push(shot.name);
    });
    expect(seen).toHaveLength(others.length);
  });
});

describe('the window changes its size', () => {
  test('in the middle of typing: nothing is lost, nothing of the old frame is left', async () => {
    const program = newProgram();
    await jobBefore(program, file, 'duty', 'job');
    const before = program.entries(file.name).length;
    const term = program.open(['resume']);
    await goOn(term);
    await term.waitFor('Top speed');
    term.write('140');
    await term.waitFor('> 140');
    let typed = '140';
    for (const [cols, rows, more] of [
      [60, 20, '0'],
      [120, 40, '0'],
      [40, 14, ' '],
      [132, 50, 'r'],
      [60, 12, 'p'],
      [80, 24, 'm'],
    ] as const) {
      term.resize(cols, rows);
      term.write(more);
      typed += more;
      await term.waitFor((s) => s.split('\n').some((l) => l.trim() === '─'.repeat(cols - 2)));
      await term.waitFor(`> ${typed.trim()}`);
      await term.taken();
      expect(term.raw()).not.toContain('\x1b[3J');
      const lines = term.lines();
      expect(lines.filter((l) => l.includes('How fast, how hot')).length, term.screen()).toBeLessThanOrEqual(1);
      expect(lines.filter((l) => /^ *> /.test(l)).length, term.screen()).toBeLessThanOrEqual(1);
      expect(
        lines.filter((l) => l.includes('───')),
        term.screen(),
      ).toHaveLength(2);
      expect(lines.at(-1), term.screen()).toBe('');
    }
    expect(term.screen()).toContain('> 14000 rpm');
    term.write('\r');
    await term.waitFor('Bearing temperature in steady running');
    expect(program.entries(file.name).slice(before)).toMatchObject([
      { kind: 'answer', key: 'top_speed', value: 14_000, typed: '14000 rpm' },
    ]);
    program.remove();
  });
});
