/** Drawings from numbers: in their room, in proportion, harmless whatever they are given. */
import fc from 'fast-check';
import { JSDOM } from 'jsdom';
import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import { bearingShape, partAt } from '../../src/drawing/bearing-shape.js';
import { type PictureName, type PictureValues, pictureReads } from '../../src/drawing/picture.js';
import { at, runInShape } from '../../src/drawing/run-in-shape.js';
import { svgDrawing } from '../../src/drawing/svg-drawing.js';
import { syringeShape } from '../../src/drawing/syringe-shape.js';
import { textDrawing } from '../../src/drawing/text-drawing.js';
import { anyCharacter } from '../setup/any-character.js';
import { size } from '../setup/size.js';

const names = Object.keys(pictureReads) as PictureName[];
const good: Readonly<Record<PictureName, PictureValues>> = {
  syringe: { bore: 14.5, marks: [6.056, 12.112], labels: ['Drive end', 'Non-drive end'], capacity: 5 },
  // ISO 15 boundary dimensions of size 6205.
  'bearing-section': { bore: 25, outside: 52, width: 15, ball_size: 7.94, balls: 9, share: 30, seals: 'both' },
  'cage-side': { balls: 9, side: 'front' },
  probes: { leads: 'beep', ring: 'beep', balls: ['open', 'open', 'beep'] },
  'run-in-curve': {
    minutes: [0, 10, 20, 30],
    temp: [22, 28, 35, 34],
    temp_2: [22, 25, 30, 30],
    name: 'Drive end',
    name_2: 'Non-drive end',
    stages: [1, 1, 2, 3],
    limit: 60,
  },
  'life-curve': {
    days: [0, 400, 800],
    level: [20, 21, 29],
    days_2: [0, 400],
    level_2: [19, 18],
    name: 'Drive end',
    name_2: 'Non-drive end',
    unit: 'K',
    event_days: [0, 400, 800],
    event_marks: ['R', 'L', 'L'],
    from: '2 Mar 2026',
    to: '1 Apr 2028',
  },
};

const anything = fc.oneof(
  fc.constant(undefined),
  fc.double(),
  fc.integer(),
  fc.string({ unit: anyCharacter, maxLength: 20 }),
  fc.constantFrom('\u001b[2J\u0007', '驱动端驱动端驱动端驱动端驱动端', '👩‍🔧👩‍🔧', 'Lüfterseite'),
  fc.boolean(),
  fc.array(fc.double(), { maxLength: 30 }),
  fc.array(fc.oneof(fc.string({ maxLength: 10 }), fc.constantFrom('\u001b[31m', '端端端')), { maxLength: 30 }),
);
const someValues = (picture: PictureName): fc.Arbitrary<PictureValues> =>
  fc.record(Object.fromEntries(Object.keys(pictureReads[picture]).map((k) => [k, anything])), { requiredKeys: [] });

test('words are folded, not cut, where there is less width', () => {
  const whole = textDrawing('probes', good.probes, { width: 100, height: 40, ascii: false });
  const flat = (lines: readonly string[]): string => lines.join(' ').replace(/\s+/g, ' ');
  for (const width of [66, 52, 44, 34, 28])
    expect(flat(textDrawing('probes', good.probes, { width, height: 60, ascii: false })), `${width}`).toBe(flat(whole));
});

describe.each(names)('%s', (picture) => {
  test('keeps to its room and to ASCII where that is asked', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.constant(good[picture]), someValues(picture)),
        fc.integer({ min: 0, max: 140 }),
        fc.integer({ min: 0, max: 50 }),
        (values, width, height) => {
          const lines = textDrawing(picture, values, { width, height, ascii: false });
          expect(lines.length).toBeLessThanOrEqual(height);
          for (const l of lines) {
            expect(stringWidth(l)).toBeLessThanOrEqual(width);
            expect(l).not.toMatch(/[\u0000-\u001f\u007f-\u009f]/);
          }
        },
      ),
      { numRuns: size(30, 2_000) },
    );
    const named = { ...good[picture], name: 'Lüfterseite', labels: ['端', 'x'] };
    const plain = textDrawing(picture, named, { width: 80, height: 24, ascii: true });
    expect(plain.join('')).toMatch(/^[\x20-\x7e]+$/);
    expect(plain.length).toBeGreaterThan(3);
  });

  test('is well-formed SVG with a description, whatever it is given', () => {
    fc.assert(
      fc.property(fc.oneof(fc.constant(good[picture]), someValues(picture)), (values) => {
        const drawn = svgDrawing(picture, values);
        expect(drawn).not.toMatch(/NaN|Infinity|undefined/);
        const { document } = new JSDOM(drawn, { contentType: 'image/svg+xml' }).window;
        expect(document.querySelector('svg')?.getAttribute('role')).toBe('img');
        expect(document.querySelector('title')?.textContent?.length).toBeGreaterThan(10);
        expect(document.querySelectorAll('script').length).toBe(0);
        for (const e of Array.from(document.querySelectorAll('rect')))
          expect(Number(e.getAttribute('width'))).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: size(10, 500) },
    );
  });
});

