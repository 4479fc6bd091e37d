/**
 * Fast fingers, pastes and noise against the real program: what the journal holds is what the screen showed. Bursts
 * come in one write, as from key repeat, a slow link or a paste.
 */
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import {
  asked,
  type BurstLog,
  burstLog,
  colours,
  echoes,
  echoOf,
  journalRows,
  reads,
  screenRows,
} from './burst-log.js';
import { goOn, practiceFile, readReplay } from './drive.js';
import { closeTerminals, keySequences as k, type TerminalUnderTest } from './harness.js';
import { standingAt } from './job-at.js';

const order: readonly string[] = ['Colour', 'Length', 'Amount', 'Words', 'Smooth'];
const paste = (text: string): string => `\x1b[200~${text}\x1b[201~`;

/** Waits until what was sent has been taken in: nothing more is drawn, and the last word of the journal stands there. */
async function rests(term: TerminalUnderTest): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, 120));
  await term.settled(120);
}

describe('one burst at a time', () => {
  let log: BurstLog;
  beforeAll(() => {
    log = burstLog();
  });
  afterEach(closeTerminals);
  afterAll(() => log.remove());

  /** Sends a burst where `question` stands; gives what it recorded and what the screen says of the last. */
  async function burst(question: string, keys: string) {
    const term = await log.open();
    const fill: Record<string, string> = { Colour: '2', Length: '5\r', Amount: '6\r', Words: 'x\r', Smooth: '1' };
    const now = asked(term.screen()) ?? 'Colour';
    let way = '';
    for (let at = order.indexOf(now); order[at % 5] !== question; at++) way += fill[order[at % 5] ?? ''];
    term.write(way);
    await term.waitFor((s) => asked(s) === question);
    await rests(term);
    await term.rest();
    const before = log.entries().length;
    const from = term.raw().length;
    term.write(keys);
    await rests(term);
    const added = log.entries().slice(before);
    return { term, added: added.map(reads), echoes: echoes(term.raw().slice(from)), screen: term.screen() };
  }

  test.each([
    ['Down Enter', 'Colour', k.down + k.enter, ['Colour: Amber']],
    ['Down Down Enter', 'Colour', k.down + k.down + k.enter, ['Colour: Brown']],
    ['Up Enter', 'Colour', k.up + k.enter, ['Colour: Dark']],
    ['Down Up Down Down Enter', 'Colour', k.down + k.up + k.down + k.down + k.enter, ['Colour: Brown']],
    ['a digit', 'Colour', '3', ['Colour: Cream']],
    ['a digit and the Enter of habit', 'Colour', `3${k.enter}`, ['Colour: Cream']],
    ['digits and Enter', 'Length', `12.5${k.enter}`, ['Length: 12.5 mm']],
    ['digits with a comma, corrected', 'Length', `12,7${k.backspace}5${k.enter}`, ['Length: 12.5 mm']],
    ['digits, unit and Enter', 'Length', `1 cm${k.enter}`, ['Length: 10 mm']],
    ['a fraction', 'Amount', `7,5${k.enter}`, ['Amount: 7.5']],
    ['three answers', 'Colour', `2 14.5${k.enter}8${k.enter}`, ['Colour: Brown', 'Length: 14.5 mm', 'Amount: 8']],
    [
      'a whole row',
      'Colour',
      `${k.down}${k.enter}3${k.enter}4${k.enter}smooth as glass${k.enter}2`,
      ['Colour: Amber', 'Length: 3 mm', 'Amount: 4', 'Words: smooth as glass', 'Smooth: no'],
    ],
    ['the same digit for the choice and the figure', 'Colour', `224${k.enter}`, ['Colour: Brown', 'Length: 24 mm']],
    ['a paste into a text', 'Words', `${paste('one 1, two 2')}${k.enter}`, ['Words: one 1, two 2']],
    ['a paste with a line end into a text', 'Words', `${paste('one\r\ntwo')}${k.enter}`, ['Words: one two']],
    ['a paste into a figure', 'Length', `${paste('14.25')}${k.enter}`, ['Length: 14.25 mm']],
    ['a paste where something is picked', 'Colour', paste('2\r3'), []],
    ['Ctrl+F1 between', 'Length', `1${k['ctrl-f1']}2${k['ctrl-f1']}${k.enter}`, ['Length: 12 mm']],
    ['Ctrl+F1 alone', 'Colour', k['ctrl-f1'], []],
    ['Enter alone', 'Colour', k.enter, []],
    ['Enter ten times', 'Colour', k.enter.repeat(10), []],
    ['a broken sequence', 'Length', `\x1b[1;5`, []],
    ['bytes that are no letters', 'Words', `a\x00\x01\x02b${k.enter}`, ['Words: ab']],
  ] as const)('%s', async (_, question, keys, wanted) => {
    const { term, added, screen } = await burst(question, keys);
    expect(term.ended()).toBe(false);
    expect(added).toEqual(wanted);
    const last = wanted.at(-1);
    if (last) expect(screen.replaceAll('\u00a0', ' ')).toContain(`Recorded  ${last}`);
  });

  test('what was highlighted when Enter came is what is recorded, key by key as well', async () => {
    const { term } = await burst('Colour', k.down + k.down + k.down);
    expect(term.screen()).toMatch(/▸ 3 +Cream/);
    const before = log.entries().length;
    term.write(k.enter);
    await rests(term);
    expect(log.entries().slice(before).map(reads)).toEqual(['Colour: Cream']);
  });
});

