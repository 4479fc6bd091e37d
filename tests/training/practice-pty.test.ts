/**
 * Two apprentices at the same invented rotor, key by key: one takes the papers' word from the first step on, on the
 * screens in this process; one puts the probe on a ball, in the real program. The debrief on the screen names the trap to
 * both; the clock of practice runs by itself.
 */
import { afterEach, expect, test } from 'vitest';
import type { ReplayFile } from '../../src/engine/replay/replay-file.js';
import { Driver, type Keyboard, readReplay } from '../pty/drive.js';
import { closeTerminals } from '../pty/harness.js';
import { newProgram, type Program } from '../pty/program.js';
import { nameOf, type Reader, type Stands, screenReader } from '../pty/read-screen.js';
import { modelOfRotor, rotorNamed } from './library.js';
import { onScreens } from './on-screens.js';

afterEach(() => closeTerminals());

const rotor = rotorNamed('paper-hybrid');
const { procedure } = modelOfRotor(rotor);
const MARK = 'PRACTICE · ';
const unmarked = screenReader(procedure);
const reader: Reader = { ...unmarked, read: (screen) => unmarked.read(screen.replace(MARK, '')) };
const trap = rotor.file.traps[0]!;

const digitBefore = (words: string, screen: string): string | undefined =>
  screen
    .split('\n')
    .map((l) => /^\s*[▸>]?\s*([1-9])\s+(.*)$/.exec(l))
    .find((m) => m?.[2]?.startsWith(words))?.[1];

/** From `rotorside practice ROTOR` to its first step, or to the first one of a later phase. */
async function begin(term: Keyboard, late?: string): Promise<void> {
  await term.waitFor('Your initials');
  expect(term.screen().replace(/\s+/g, ' ')).toContain('Invoice, box and plate all say hybrid');
  expect(term.screen()).not.toContain(trap.title);
  await term.rest();
  term.write('AP\r');
  await term.waitFor('Initials of your mentor');
  await term.rest();
  term.write('ap\r');
  await term.waitFor('another person');
  term.press('backspace', 'backspace');
  term.write('MN\r');
  await term.waitFor('Lessons, says your mentor');
  await term.rest();
  term.write('1');
  const places = await term.waitFor('Where do you begin?');
  await term.rest();
  term.write(digitBefore(late ? `At “${late}”` : 'At the start', places)!);
  await term.waitFor('Before you begin');
  await term.rest();
  term.press('enter');
  if (late) {
    await term.waitFor('What is known of this rotor');
    await term.rest();
    term.press('enter');
  }
  await term.waitFor(late ? 'Test the beep' : 'Name the machine');
}

async function work(
  kind: 'caught' | 'fell',
  program: Pick<Program, 'pass'>,
  term: Keyboard,
  seen: (screen: string) => void = () => {},
): Promise<void> {
  const read = readReplay(new URL(`../../procedures/practice/${rotor.id}.${kind}.replay.yaml`, import.meta.url));
  // Nothing moves the clock from outside.
  const file = { ...read, steps: read.steps.map((s) => ({ ...s, after: undefined, ...rows(s) })) };
  // What is raised parts the work in two: the same step may come once more after it.
  const at = file.steps.findIndex((s) => 'raise' in s);
  const raised = file.steps[at];
  const parts = at < 0 ? [file.steps] : [file.steps.slice(0, at), file.steps.slice(at + 1)];
  for (const [i, steps] of parts.entries()) {
    const driver = new Apprentice({ program, reader, procedure, file: { ...file, steps }, pace: 'fast' });
    await part(driver, term, file, seen);
    if (i > 0 || !raised || !('raise' in raised)) continue;
    await raise(term, procedure.branches?.find((b) => b.id === raised.raise)?.title ?? '');
  }
}

/** Until a gate stops it, or nothing is left. */
async function part(
  driver: Apprentice,
  term: Keyboard,
  file: ReplayFile,
  seen: (screen: string) => void,
): Promise<void> {
  for (let i = 0; i < 2000; i++) {
    const now = await driver.stands(term);
    seen(term.screen());
    expect(term.screen().trimStart().startsWith(MARK), term.screen()).toBe(true);
    if (now.kind === 'finished' || (now.kind === 'step' && now.wants === 'gate')) return;
    if (now.kind === 'waiting') {
      const way = digitBefore('Let ', term.screen());
      expect(way, term.screen()).toBeDefined();
      await driver.press(term, way!);
      await driver.moved(term, now);
    } else if (asksHow(term.screen())) {
      await driver.press(term, wayOn(term.screen(), file));
      await term.waitFor((screen) => !asksHow(screen));
    } else await driver.step(term);
  }
}

/** Before some readings the guide asks how they are taken. */
const asksHow = (screen: string): boolean => screen.includes('how do you go about it?');