test('an unknown drawing is left out', () => {
  expect(textDrawing('house', {}, { width: 80, height: 20, ascii: true })).toEqual([]);
  expect(svgDrawing('house', {})).toBe('');
  expect(svgDrawing('toString', {})).toBe('');
});

describe('the bearing', () => {
  test('grease covers the share of the free area of the section', () => {
    for (const share of [15, 30, 67, 90]) {
      const s = bearingShape({ ...good['bearing-section'], share });
      let [free, grease] = [0, 0];
      for (let i = 0; i < 300; i++)
        for (let j = 0; j < 300; j++) {
          const p = partAt(s, ((i + 0.5) / 300 - 0.5) * s.width, ((j + 0.5) / 300) * s.height);
          if (p === 'free') free++;
          if (p === 'grease') grease++;
        }
      expect(Math.abs((100 * grease) / (free + grease) - share)).toBeLessThan(2);
    }
  });
  test('grease at the inner raceway alone lies below the middle of the balls and covers its share', () => {
    for (const share of [7.5, 15]) {
      const s = bearingShape({ ...good['bearing-section'], seals: 'none', share, raceway: 'inner' });
      let [free, grease] = [0, 0];
      for (let i = 0; i < 300; i++)
        for (let j = 0; j < 300; j++) {
          const y = ((j + 0.5) / 300) * s.height;
          const p = partAt(s, ((i + 0.5) / 300 - 0.5) * s.width, y);
          if (p === 'free') free++;
          if (p === 'grease') grease++;
          if (p === 'grease') expect(y).toBeLessThan(s.height / 2);
        }
      expect(Math.abs((100 * grease) / (free + grease) - share)).toBeLessThan(2);
    }
  });
  test('is drawn true: the ball is as wide as it measures', () => {
    const s = bearingShape(good['bearing-section']);
    expect(s.height).toBe(13.5);
    expect(partAt(s, 3.96, s.height / 2)).toBe('ball');
    expect(partAt(s, 3.98, s.height / 2)).not.toBe('ball');
    expect(s.assumed).toBe(false);
    expect(bearingShape({}).assumed).toBe(true);
    expect(s.odd).toBe(false);
    // 6205: D - d = 27 mm; half a ball of 7.9 mm is no ball of it. Arithmetic.
    const half = { bore: 25, outside: 52, width: 15, ball_size: 3.95 };
    expect(bearingShape(half).odd).toBe(true);
    expect(textDrawing('bearing-section', half, { width: 72, height: 20, ascii: true }).join()).not.toContain('true');
  });
  test('has as many gaps as balls', () => {
    const { document } = new JSDOM(svgDrawing('bearing-section', good['bearing-section'])).window;
    const fills = Array.from(document.querySelectorAll('circle')).map((c) => c.getAttribute('fill'));
    // One ball in the section, nine round the pitch circle; one grease film in the section, nine beads.
    expect(fills.filter((f) => f === '#f4f1e6')).toHaveLength(10);
    expect(fills.filter((f) => f === '#e0a83c')).toHaveLength(10);
  });
});

describe('the syringe', () => {
  test('marks lie in proportion', () => {
    const { document } = new JSDOM(svgDrawing('syringe', { marks: [10, 20, 40] })).window;
    const x = Array.from(document.querySelectorAll('line[stroke="#b00020"]')).map((l) => Number(l.getAttribute('x1')));
    const [a = 0, b = 0, c = 0] = x;
    expect((c - b) / (b - a)).toBeCloseTo(2, 2);
  });
  test('the barrel is as long as its volume over its bore', () => {
    // 10 mL at bore 14.5 mm: 60.56 mm (arithmetic, 6.056 mm for each mL); a mark at 60 leaves 0.56 mm at most.
    const s = syringeShape({ bore: 14.5, capacity: 10, marks: [50] });
    expect(s.before + s.length).toBeCloseTo(60.56, 2);
  });
  test('says when marks are not known', () => {
    expect(textDrawing('syringe', {}, { width: 60, height: 12, ascii: true }).join('\n')).toContain(
      'marks not known yet',
    );
  });
});

