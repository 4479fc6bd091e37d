/** Decision tables: why the grease failed, and what a look at a running bearing comes to (common practice, CP). */
import { describe, expect, it } from 'vitest';
import { calc, refusal, tables, value, word } from './support.js';

const list = (line: string, key: string): string[] => calc(line).results[key]?.value as unknown as string[];

describe('why the grease failed', () => {
  it.each([
    ['coolant,milky,rust', 'leak', 'clear'],
    ['hard-dry,burnt,dark', 'age-heat', 'clear'],
    ['fluting,inverter', 'current', 'clear'],
    ['overfull,grease-outside', 'overfill', 'clear'],
    ['two-colours,soft', 'mixed-grease', 'clear'],
    ['dust,grains', 'dirt', 'clear'],
    ['glitter,raceway-marks', 'wear', 'clear'],
    ['coolant,dust', 'leak', 'one of several'],
    ['dark', 'unknown', 'unknown'],
    ['none', 'unknown', 'unknown'],
  ])('%s: %s, %s', (findings, first, certain) => {
    const line = `cause findings=${findings}`;
    expect([word(line, 'first'), word(line, 'certain')]).toEqual([first, certain]);
  });
  it('names what speaks for and against each, and what cures and proves it', () => {
    const line = 'cause findings=fluting,burnt,dark,ceramic-balls,long-service';
    expect(list(line, 'pro').join('\n')).toMatch(/Age and heat: .*burnt.*Bearing current: .*washboard/s);
    expect(list(line, 'contra').join('\n')).toMatch(/Bearing current: ceramic balls do not conduct/);
    expect(word('cause findings=coolant,milky', 'cure')).toMatch(/renew the shaft seal/);
    expect(word('cause findings=dark', 'cure')).toMatch(/^Look further/);
  });
  it('says so where nothing speaks for or against any', () => {
    expect(list('cause findings=none', 'pro')).toEqual(['nothing found']);
    expect(list('cause findings=none', 'contra')).toEqual(['nothing found']);
  });
  it('water inside counts by itself', () => {
    for (const f of ['coolant', 'water', 'milky']) expect(word(`cause findings=${f}`, 'wet')).toBe('yes');
    expect(word('cause findings=rust', 'wet')).toBe('no');
    expect(calc('cause findings=coolant').warnings.join()).toMatch(/insulation of the winding/);
  });
  it('every sign names a cause of the table, and every cause has a cure and signs both ways', () => {
    const ids = tables.causes!.rows.map((r) => r.id);
    for (const sign of tables['cause-signs']!.rows) expect(ids).toContain(sign.cause);
    for (const id of ids) {
      const counts = tables['cause-signs']!.rows.filter((r) => r.cause === id).map((r) => Number(r.counts));
      expect(Math.max(...counts)).toBeGreaterThanOrEqual(2);
      expect(Math.min(...counts)).toBeLessThan(0);
    }
  });
});

describe('a look at a running bearing', () => {
  const like = 'speed=12000 baseSpeed=12000 load=60 baseLoad=60';
  const quiet = 'sound=smooth trip=no';
  const at = (temp: number, more = '') =>
    `inspection-verdict temp=${temp} room=22 baseTemp=45 baseRoom=20 ${like} ${quiet} ${more}`.trim();
  // By hand: base 45 - 20 = 25 K above the room; 51.9 - 22 = 29.9 is 4.9 K more, 52 is 5, 61.9 is 14.9, 62 is 15.
  it.each([
    [47, 'run on'],
    [51.9, 'run on'],
    [52, 'watch'],
    [61.9, 'watch'],
    [62, 'open'],
  ])('rise against its own base: %s C: %s', (temp, verdict) => expect(word(at(temp), 'verdict')).toBe(verdict));
  it('a healthy bearing at its declared warmth under load runs on, however cool the run-in was', () => {
    expect(word(at(47), 'why')).toBe('nothing was found');
  });
  it('other speeds and loads are not comparable, and not known is watch', () => {
    const slow = at(43).replace('speed=12000 base', 'speed=3000 base');
    expect([word(slow, 'comparable'), word(slow, 'verdict')]).toEqual(['no', 'watch']);
    expect(calc(slow).warnings.join()).toMatch(/not comparable: it turns at 3000 rpm and did at 12000/);
    expect(word(at(43).replace('load=60 base', 'load=40 base'), 'comparable')).toBe('no');
    expect(word(at(43).replace('load=60 base', 'load=48 base'), 'comparable')).toBe('yes');
    expect(word(at(43).replace(' load=60 baseLoad=60', ''), 'comparable')).toBe('not known');
    expect(word(at(43).replace(' load=60 baseLoad=60', ''), 'verdict')).toBe('watch');
  });
  it.each([
    ['twinTemp=47 twinBase=45', 'run on'],
    ['twinTemp=39 twinBase=45', 'watch'],
    ['twinTemp=32 twinBase=45', 'open'],
    ['level=1.9 baseLevel=1', 'run on'],
    ['level=2 baseLevel=1', 'watch'],
    ['level=4 baseLevel=1', 'open'],
    ['lost=0.15 dose=1.6', 'run on'],
    ['lost=0.16 dose=1.6', 'watch'],
    ['lost=0.54 dose=1.6', 'open'],
    ['inGrease=nothing', 'run on'],
    ['inGrease=grains', 'open'],
    ['inGrease=water', 'open'],
    ['inGrease=oil-running', 'open'],
    ['hours=1000 due=500', 'run on'],
    ['hours=1001 due=500', 'watch'],
  ])('%s: %s', (more, verdict) => expect(word(at(47, more), 'verdict')).toBe(verdict));
  it('a trip that nobody explained opens it, an explained one is watched', () => {
    expect(word(at(47).replace('trip=no', 'trip=not-explained'), 'verdict')).toBe('open');
    expect(word(at(47).replace('trip=no', 'trip=explained'), 'verdict')).toBe('watch');
    expect(word(at(47).replace(' trip=no', ''), 'verdict')).toBe('watch');
  });
  it('a tick opens it, a hiss is watched, and what nobody listened to is not known', () => {
    expect(word(at(47).replace('smooth', 'tick'), 'verdict')).toBe('open');
    expect(word(at(47).replace('smooth', 'hiss'), 'verdict')).toBe('watch');
    expect(word(at(47).replace('smooth', 'not-heard'), 'verdict')).toBe('watch');
  });
  it('a ring colder than the room is a sensor that is off', () => {
    expect(word(at(20), 'verdict')).toBe('watch');
    expect(list(at(20), 'why').join()).toMatch(/sensor is off/);
    expect(calc(at(20)).results.rise).toBeUndefined();
  });
  it('marks its own rules as such', () => {
    expect(calc(at(47, 'level=2 baseLevel=1')).warnings.join()).toMatch(/this guide's own rule/);
    expect(calc(at(47)).warnings).toEqual([]);
    expect(refusal(at(47, 'inGrease=nothing,water'))).toMatch(/^inGrease: /);
    expect(value(at(47, 'lost=0.16 dose=1.6'), 'lostShare')).toBeCloseTo(10, 9);
  });
});
