/**
 * What a look at a running bearing comes to: run on, watch, or open it, with every reason.
 * - Rise above the room against its own base at like speed and load: watch at 5 K, open at 15 K more. Where speed or load is below
 *   80 % or above 125 % of the base's, the rise is not comparable and counts as not known.
 * - Against the other bearing, beyond what it was then: 8 and 15 K. Level: 2 and 4 times. Grease lost: a tenth and a third of the
 *   dose. Grains or water in what came out: open. A trip that nobody explained: open. Run beyond twice the hours due: watch.
 * - What is not known is watch at best. A ring colder than the room is a sensor that is off, so its rise is not known.
 * Limits from the table look-rules; all but the first are this guide's own.
 */
import { type CheckedInputs, defineCalculator } from './define.js';
import { choiceInput, commonPractice, figure, oneOf, quantityInput, result, speed, word } from './spec.js';
import { findRow, numberIn, sourceOf, textIn } from './table.js';
import { CalcRefusal, type Measured, type RowSource, type Tables } from './types.js';
import { propagate } from './uncertainty.js';

type Verdict = 'run on' | 'watch' | 'open';
const order: readonly Verdict[] = ['run on', 'watch', 'open'];
interface Found {
  readonly verdict: Verdict;
  readonly why: string;
  readonly row?: string;
}

const temperature = (label: string) => quantityInput(label, 'temperature', 'degC', [-60, 300], true);
const level = (label: string) => quantityInput(label, 'ratio', '', [0, 1e6], true);