describe('a held key', () => {
  afterEach(closeTerminals);
  const file = readReplay(practiceFile);

  async function held(step: string, place: string, shows: string, key: string, ms: number) {
    const { program, term, before } = await standingAt(file, step, place, shows);
    // A keyboard holds back its first repeat, then repeats thirty times a second.
    term.write(key);
    await new Promise((resolve) => setTimeout(resolve, 400));
    for (let t = 0; t < ms; t += 33) {
      term.write(key);
      await new Promise((resolve) => setTimeout(resolve, 33));
    }
    await rests(term);
    const added = program.entries(file.name).slice(before);
    program.remove();
    return { added, screen: term.screen() };
  }

  test('Enter, held for two seconds, answers one step', async () => {
    const { added } = await held('fill-syringe', 'job', 'Fill the syringe', k.enter, 2000);
    expect(added.map((e) => e.kind)).toEqual(['done']);
  });

  test.each([
    ['a danger', 'isolate', 'job', 'DANGER'],
    ['a question that is picked', 'make', 'a', 'Balls, as claimed'],
  ])('Enter, held for two seconds at %s, records nothing', async (_, step, place, shows) => {
    const { added } = await held(step, place, shows, k.enter, 2000);
    expect(added).toEqual([]);
  });

  test('the key that confirms a danger, held, confirms one: the next wants another', async () => {
    const { added, screen } = await held('isolate', 'job', 'DANGER', '9', 2000);
    expect(added.length).toBeLessThanOrEqual(1);
    expect(screen).not.toMatch(/Press +0 /);
  });
});

/** Numbers that come again for the same seed. */
function seeded(seed: number): (below: number) => number {
  let x = seed >>> 0;
  return (below) => {
    x = (Math.imul(x, 1664525) + 1013904223) >>> 0;
    return Math.floor((x / 2 ** 32) * below);
  };
}

/** A burst that answers, and what it says. Its first key is not `last`: a contact that bounces looks the same. */
function meant(question: string, pick: (below: number) => number, last: string, moved: boolean, frame: string) {
  for (;;) {
    const made = oneWay(question, pick, moved, frame);
    if (made.keys[0] !== last) return made;
  }
}

function oneWay(
  question: string,
  pick: (below: number) => number,
  moved: boolean,
  frame: string,
): { keys: string; says: string } {
  const figure = `${1 + pick(900)}${pick(2) ? `${pick(2) ? '.' : ','}${1 + pick(9)}` : ''}`;
  const value = figure.replace(',', '.');
  // What noise has highlighted stays highlighted: arrows go on from there, digits do not care.
  const picked = (n: number, of: number): string => {
    const way = moved ? 0 : pick(3);
    return way === 0 ? String(n) : way === 1 ? k.down.repeat(n) + k.enter : k.up.repeat(of + 1 - n) + k.enter;
  };
  switch (question) {
    case 'Colour': {
      const n = 1 + pick(4);
      return { keys: picked(n, 4), says: `Colour: ${colours[n - 1]}` };
    }
    case 'Length':
      // Noise may have picked another unit, which then stands beside the field.
      return {
        keys: `${pick(3) || !frame.includes('[mm]') ? `${figure} mm` : paste(`${figure}`)}${k.enter}`,
        says: `Length: ${value} mm`,
      };
    case 'Amount':
      return { keys: `9${k.backspace}${figure}${k.enter}`, says: `Amount: ${value}` };
    case 'Words': {
      const word = Array.from({ length: 3 + pick(12) }, () => 'abcdefghijklmnopqrstuvwxyz0123456789'[pick(36)]).join(
        '',
      );
      return { keys: `${pick(2) ? paste(`w${word}`) : `w${word}`}${k.enter}`, says: `Words: w${word}` };
    }
    default: {
      const n = 1 + pick(2);
      return { keys: picked(n, 2), says: `Smooth: ${n === 1 ? 'yes' : 'no'}` };
    }
  }
}

