/** Initials: what they are, when two of them are one person, and that nobody witnesses work of their own. */
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { sameInitials, tidyInitials } from '../../src/engine/journal/initials.js';
import { headTrouble } from '../../src/engine/replay/replay.js';
import type { ReplayFile } from '../../src/engine/replay/replay-file.js';
import { State } from '../../src/engine/state/state.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { Bench, modelFrom } from './pump.js';

describe('initials', () => {
  it('are tidied to what stands for the person', () => {
    expect(tidyInitials(' AP ')).toBe('AP');
    // Full-width letters: Unicode compatibility decomposition (UAX 15).
    expect(tidyInitials('\uff21\uff30')).toBe('AP');
    // A pasted line with blanks behind them, up to a hundred characters.
    expect([tidyInitials('AP'.padEnd(100)), tidyInitials('AP'.padEnd(101))]).toEqual(['AP', undefined]);
    for (const good of ['A.P', 'Å-L', 'ŁK', 'ȘT', 'AP2', 'ẠB']) expect(tidyInitials(good), good).toBe(good);
  });

  it('of another script, with controls, empty or too long are none', () => {
    // Greek, Cyrillic, Cherokee and Lisu letters that look like A and P.
    for (const bad of ['\u0391\u03a1', '\u0410\u0420', 'A\u0420', '\u13aa\u13e2', '\ua4ee\ua4d1', '\u1d00\u1d18'])
      expect(tidyInitials(bad), bad).toBeUndefined();
    for (const bad of ['', ' ', '2A', '.AP', 'A P', 'A\u001bP', 'A\u200bP', 'A\u202eP', 'ABCDEFGHI', 'A'.repeat(5000)])
      expect(tidyInitials(bad), bad).toBeUndefined();
  });

  it('are one person however they are written', () => {
    for (const same of ['ap', 'A.P', 'AP.', 'a-p', 'ÁP', '\uff21\uff30', ' AP '])
      expect(sameInitials('AP', same), same).toBe(true);
    expect(sameInitials('ŁØ', 'lo')).toBe(true);
    // Of what is no initials any more the first hundred characters are compared.
    const long = 'A'.repeat(99);
    expect([sameInitials(`${long}BC`, `${long}BD`), sameInitials(`${long}B`, `${long}C`)]).toEqual([true, false]);
    for (const other of ['PA', 'AP2', 'A', 'APP']) expect(sameInitials('AP', other), other).toBe(false);
  });
});

const held = modelFrom(`
procedure: held
version: 1.0.0
title: Held
summary: Invented.
places:
  - { id: side, name: Side, instances: [ { id: a, label: Left }, { id: b, label: Right } ] }
  - { id: lip, name: Lip, within: side, instances: [ { id: in, label: inner } ] }
phases: [ { id: work, title: Work } ]
steps:
  - id: lip-look
    phase: work
    at: lip
    title: Look at the lip
    do: Look.
    why: It must be whole.
    ask: [ { key: lip_ok, kind: yes-no, label: Whole } ]
  - id: check
    phase: work
    at: side
    title: Check
    do: Check it.
    why: Twice is better.
    ask: [ { key: fine, kind: yes-no, label: Fine } ]
    hold: { say: The mentor looks too., self_check: I looked twice. }
  - id: last
    phase: work
    at: side
    title: Last look
    do: Look once more.
    why: Twice is better.
    ask: [ { key: still, kind: yes-no, label: Still fine } ]
    hold: { say: The mentor looks again., self_check: I looked twice. }
`);
const bench = (mentor = 'MN') => new Bench(held, { mentor });
const signAt = (place: string, initials: string, step = 'check') => ({ do: 'sign', step, place, initials }) as const;