export const inspectionVerdict = defineCalculator({
  name: 'inspection-verdict',
  title: 'Run on, watch or open',
  inputs: {
    temp: temperature('Its temperature now'),
    room: temperature('Room now'),
    baseTemp: temperature('Its own temperature at the base'),
    baseRoom: temperature('Room at the base'),
    twinTemp: temperature('The other bearing now'),
    twinBase: temperature('The other bearing at the base'),
    speed: speed('Speed now', [1, 200_000], true),
    baseSpeed: speed('Speed at the base', [1, 200_000], true),
    load: quantityInput('Load now, share of full load', 'share', '%', [0, 200], true),
    baseLoad: quantityInput('Load at the base', 'share', '%', [0, 200], true),
    level: level('Level now, mm/s or what the meter shows'),
    baseLevel: level('Level at the base, the same meter and place'),
    lost: quantityInput('Grease that came out', 'mass', 'g', [0, 1000], true),
    dose: quantityInput('Dose that is in', 'mass', 'g', [0.01, 10_000], true),
    inGrease: {
      type: 'choices',
      label: 'In what came out',
      choices: ['nothing', 'grains', 'water', 'oil-running'],
      optional: true,
    },
    sound: choiceInput('Sound', ['smooth', 'hiss', 'tick', 'rumble', 'grinding', 'not-heard']),
    trip: choiceInput('Protection tripped', ['no', 'explained', 'not-explained'], true),
    hours: quantityInput('Hours run since', 'ratio', 'h', [0, 1e6], true),
    due: quantityInput('Hours that were due', 'ratio', 'h', [0.1, 1e6], true),
  },
  results: {
    verdict: oneOf('The findings say', order),
    comparable: oneOf('Like the base', ['yes', 'no', 'not known']),
    rise: result('Warmer above the room than its base', 'temperature-difference', 'K'),
    twin: result('Warmer than the other, beyond what it was', 'temperature-difference', 'K'),
    lostShare: result('Of the dose came out', 'share', '%'),
    lateness: result('Hours run against those due', 'ratio', 'times'),
    why: word('Why', true),
    unknown: word('Not known', true),
  },
  formula: 'worst of rise, twin, level, grease lost, what is in it, sound, trip, lateness',
  source: commonPractice('limits of watch and open; all but the rise are this guide’s own'),
  aliases: { steady: 'smooth', none: 'nothing', yes: 'not-explained' },
  run: (given, tables) => {
    const found: Found[] = [];
    const unknown: string[] = [];
    const likeness = comparable(given, tables);
    const rise = riseOf(given);
    if (rise && likeness.verdict === 'yes') found.push(byRule('rise', rise, tables, 'warmer than its own base'));
    else unknown.push(rise ? `the rise, since ${likeness.why}` : 'the rise against its own base');
    const [temp, room] = [given.maybe('temp'), given.maybe('room')];
    if (temp && room && temp.value < room.value)
      found.push({
        verdict: 'watch',
        why: 'the ring reads colder than the room: the sensor is off, put it right and read again',
      });

    const twin = twinOf(given);
    if (twin) found.push(byRule('twin', twin, tables, 'warmer than the other bearing, beyond what it was'));
    const [now, base] = [given.maybe('level')?.value, given.maybe('baseLevel')?.value];
    if (now !== undefined && base !== undefined && base > 0)
      found.push(byRule('level', { value: now / base }, tables, 'times its own level'));
    const share = lostShare(given);
    if (share) found.push(byRule('lost', share, tables, 'of the dose came out'));
    found.push(...inGreaseFinds(given), ...soundFinds(given, unknown));
    const trip = given.maybeWord('trip');
    if (trip === 'not-explained') found.push({ verdict: 'open', why: 'the protection tripped and nobody knows why' });
    if (trip === 'explained')
      found.push({ verdict: 'watch', why: 'the protection tripped, explained: write down by what' });
    if (trip === undefined) unknown.push('whether the protection tripped');
    const [ran, due] = [given.maybe('hours')?.value, given.maybe('due')?.value];
    const lateness = ran !== undefined && due !== undefined ? ran / due : undefined;
    if (lateness !== undefined && lateness > numberIn(rule('late', tables), 'watch'))
      found.push({ verdict: 'watch', why: `${figure(lateness, 2)} times the hours that were due`, row: 'late' });
    if (unknown.length > 0) found.push({ verdict: 'watch', why: `not known: ${unknown.join('; ')}` });

    const verdict = found.reduce<Verdict>(
      (w, f) => (order.indexOf(f.verdict) > order.indexOf(w) ? f.verdict : w),
      'run on',
    );
    const deciding = found.filter((f) => f.verdict === verdict && verdict !== 'run on');
    const rows = [...new Set(found.map((f) => f.row).filter((r) => r !== undefined))];
    const sources: RowSource[] = rows.map((id) => sourceOf(rule(id, tables)));
    return {
      results: {
        verdict: { value: verdict },
        comparable: { value: likeness.verdict },
        ...(rise ? { rise } : {}),
        ...(twin ? { twin } : {}),
        ...(share ? { lostShare: share } : {}),
        ...(lateness === undefined ? {} : { lateness: { value: lateness } }),
        why: { value: deciding.length > 0 ? deciding.map((f) => f.why) : ['nothing was found'] },
        unknown: { value: unknown },
      },
      warnings: [
        ...(likeness.verdict === 'no' ? [`Its warmth is not comparable: ${likeness.why}.`] : []),
        ...rows
          .filter((id) => id !== 'rise')
          .map((id) => `${textIn(rule(id, tables), 'what')}: this guide's own rule.`),
      ],
      worked: found.map((f) => `${f.verdict}: ${f.why}`),
      sources,
    };
  },
});

function rule(id: string, tables: Tables) {
  const row = findRow(tables, 'look-rules', id);
  if (!row) throw new CalcRefusal('tables', `The table look-rules has no row ${id}.`);
  return row;
}

function byRule(id: string, { value, plusMinus }: Measured, tables: Tables, what: string): Found {
  const row = rule(id, tables);
  const unit = textIn(row, 'unit');
  const [watch, open] = [numberIn(row, 'watch'), numberIn(row, 'open')];
  const moved = plusMinus ? `${figure(value, 3)} ± ${figure(plusMinus, 2)}` : figure(value, 3);
  const said = unit === 'times' ? `${moved} ${what}` : `${moved} ${unit} ${what}`;
  const verdict: Verdict = value >= open ? 'open' : value >= watch ? 'watch' : 'run on';
  return { verdict, why: `${said} (watch from ${watch}, open from ${open})`, row: id };
}