/** Keys that nobody means: whatever a cat, a slow link and a function key make of a keyboard. No q, l or Ctrl-C. */
function noise(pick: (below: number) => number): string {
  const pieces = [
    ...[k.down, k.up, k.left, k.right, k.home, k.end, k.enter, k.tab, k.escape, k.backspace, k.delete, k.pagedown],
    ...[
      k['ctrl-f1'],
      k.f1,
      '\x1b[1;5P',
      '\x1b[',
      '\x1b[<0;10;10M',
      '\x1bOw',
      paste('7'),
      paste('quick\rbrown'),
      '\x1b[200~',
    ],
    ...[...'0123456789.,+-*?wndumr xyzéß漢😀'],
  ];
  return Array.from({ length: 1 + pick(10) }, () => pieces[pick(pieces.length)]).join('');
}

describe('seeded bursts', () => {
  afterEach(closeTerminals);

  test.each([1, 2, 3])('seed %i: 120 bursts of answers and noise', { timeout: 300_000 }, async (seed) => {
    const log = burstLog();
    const pick = seeded(seed);
    let term = await log.open();
    let raw = '';
    let noisy = false;
    let last = '1';
    const count = { sent: 0, noise: 0, shown: 0 };
    const wrong: string[] = [];
    let lately = '';

    /** Out of whatever page the noise opened, back to the question, its field empty. */
    async function clear(): Promise<string> {
      // An opened paste is given up after a second of silence.
      if (noisy) await new Promise((resolve) => setTimeout(resolve, 1200));
      for (let back = 0; asked(term.screen()) === undefined && back < 12; back++) {
        await term.rest();
        if (term.ended() || term.screen().includes('Start a job')) {
          if (!term.ended()) term.press('ctrl-c');
          await term.exit;
          raw += term.raw();
          term = await log.open();
        } else if (term.screen().includes('leave this job')) await goOn(term);
        else {
          // A second Esc at once would go one page too far: the first must have been seen.
          const here = term.screen();
          term.press('escape');
          await term.waitFor((s) => s !== here, 3000).catch(() => undefined);
        }
        await rests(term);
      }
      const question = asked(term.screen());
      if (question === undefined) throw new Error(`No way back:\n${term.screen()}`);
      if (!noisy) return question;
      await term.rest();
      await term.rest();
      if (term.screen().includes('type on')) term.press('enter');
      await rests(term);
      const left = /^ *> (.*▏\S*)/m.exec(term.screen())?.[1] ?? '▏';
      if (left !== '▏') term.write(k.end + k.backspace.repeat(left.length - 1));
      await rests(term);
      last = k.backspace;
      return question;
    }

    for (let i = 0; i < 120; i++) {
      const question = await clear();
      const before = log.entries().length;
      const moved = noisy;
      noisy = pick(4) === 0;
      if (noisy) {
        count.noise += 1;
        const n = noise(pick);
        lately = JSON.stringify(n);
        term.write(n);
        await rests(term);
        continue;
      }
      let keys = '';
      const says: string[] = [];
      for (let at = order.indexOf(question), n = 1 + pick(3); n > 0; n--, at++) {
        const next = meant(order[at % order.length] ?? '', pick, last, moved, says.length ? '' : term.screen());
        keys += next.keys;
        says.push(next.says);
        last = keys.at(-1) ?? '';
      }
      count.sent += says.length;
      term.write(keys);
      await term
        .waitFor((s) => s.replaceAll('\u00a0', ' ').includes(`Recorded  ${says.at(-1)}`), 3000)
        .catch(() => undefined);
      await rests(term);
      const got = log.entries().slice(before).map(reads);
      if (JSON.stringify(got) !== JSON.stringify(says))
        wrong.push(`after ${lately} ${JSON.stringify(keys)}: meant ${says.join(' | ')}, recorded ${got.join(' | ')}`);
      const rows = { screen: screenRows(term.screen()), journal: journalRows(log.entries()) };
      if (JSON.stringify(rows.screen) !== JSON.stringify(rows.journal))
        wrong.push(`${JSON.stringify(rows)}\n${term.screen()}`);
      else count.shown += got.length;
      const now = term
        .screen()
        .split('\n')
        .find((l) => /^ *Recorded {2}/.test(l));
      if (now === undefined || echoOf(now) !== says.at(-1))
        wrong.push(`${says.at(-1)} is recorded, but it says ${now}`);
    }
    await clear();
    raw += term.raw();
    const known = new Set(log.entries().flatMap((e) => reads(e) ?? []));
    for (const s of new Set(echoes(raw)))
      if (/^(Colour|Length|Amount|Words|Smooth): /.test(s) && !known.has(s))
        wrong.push(`${s} was shown and is not in the journal`);
    const recorded = log.entries().filter((e) => e.kind === 'answer').length;
    console.log(
      `seed ${seed}: bursts 120 (${count.noise} of noise), answers sent ${count.sent}, shown ${count.shown}, recorded ${recorded} (noise answers too), wrong ${wrong.length}`,
    );
    log.remove();
    expect(wrong).toEqual([]);
    expect(count.shown).toBe(count.sent);
  });
});