describe('a witness', () => {
  const ready = (): Bench => {
    const b = bench();
    b.by = 'AP';
    for (const at of ['a.in', 'b.in']) b.answer('lip-look', at, { lip_ok: 'yes' });
    b.do({ do: 'operator', initials: 'ZZ' });
    b.by = 'ZZ';
    return b.answer('check', 'a', { fine: 'yes' });
  };

  it('is nobody who worked at that place, however the initials are written', () => {
    const b = ready();
    for (const own of ['AP', 'A.P', 'ap', '\uff21\uff30', 'ZZ', 'Z.Z'])
      expect(b.try(signAt('a', own)), own).toMatch(/did the work; another person, the mentor/);
    expect(b.try(signAt('a', '\u0391\u03a1'))).toMatch(/Latin letters/);
    expect(b.try(signAt('a', 'MN'))).toBeUndefined();
  });

  it('may have worked there before the last signature, or at the other place', () => {
    const b = ready();
    b.do(signAt('a', 'MN')).answer('last', 'a', { still: 'yes' });
    expect(b.try(signAt('a', 'AP', 'last'))).toBeUndefined();
  });

  it('other than the mentor named is taken, and the sheet says so', () => {
    const b = ready();
    b.do(signAt('a', 'XY'));
    const sheet = sheetOf(b.state);
    expect(sheet.signatures[0]).toMatchObject({ initials: 'XY', insteadOf: 'MN', stands: true });
    for (const text of [toMarkdown(sheet), toHtml(sheet)]) expect(text).toContain('ANOTHER MENTOR than MN');
    expect(sheetOf(ready().do(signAt('a', 'm.n')).state).signatures[0]).not.toHaveProperty('insteadOf');
  });

  it('can refuse: what is not right stands on record, and the step stays open until it is signed', () => {
    const b = ready();
    const refuse = { do: 'refuse', step: 'check', place: 'a', reason: 'the lip is folded', initials: 'MN' } as const;
    expect(b.try({ ...refuse, initials: 'AP' })).toMatch(/did the work; another person, the mentor, refuses/);
    expect(b.try({ ...refuse, reason: ' ' })).toMatch(/what is not right yet/);
    expect(b.try({ ...refuse, step: 'last' })).toBeDefined();
    b.do(refuse);
    expect(b.entries.at(-1)).toMatchObject({ kind: 'refuse', initials: 'MN', reason: 'the lip is folded' });
    expect(b.state.view('check', 'a')).toMatchObject({ wants: 'sign', status: 'open' });
    expect(b.state.ledger.steps.get('check@a')?.refusals).toHaveLength(1);
    // It is no step: an undo takes back what was recorded before it, and the refusal stays.
    b.do({ do: 'undo' });
    expect(b.state.ledger.steps.get('check@a')?.refusals).toHaveLength(1);
    expect(b.state.view('check', 'a')?.wants).toBe('question');
    b.answer('check', 'a', { fine: 'yes' }).do(signAt('a', 'MN'));
    expect(b.state.view('check', 'a')?.status).toBe('done');
    const sheet = sheetOf(b.state);
    expect(sheet.refusals).toMatchObject([{ title: 'Check', initials: 'MN', reason: 'the lip is folded' }]);
    for (const text of [toMarkdown(sheet), toHtml(sheet)]) {
      expect(text).toContain('NOT SIGNED by MN');
      expect(text).toContain('A SIGNATURE WAS REFUSED by MN');
    }
  });

  it('whose signature was put into a journal against these rules counts for nothing', () => {
    const b = ready();
    const sign = { kind: 'sign', step: 'check', place: 'a', by: 'ZZ', initials: 'AP' } as const;
    for (const forged of [
      { ...sign, role: 'mentor' },
      { ...sign, role: 'mentor', initials: '\u041c\u039d' },
      { ...sign, role: 'self', initials: 'MN' },
    ] as const) {
      const entries = [...b.entries, { ...forged, seq: b.entries.length + 1, at: b.entries.at(-1)!.at } as Entry];
      const state = new State(held, entries, b.now);
      expect(state.view('check', 'a')?.wants).toBe('sign');
      expect(toMarkdown(sheetOf(state))).toContain('does not count');
    }
  });
});

describe('the head of a file of readings', () => {
  const head = { replay: 1, name: 'x', procedure: 'held', by: 'AP', steps: [] } as unknown as ReplayFile;
  it('is refused with initials that are none, or with a mentor who does the work', () => {
    expect(headTrouble(head)).toBeUndefined();
    expect(headTrouble({ ...head, by: 'A\u001b[31m' })).toMatchObject({ key: 'by' });
    expect(headTrouble({ ...head, apprentice: 'A'.repeat(5000) })).toMatchObject({ key: 'apprentice' });
    expect(headTrouble({ ...head, mentor: '\u0391\u03a1' })).toMatchObject({ key: 'mentor' });
    expect(headTrouble({ ...head, mentor: 'A.P' })).toMatchObject({ key: 'mentor' });
    expect(headTrouble({ ...head, by: 'MN', apprentice: 'AP', mentor: 'MN' })).toBeUndefined();
  });
  it('is refused with a start that no entry can hold', () => {
    expect(headTrouble({ ...head, start: '+275760-09-12T23:59:59Z' })).toMatchObject({ key: 'start' });
    expect(headTrouble({ ...head, start: 'soon' })).toMatchObject({ key: 'start' });
  });
});