/** The digit of the way that the file says was taken. */
function wayOn(screen: string, file: ReplayFile): string {
  const start = (label: string): string => label.slice(0, 20);
  const asked = rotor.file.readings.find((r) => r.ways?.every((w) => digitBefore(start(w.label), screen)));
  const item = file.steps.find((i) => 'step' in i && i.step === asked?.step && (i.at ?? 'job') === asked.at);
  const way = item && 'ways' in item ? item.ways?.[asked?.key ?? ''] : undefined;
  const label = asked?.ways?.find((w) => w.way === way)?.label;
  const digit = label && digitBefore(start(label), screen);
  if (!digit) throw new Error(`No way for this:\n${screen}`);
  return digit;
}

class Apprentice extends Driver {
  override async moved(term: Keyboard, from: Stands): Promise<Stands> {
    const name = nameOf(from);
    await term.waitFor((s) => asksHow(s) || (reader.read(s).kind !== 'other' && nameOf(reader.read(s)) !== name));
    return this.stands(term);
  }
}

const rows = (s: object): object =>
  'rows' in s && Array.isArray(s.rows) ? { rows: s.rows.map((r: object) => ({ ...r, after: undefined })) } : {};

/** By the menu: something unforeseen. */
async function raise(term: Keyboard, title: string): Promise<void> {
  term.write('m');
  const menu = await term.waitFor('Menu · ');
  await term.rest();
  term.write(digitBefore('Something unforeseen', menu)!);
  const list = await term.waitFor('What happened?');
  await term.rest();
  // Further down than the ninth line it is found by its words.
  term.write(digitBefore(title, list) ?? `${title}\r`);
  await term.waitFor('In a few words');
  await term.rest();
  term.write('each one beeps\r');
  const last = await term.waitFor(/Press \S to record it/);
  await term.rest();
  term.write(/Press (\S) to record it/.exec(last)![1]!);
  await term.waitFor((screen) => reader.read(screen).kind === 'step');
}

async function debrief(term: Keyboard): Promise<string> {
  const digit = digitBefore('What this practice showed', term.screen());
  await term.rest();
  term.write(digit!);
  await term.waitFor('Debrief');
  return term.waitFor(trap.title);
}

test('who takes the papers’ word falls, and the debrief says into what', async () => {
  const { term, clock, end } = onScreens(rotor);
  await begin(term);
  const slips: string[] = [];
  await work('fell', clock, term, (screen) => {
    const said = /you expected \S+ \S+ - wrong\. Off by ten/.exec(screen.replace(/\s+/g, ' '));
    if (said) slips.push(said[0]);
  });
  expect(slips).toContain('you expected 0.087 mL - wrong. Off by ten');
  const shown = (await debrief(term)).replace(/\s+/g, ' ');
  expect(shown).toContain(`Missed: ${trap.title}`);
  expect(shown).toContain('The balls are steel, more than twice as heavy');
  end();
});

test('who puts the probe on a ball sees through it', async () => {
  const program = newProgram();
  // All that comes before it is done by keys by the one who falls.
  const term = program.open(['practice', rotor.id]);
  await begin(term, 'Prove the ball material');
  await work('caught', program, term);
  const shown = (await debrief(term)).replace(/\s+/g, ' ');
  expect(shown).toContain(`Caught: ${trap.title}`);
  // On the first screen it is told from real work too.
  await term.rest();
  term.press('escape');
  await term.waitFor('This job is finished');
  await term.rest();
  term.press('escape');
  await term.waitFor('leave this job');
  await term.rest();
  term.write('l');
  await term.waitFor(`${rotor.title} [practice`);
  program.remove();
});

test('begins late where that is picked', async () => {
  const program = newProgram();
  const term = program.open(['practice', 'stage-six']);
  await term.waitFor('Your initials');
  await term.rest();
  term.write('AP\r');
  await term.waitFor('Initials of your mentor');
  await term.rest();
  term.write('MN\r');
  const told = await term.waitFor('Lessons, says your mentor');
  await term.rest();
  term.write(digitBefore('As soon as harm is done', told)!);
  await term.waitFor('Where do you begin?');
  await term.rest();
  // Further down than there are digits.
  while (!/▸.*“Run in”/.test(term.screen())) {
    term.press('down');
    await term.rest();
  }
  // Typed while the bench works: none of it may answer what nobody has seen yet.
  term.write('\r');
  await term.waitFor('Before you begin');
  await term.rest();
  term.write('\r');
  await term.waitFor('One moment');
  term.write('\r\r1=1');
  const known = await term.waitFor('What is known of this rotor');
  expect(known).toContain('is done. This was found.');
  expect(known).not.toMatch(/(\d+)\s(\d+)\srpm +\1\2 rpm/);
  await term.rest();
  expect(term.screen()).toContain('What is known of this rotor');
  term.press('enter');
  await term.waitFor('Take the solvent out');
  expect(term.screen()).toContain('Signed by GUIDE');
  program.remove();
});