describe('the run-in curve', () => {
  test('passes through the readings', () => {
    const s = runInShape(good['run-in-curve'])!;
    expect(s.curves.map((c) => at(c, 10))).toEqual([28, 25]);
    expect(at(s.curves[0]!, 15)).toBe(31.5);
    expect(s.stages).toEqual([
      { at: 0, stage: 1 },
      { at: 20, stage: 2 },
      { at: 30, stage: 3 },
    ]);
  });
  test('its text chart peaks where the readings do', () => {
    const lines = textDrawing(
      'run-in-curve',
      { minutes: [0, 10, 20], temp: [20, 50, 20] },
      { width: 67, height: 20, ascii: true },
    );
    const chart = lines.slice(1, -1).map((l) => l.slice(6));
    const top = chart.findIndex((l) => l.trim());
    const middle = (chart[top]!.search(/\S/) + chart[top]!.trimEnd().length) / 2;
    expect(middle).toBeGreaterThan(25);
    expect(middle).toBeLessThan(36);
  });
  test('leaves out readings that no bearing has, instead of scaling to them', () => {
    const wild = { minutes: [0, 10, 20, 1e300], temp: [20, 1e300, 40, 30], limit: -1e300 };
    const s = runInShape(wild)!;
    expect(s.curves[0]?.points).toEqual([
      { x: 0, y: 20 },
      { x: 20, y: 40 },
    ]);
    expect([s.low, s.high, s.end, s.limit]).toEqual([20, 50, 20, undefined]);
    expect(svgDrawing('run-in-curve', wild).length).toBeLessThan(5000);
    expect(textDrawing('run-in-curve', wild, { width: 80, height: 20, ascii: true }).length).toBeGreaterThan(5);
  });
  test('says so while there is no reading', () => {
    expect(textDrawing('run-in-curve', {}, { width: 60, height: 12, ascii: true })).toEqual(['no reading yet']);
  });
});

describe('the probes', () => {
  test('tell each ball in words, not by colour alone', () => {
    const text = textDrawing('probes', good.probes, { width: 80, height: 20, ascii: true }).join('\n');
    expect(text).toContain('1 silent   2 silent   3 beeps');
    expect(svgDrawing('probes', good.probes)).toContain('Balls: 1 silent, 2 silent, 3 beeps');
  });
  test('that ring to ring proves nothing is drawn with the ball test', () => {
    expect(svgDrawing('probes', { show: 'balls' })).toContain('ring to ring proves nothing');
    expect(svgDrawing('probes', { show: 'leads' })).not.toContain('ring to ring');
  });
});

test('the cage is drawn with its closed side where it was noted', () => {
  const drawn = (side: string | undefined) =>
    textDrawing('cage-side', { balls: 9, side }, { width: 76, height: 14, ascii: true }).join('\n');
  expect(drawn('front')).toMatch(/rotor .*pockets open here[\s\S]*front .*closed side/);
  expect(drawn('back')).toMatch(/rotor .*closed side[\s\S]*front .*pockets open here/);
  expect(drawn('whole')).not.toContain('closed');
  expect(drawn('whole')).toContain('Both sides of the cage are alike');
  expect(drawn(undefined)).toContain('Closed side of the cage: not answered yet.');
  expect(drawn(undefined)).not.toMatch(/alike|pockets open|[|=]/);
  // 360 / 9 = 40.
  expect(drawn('front')).toContain('9 balls, 40 deg from ball to ball');
  expect(svgDrawing('cage-side', { balls: 9, side: 'back' })).toContain('closed side towards the rotor');
});

test('no ball of the cage is drawn before they were counted', () => {
  const text = textDrawing('cage-side', {}, { width: 76, height: 14, ascii: true });
  expect(text.join('\n')).toContain('Number of balls: not counted yet.');
  expect(text.filter((l) => / O /.test(l))).toEqual([]);
  expect(svgDrawing('cage-side', {})).not.toContain('<circle');
  expect(svgDrawing('cage-side', { balls: 9 }).match(/<circle/g)).toHaveLength(9);
});
