/** Bursts of answers between bursts of noise against the real program: what was meant is what the journal holds. */
import { afterEach, describe, expect, test } from 'vitest';
import { random, seed, size } from '../setup/size.js';
import { asked, burstLog, colours, echoes, echoOf, journalRows, order, paste, reads, screenRows } from './burst-log.js';
import { goOn } from './drive.js';
import { closeTerminals, keySequences as k } from './harness.js';

/** A whole number from 0 to below this one. */
type Pick = (below: number) => number;

/** A burst that answers, and what it says. Its first key is not `last`: a contact that bounces looks the same. */
function meant(question: string, pick: Pick, last: string, moved: boolean, frame: string) {
  for (;;) {
    const made = oneWay(question, pick, moved, frame);
    if (made.keys[0] !== last) return made;
  }
}

function oneWay(question: string, pick: Pick, moved: boolean, frame: string): { keys: string; says: string } {
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
function noise(pick: Pick): string {
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
  afterEach(() => closeTerminals());

  const bursts = size(60, 1400);
  test(`${bursts} bursts of answers and noise`, { timeout: 3_600_000 }, async () => {
    const log = burstLog();
    const next = random(seed);
    const pick: Pick = (below) => Math.floor(next() * below);
    let term = await log.open();
    let raw = '';
    let noisy = false;
    let last = '1';
    const count = { sent: 0, noise: 0, shown: 0 };
    const wrong: string[] = [];
    let lately = '';

    /** Out of whatever page the noise opened, back to the question, its field empty. */
    async function clear(): Promise<string> {
      await term.taken();
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
          term.press('escape');
        }
        await term.taken();
      }
      const question = asked(term.screen());
      if (question === undefined) throw new Error(`No way back:\n${term.screen()}`);
      if (!noisy) return question;
      await term.rest();
      if (term.screen().includes('type on')) term.press('enter');
      await term.taken();
      // From the end on, since what is behind the cursor may hold spaces and a unit stands after it.
      if (/^ *> .*▏/m.test(term.screen())) term.write(k.end);
      await term.taken();
      term.write(k.backspace.repeat(/^ *> (.*)▏/m.exec(term.screen())?.[1]?.length ?? 0));
      await term.taken();
      last = k.backspace;
      return question;
    }

    for (let i = 0; i < bursts; i++) {
      const question = await clear();
      const before = log.entries().length;
      const moved = noisy;
      noisy = pick(4) === 0;
      if (noisy) {
        count.noise += 1;
        const n = noise(pick);
        lately = JSON.stringify(n);
        term.write(n);
        await term.taken();
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
      await term.taken();
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
      `seed ${seed}: bursts ${bursts} (${count.noise} of noise), answers sent ${count.sent}, shown ${count.shown}, recorded ${recorded} (noise answers too), wrong ${wrong.length}`,
    );
    log.remove();
    expect(wrong, `seed ${seed}`).toEqual([]);
    expect(count.shown).toBe(count.sent);
  });
});
