/**
 * Fast fingers, pastes and noise against the real program: what the journal holds is what the screen showed. Bursts
 * come in one write, as from key repeat, a slow link or a paste.
 */
// @ts-nocheck

import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asked, type BurstLog, burstLog, echoes, order, paste, reads } from './burst-log.js';
import { closeTerminals, keySequences as k, type TerminalUnderTest } from './harness.js';

describe('one burst at a time', () => {
  let log: BurstLog;
  let term: TerminalUnderTest | undefined;
  beforeAll(() => {
    log = burstLog();
  });
  afterAll(() => {
    closeTerminals();
    log.remove();
  });

  /** The program on one of the questions: one program for all, as long as it stands there. */
  async function atWork(): Promise<TerminalUnderTest> {
    await term?.taken();
    if (term && !term.ended() && asked(term.screen())) return term;
    closeTerminals();
    term = await log.open();
    return term;
  }

  /** Sends a burst where `question` stands; gives what it recorded and what the screen says of the last. */
  async function burst(question: string, keys: string) {
    const term = await atWork();
    const fill: Record<string, string> = { Colour: '2', Length: '5\r', Amount: '6\r', Words: 'x\r', Smooth: '1' };
    const now = asked(term.screen()) ?? 'Colour';
    let way = '';
    for (let at = order.indexOf(now); order[at % 5] !== question; at++) way += fill[order[at % 5] ?? ''];
    await term.rest();
    term.write(way);
    await term.rest();
    expect(asked(term.screen())).toBe(question);
    const before = log.entries().length;
    const from = term.raw().length;
    term.write(keys);
    await term.taken();
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
    const { term } = await burst('Colour', '');
    for (const line of [/▸ 1 +Amber/, /▸ 2 +Brown/, /▸ 3 +Cream/]) {
      term.write(k.down);
      await term.taken();
      expect(term.screen()).toMatch(line);
    }
    const before = log.entries().length;
    term.write(k.enter);
    await term.taken();
    expect(log.entries().slice(before).map(reads)).toEqual(['Colour: Cream']);
  });
});
