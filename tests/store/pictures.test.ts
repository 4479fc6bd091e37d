/** Pictures that people name: kept by their hash, made small, upright and without the camera's words; hostile ones refused. */
import { createHash, randomBytes } from 'node:crypto';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { deflateSync } from 'node:zlib';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { pathIn } from '../../src/files/picture-file.js';
import { carryPictures, keepPicture, pictureFolder, shownPicture } from '../../src/store/pictures.js';

const root = mkdtempSync(join(tmpdir(), 'pictures-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));
const at = (name: string): string => join(root, name);
const JOB = 'rotor-abcd2345';

/** A wide picture, its left half red, that the camera says is to be turned (EXIF orientation 6), with a place in it. */
const turned = (height: number): Promise<Buffer> =>
  sharp({ create: { width: 2 * height, height, channels: 3, background: '#0000ff' } })
    .composite([{ input: { create: { width: height, height, channels: 3, background: '#ff0000' } }, left: 0, top: 0 }])
    .withExif({ IFD0: { Make: 'SECRETCAMERA' }, IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '51/1 30/1 0/1' } })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();

let good: Buffer;
beforeAll(async () => {
  good = await turned(800);
  writeFileSync(at('it is good.jpg'), good);
});

describe('a picture that is taken', () => {
  test('is copied whole under its hash, and the original is not touched', async () => {
    const kept = await keepPicture(root, JOB, at('it is good.jpg'));
    const sha = createHash('sha256').update(good).digest('hex');
    expect(kept).toEqual({ file: `${sha}.jpg`, sha256: sha, bytes: good.length, name: 'it is good.jpg' });
    expect(readFileSync(join(pictureFolder(root, JOB), `${sha}.jpg`)).equals(good)).toBe(true);
    expect(readFileSync(at('it is good.jpg')).equals(good)).toBe(true);
    // The same picture once more is no second file.
    await keepPicture(root, JOB, at('it is good.jpg'));
    expect(readdirSync(pictureFolder(root, JOB))).toHaveLength(2);
  });
  test('is shown small, upright, and without what the camera wrote', async () => {
    const sha = createHash('sha256').update(good).digest('hex');
    const uri = shownPicture(root, JOB, `${sha}.jpg`) ?? '';
    expect(uri).toMatch(/^data:image\/jpeg;base64,[A-Za-z0-9+/=]+$/);
    const small = Buffer.from(uri.split(',')[1] ?? '', 'base64');
    const meta = await sharp(small).metadata();
    expect([meta.width, meta.height]).toEqual([500, 1000]);
    expect(meta.exif).toBeUndefined();
    expect(meta.orientation).toBeUndefined();
    expect(small.includes('SECRETCAMERA')).toBe(false);
    // Turned to the right: what was left is now above.
    const { data } = await sharp(small).raw().toBuffer({ resolveWithObject: true });
    expect([...data.subarray(0, 3)].map((v) => v > 128)).toEqual([true, false, false]);
    expect([...data.subarray(-3)].map((v) => v > 128)).toEqual([false, false, true]);
  });
  test.each([
    ['bare', (p: string) => p],
    ['in single quotes, as terminals drop it', (p: string) => `'${p}' `],
    ['in double quotes', (p: string) => `"${p}"`],
    ['with its blanks escaped', (p: string) => p.replaceAll(' ', '\\ ')],
    ['as an address', (p: string) => `file://${p.replaceAll(' ', '%20')}`],
  ])('may be named %s', (_, form) => {
    expect(pathIn(form(at('it is good.jpg')))).toBe(at('it is good.jpg'));
  });
  test('goes to another folder whole, and one that was altered does not', async () => {
    const file = readdirSync(pictureFolder(root, JOB)).find((f) => !f.includes('small')) ?? '';
    expect(await carryPictures(pictureFolder(root, JOB), at('there'), [file])).toEqual({ carried: 1, lost: 0 });
    expect(readdirSync(at('there'))).toHaveLength(2);
    writeFileSync(at('altered'), '');
    mkdirSync(at('bad'));
    writeFileSync(join(at('bad'), file), Buffer.concat([good, Buffer.from('x')]));
    expect(await carryPictures(at('bad'), at('there2'), [file, '../../etc/passwd', 'x.jpg'])).toEqual({
      carried: 0,
      lost: 3,
    });
  });
  test('nothing but the store’s own names is ever shown', () => {
    for (const name of ['../../x', '/etc/passwd', `${'a'.repeat(64)}.svg`, '', `${'0'.repeat(64)}.jpg`])
      expect(shownPicture(root, JOB, name)).toBeUndefined();
  });
});

/** A PNG whose head promises far more pixels than it holds bytes. */
function bomb(width: number, height: number): Buffer {
  const crcTable = Array.from({ length: 256 }, (_, n) => {
    let c = n;
    for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
    return c >>> 0;
  });
  const crc = (b: Buffer): number => {
    let c = 0xffffffff;
    for (const x of b) c = (crcTable[(c ^ x) & 0xff] ?? 0) ^ (c >>> 8);
    return (c ^ 0xffffffff) >>> 0;
  };
  const chunk = (type: string, data: Buffer): Buffer => {
    const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
    const size = Buffer.alloc(4);
    size.writeUInt32BE(data.length);
    const sum = Buffer.alloc(4);
    sum.writeUInt32BE(crc(body));
    return Buffer.concat([size, body, sum]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 2, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(Buffer.alloc(100_000))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

test('two hundred odd files are one sentence each, or a picture; nothing is thrown and nothing else is written', async () => {
  const odd: string[] = [];
  // Small ones are spoilt in the same ways as large ones, and sooner read.
  const small = await turned(160);
  const add = (name: string, bytes: Uint8Array | string): void => {
    writeFileSync(at(name), bytes);
    odd.push(at(name));
  };
  // A fixed row of numbers instead of chance.
  let seed = 7;
  const next = (n: number): number => {
    seed = (seed * 1103515245 + 12345) % 2147483648;
    return seed % n;
  };
  for (let i = 0; i < 60; i++) {
    const spoilt = Buffer.from(small);
    for (let k = 0; k < 1 + next(40); k++) spoilt[next(spoilt.length)] = next(256);
    add(`spoilt${i}.jpg`, spoilt);
  }
  for (let i = 0; i < 60; i++) add(`cut${i}.jpg`, small.subarray(0, 3 + next(small.length - 3)));
  for (let i = 0; i < 30; i++) add(`noise${i}.jpg`, Buffer.concat([good.subarray(0, 4), randomBytes(1 + next(3000))]));
  for (const [i, text] of [
    '',
    ' ',
    'not a picture',
    '<svg xmlns="http://www.w3.org/2000/svg"/>',
    '%PDF-1.4',
    '\0',
  ].entries())
    add(`text${i}.jpg`, text);
  add('heic.jpg', Buffer.from('\0\0\0\x18ftypheic\0\0\0\0', 'latin1'));
  add('gif.jpg', 'GIF89a\x01\x00\x01\x00');
  for (const [w, h] of [
    [50_000, 50_000],
    [2_000_000_000, 1],
    [1, 2_000_000_000],
    [0, 0],
    [100_000, 2],
  ] as const)
    add(`bomb${w}x${h}.png`, bomb(w, h));
  add('large.jpg', good);
  truncateSync(at('large.jpg'), 100_000_000);
  add('\u001b]0;owned\u0007\u001b[31m.jpg', good);
  add('‮gpj.exe.jpg', good);
  add("quote's.jpg", good);
  symlinkSync('/dev/zero', at('zero.jpg'));
  symlinkSync(at('loop.jpg'), at('loop.jpg'));
  odd.push(at('zero.jpg'), at('loop.jpg'), root, '/dev/null', at('not there.jpg'), '', ' ', '\0', "'", '~', '..');
  odd.push('file://%zz', 'https://a.invalid/x.jpg', 'x'.repeat(5000), `/${'y'.repeat(3000)}`, '$(touch owned)', '`id`');
  while (odd.length < 210)
    add(`more${odd.length}.webp`, Buffer.concat([Buffer.from('RIFF....WEBP'), randomBytes(next(500))]));

  const ended = { taken: 0, refused: 0 };
  for (const path of odd) {
    const kept = await keepPicture(root, 'odd-abcd2345', path);
    if (typeof kept === 'string') {
      ended.refused += 1;
      expect(kept).toMatch(/^[A-Z][^\n]{20,200}\.$/);
      expect(kept).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e]/);
    } else {
      ended.taken += 1;
      expect(kept.file).toMatch(/^[0-9a-f]{64}\.(jpg|png|webp)$/);
    }
  }
  expect(ended.refused).toBeGreaterThan(100);
  for (const name of readdirSync(pictureFolder(root, 'odd-abcd2345')))
    expect(name).toMatch(/^[0-9a-f]{64}\.(jpg|png|webp|small\.jpg)$/);
}, 120_000);