/** Whether speed and load are like those of the base. */
function comparable(given: CheckedInputs, tables: Tables): { verdict: 'yes' | 'no' | 'not known'; why: string } {
  const [n, n0] = [given.maybe('speed')?.value, given.maybe('baseSpeed')?.value];
  const [load, load0] = [given.maybe('load')?.value, given.maybe('baseLoad')?.value];
  const least = numberIn(rule('like-speed', tables), 'watch') / 100;
  const unlike = (a: number, b: number): boolean => a < least * b || a * least > b;
  if (n !== undefined && n0 !== undefined && unlike(n, n0))
    return { verdict: 'no', why: `it turns at ${figure(n)} rpm and did at ${figure(n0)} rpm` };
  if (load !== undefined && load0 !== undefined && unlike(load, load0))
    return { verdict: 'no', why: `it carries ${figure(load)} % and did carry ${figure(load0)} %` };
  const known = n !== undefined && n0 !== undefined && load !== undefined && load0 !== undefined;
  return known
    ? { verdict: 'yes', why: '' }
    : { verdict: 'not known', why: 'speed or load, now or then, is not known' };
}

function riseOf(given: CheckedInputs) {
  const [temp, room] = [given.maybe('temp'), given.maybe('room')];
  const [baseTemp, baseRoom] = [given.maybe('baseTemp'), given.maybe('baseRoom')];
  if (!temp || !room || !baseTemp || !baseRoom || temp.value < room.value) return undefined;
  return propagate({ temp, room, baseTemp, baseRoom }, (x) => x.temp - x.room - (x.baseTemp - x.baseRoom));
}

function twinOf(given: CheckedInputs) {
  const [temp, twinTemp] = [given.maybe('temp'), given.maybe('twinTemp')];
  if (!temp || !twinTemp) return undefined;
  const [baseTemp, twinBase] = [given.maybe('baseTemp'), given.maybe('twinBase')];
  return baseTemp && twinBase
    ? propagate({ temp, twinTemp, baseTemp, twinBase }, (x) => x.temp - x.twinTemp - (x.baseTemp - x.twinBase))
    : propagate({ temp, twinTemp }, (x) => x.temp - x.twinTemp);
}

function lostShare(given: CheckedInputs) {
  const [lost, dose] = [given.maybe('lost'), given.maybe('dose')];
  return lost && dose ? propagate({ lost, dose }, (x) => (x.lost / x.dose) * 100) : undefined;
}

function inGreaseFinds(given: CheckedInputs): Found[] {
  const found = given.words('inGrease');
  if (found.includes('nothing') && found.length > 1)
    throw new CalcRefusal(
      'inGrease',
      '"nothing" can\'t stand beside something that was found: choose one or the other.',
    );
  return [
    ...(found.includes('grains') ? [{ verdict: 'open', why: 'grains in the grease' } as const] : []),
    ...(found.includes('water') ? [{ verdict: 'open', why: 'water in the grease' } as const] : []),
    ...(found.includes('oil-running')
      ? [{ verdict: 'open', why: 'oil runs out: the grease has come apart' } as const]
      : []),
  ];
}

function soundFinds(given: CheckedInputs, unknown: string[]): Found[] {
  const sound = given.maybeWord('sound');
  if (sound === 'tick' || sound === 'rumble' || sound === 'grinding')
    return [{ verdict: 'open', why: `it sounds: ${sound}` }];
  if (sound === 'hiss') return [{ verdict: 'watch', why: 'it hisses: a dry film or a rubbing lip' }];
  if (sound !== 'smooth') unknown.push('its sound');
  return [];
}
