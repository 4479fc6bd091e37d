/** The text of a job file: each way in which it can be whole, cut, altered, newer or old. Written out by hand. */
import { mkdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { placesIn } from '../../src/store/data-folder.js';
import { isSummary, jobText, newContent, readJobText, sumOf, withEntries } from '../../src/store/job-file.js';
import { clockNotice, lockedBy } from '../../src/store/job-handle.js';
import { damagedName, largestFile, lookUpJob } from '../../src/store/recover-job.js';
import { newFolder } from './sample-job.js';

const id = 'bench-abcdefgh';
const at = (seq: number): string => `2031-05-04T09:30:0${seq}.000Z`;
const first = {
  kind: 'job',
  by: 'AB',
  name: 'Bench',
  procedure: 'p',
  version: '1',
  hash: 'h',
  seq: 1,
  at: at(1),
} as Entry;
const note = (seq: number, text = 'x'): Entry =>
  ({ kind: 'note', by: 'AB', place: 'a', text, seq, at: at(seq) }) as Entry;
const job = newContent(id, 'Bench', [first, note(2), note(3)], { phase: 'open' });
const whole = jobText(job);
const [head = '', one = '', two = '', three = ''] = whole.split('\n');
const read = (text: string) => readJobText(text, id);
const file = (...lines: string[]): string => `${lines.join('\n')}\n]}\n`;
/** The head with something changed, its own sum worked out anew. */
const headWith = (more: object): string => {
  const parsed = { ...JSON.parse(`${head}]}`), ...more };
  const check = sumOf(JSON.stringify([1, parsed.id, parsed.name, parsed.summary, parsed.count, parsed.end]));
  const { entries: _none, ...rest } = { ...parsed, check, ...('check' in more ? more : {}) };
  return `${JSON.stringify(rest).slice(0, -1)},"entries":[`;
};

describe('a job file', () => {
  it('is JSON, one entry a line, and reads as it was written', () => {
    expect(JSON.parse(whole)).toMatchObject({ format: 1, id, name: 'Bench', count: 3, entries: { length: 3 } });
    expect(whole.split('\n')).toHaveLength(6);
    expect(read(whole)).toEqual({ kind: 'good', content: job });
    expect(read(whole.replaceAll('\n', '\r\n'))).toEqual({ kind: 'good', content: job });
    expect(read(file(headWith({}), one, two, three))).toEqual({ kind: 'good', content: job });
  });
  it('goes on where it was, with its summary or a new one', () => {
    const more = withEntries(job, [note(4)]);
    expect([more.summary, more.entries.length, more.lines.length]).toEqual([{ phase: 'open' }, 4, 4]);
    expect(more.lines.slice(0, 3)).toEqual(job.lines);
    expect(more).toEqual(newContent(id, 'Bench', [...job.entries, note(4)], { phase: 'open' }));
    expect(withEntries(job, [], { phase: 'done' }).summary).toEqual({ phase: 'done' });
    expect(newContent(id, 'Bench', [first]).summary).toEqual({});
  });
  // SHA-256 of the empty text begins e3b0c44298fc1c14 (FIPS 180-4 examples).
  it('P: FIPS 180-4: its sums are the first 64 bits of SHA-256', () => {
    expect(sumOf('')).toBe('e3b0c44298fc1c14');
    expect(sumOf('abc')).toBe('ba7816bf8f01cfea');
  });

  const damaged: [text: string, why: string, entries: number | undefined][] = [
    ['', 'the file is empty', undefined],
    ['\0\0\0', 'the file holds only zeros', undefined],
    ['\0x', 'line 2 (entry 1) is cut off', undefined],
    ['x\0', 'line 2 (entry 1) is cut off', undefined],
    [file(head), 'the file holds no entry', undefined],
    [file('null', one), 'its first line is garbled', 1],
    [file('x', one, two, three), 'its first line is garbled', 3],
    [[head, one, two].join('\n'), 'line 4 (entry 3) is cut off', 2],
    [[head, one, two.slice(0, 30)].join('\n'), 'line 3 (entry 2) is cut off or garbled', 1],
    [file(head, one, `x${two}`, three), 'line 3 (entry 2) is cut off or garbled', 1],
    [file(head, one, `${two}x`, three), 'line 3 (entry 2) is cut off or garbled', 1],
    [file(head, one, two.replace('"x"', '"y"'), three), 'line 3 (entry 2) does not match its check sum', 1],
    [file(head, one, three), 'line 3 (entry 2) does not match its check sum', 1],
    [file(head, one, two), 'it says 3 entries and holds 2', 2],
    [file(headWith({ count: 2 }), one, two, three), 'it says 2 entries and holds 3', 3],
    [file(headWith({ end: 'x' }), one, two, three), 'it says 3 entries and holds 3', 3],
    [file(headWith({ count: '3' }), one, two, three), 'its first line is garbled', 3],
    [file(headWith({ name: 5 }), one, two, three), 'its first line is garbled', 3],
    [file(headWith({ id: 5 }), one, two, three), 'its first line is garbled', 3],
    [file(headWith({ end: 5 }), one, two, three), 'its first line is garbled', 3],
    [file(headWith({ format: 0.5 }), one, two, three), 'its first line is garbled', 3],
    [file(headWith({ format: '2' }), one, two, three), 'its first line is garbled', 3],
    [file(headWith({ summary: [] }), one, two, three), 'its first line is garbled', 3],
    [file(headWith({ check: 'x' }), one, two, three), 'its first line is garbled', 3],
    [file(headWith({ id: 'other' }), one, two, three), 'its first line is garbled', 3],
  ];
  it.each(damaged.filter(([text]) => !text.includes('"id":"other"')))('%j: %s', (text, why, entries) => {
    const found = read(text);
    expect(found).toMatchObject({ kind: 'damaged', why });
    if (found.kind === 'damaged') expect(found.part?.entries.length).toBe(entries);
  });
  it('keeps the name and the summary of a good head, else the name in its first entry', () => {
    expect(read(file(head, one, two))).toMatchObject({ part: { name: 'Bench', summary: { phase: 'open' } } });
    expect(read(file('x', one))).toMatchObject({ part: { name: 'Bench', summary: {} } });
  });
  it('of a newer version is told apart from a damaged one', () => {
    expect(read(file(headWith({ format: 2 }), one))).toEqual({ kind: 'newer', what: 'format 2' });
    expect(read(file(headWith({ format: 1.5 }), one))).toEqual({ kind: 'newer', what: 'format 1.5' });
    expect(read('{"format":3}')).toEqual({ kind: 'newer', what: 'format 3' });
    expect(read('{"format":1}')).toMatchObject({ kind: 'damaged' });
    expect(read('null')).toMatchObject({ kind: 'damaged' });
    const kind = 'k'.repeat(50);
    const json = JSON.stringify({ ...note(2), kind });
    const end = sumOf(`${JSON.parse(`[${one.replace(/,$/, '')}]`)[0][0]}${json}`);
    expect(read(file(head, one, `["${end}",${json}]`))).toEqual({
      kind: 'newer',
      what: `an entry of kind '${'k'.repeat(40)}'`,
    });
    const wrong = JSON.stringify({ ...note(2), place: '' });
    const sum = sumOf(`${JSON.parse(`[${one.replace(/,$/, '')}]`)[0][0]}${wrong}`);
    expect(read(file(head, one, `["${sum}",${wrong}]`))).toMatchObject({
      kind: 'damaged',
      why: 'line 3 (entry 2) is wrong (note, place: expected a text of 1 to 300 characters)',
    });
  });
  it('has a summary that is small, flat and plain', () => {
    for (const yes of [{}, { a: 1, b: 'x', c: true }, { a: 'x'.repeat(3992) }]) expect(isSummary(yes)).toBe(true);
    for (const no of [
      null,
      [],
      'x',
      5,
      { a: null },
      { a: {} },
      { a: Number.NaN },
      { a: 1, b: [] },
      { a: 'x'.repeat(3993) },
    ])
      expect(isSummary(no), JSON.stringify(no)?.slice(0, 40)).toBe(false);
  });
});

describe('what can be had back', () => {
  const made = () => {
    const places = placesIn(newFolder());
    for (const folder of [places.jobs, places.previous]) mkdirSync(folder, { recursive: true });
    return {
      places,
      own: (text: string) => writeFileSync(join(places.jobs, `${id}.json`), text),
      previous: (text: string) => writeFileSync(join(places.previous, `${id}.json`), text),
      tmp: (text: string, name = 'tmp-1') => writeFileSync(join(places.jobs, `${id}.json.${name}`), text),
    };
  };
  const two_ = jobText(newContent(id, 'Bench', [first, note(2)]));
  const garbled = file('x', one, two);
  it('nothing, a good one, a newer one', () => {
    const { places, own } = made();
    expect(lookUpJob(places, id)).toEqual({ kind: 'none' });
    own(whole);
    expect(lookUpJob(places, id)).toMatchObject({ kind: 'good' });
    own('{"format":3}');
    expect(lookUpJob(places, id)).toMatchObject({ kind: 'newer' });
    own('x');
    expect(lookUpJob(places, id)).toEqual({ kind: 'damaged', why: 'line 2 (entry 1) is cut off' });
  });
  it('the most complete: the previous save, the good part, a save cut short; of equals the first', () => {
    const { places, own, previous, tmp } = made();
    const offer = () => {
      const found = lookUpJob(places, id);
      return found.kind === 'damaged' ? found.salvage?.offer : undefined;
    };
    own(garbled);
    expect(offer()).toEqual({ entries: 2, from: 'good part', last: at(2) });
    previous(two_);
    expect(offer()).toEqual({ entries: 2, from: 'previous save', last: at(2) });
    tmp(whole, 'other-1');
    expect(offer()?.from).toBe('previous save');
    tmp(whole.slice(0, -3));
    expect(offer()?.from).toBe('previous save');
    tmp(whole);
    expect(offer()).toEqual({ entries: 3, from: 'unfinished save', last: at(3) });
    previous(garbled);
    own('x');
    tmp('x');
    expect(offer()).toEqual({
      entries: 2,
      from: 'previous save',
      last: at(2),
      missing: 'whatever was recorded after that',
    });
  });
  it('of a job whose file is missing', () => {
    const { places, previous } = made();
    previous(whole);
    expect(lookUpJob(places, id)).toMatchObject({ kind: 'damaged', why: 'its file is missing' });
    rmSync(places.jobs, { recursive: true });
    expect(lookUpJob(places, id)).toEqual({ kind: 'none' });
  });
  it('a file of more than 64 MB is not read, one that is no file neither', () => {
    const { places, own } = made();
    expect(largestFile).toBe(67_108_864);
    own(whole);
    truncateSync(join(places.jobs, `${id}.json`), 67_108_865);
    expect(lookUpJob(places, id)).toEqual({ kind: 'damaged', why: 'it is larger than 64 MB' });
    rmSync(join(places.jobs, `${id}.json`));
    mkdirSync(join(places.jobs, `${id}.json`));
    expect(lookUpJob(places, id)).toEqual({ kind: 'damaged', why: 'it is no ordinary file' });
  });
  it('a damaged file is set aside under a name that is free', () => {
    const { places } = made();
    const name = damagedName(places, id, at(1));
    expect(name).toBe(join(places.damaged, `${id}-20310504093001-1.json`));
    writeFileSync(name, 'x');
    expect(damagedName(places, id, at(1))).toBe(join(places.damaged, `${id}-20310504093001-2.json`));
    expect(readFileSync(name, 'utf8')).toBe('x');
  });
});

describe('what is said', () => {
  it('of a clock that was set back by more than a minute', () => {
    const last = '2031-05-04T09:30:00.000Z';
    expect(clockNotice(undefined, new Date(last))).toBeUndefined();
    expect(clockNotice(last, new Date('2031-05-04T09:29:00.000Z'))).toBeUndefined();
    expect(clockNotice(last, new Date('2031-05-04T09:28:59.999Z'))).toMatch(
      /^The clock of this computer was set back: it says 2031-05-0[345] \d\d:\d\d, but the entry before was made at 2031-05-0[345] \d\d:[30]0\. Set the clock right/,
    );
    expect(clockNotice(last, new Date('2031-05-04T09:31:00.000Z'))).toBeUndefined();
  });
  it('of somebody else who writes', () => {
    expect(lockedBy('process 5')).toMatch(/open in another window \(process 5\).*10 seconds\.$/);
  });
});
