/**
 * What to do next in a run-in, from its whole history of readings: hold, next, back-off, stop or complete.
 * Stateless: the same readings always give the same answer. Speeds rpm, temperatures degC of the outer ring, times min.
 * - At or over the limit (70 degC at most unless a higher one is documented, 110 degC never), or rough or grinding: stop.
 * - Will it pass the limit before the next reading: back off, cool to room, resume at the last stage before.
 * - Next once the fit moves by 1 K in 10 min at most and neither this stage nor the next one heads near the limit.
 * - Complete at the last stage at thermal equilibrium after IEC 60034-1, 2 K an hour at most, and clear of the limit.
 * Before a stage at which a lump of grease could pass the limit unread it stands and cools first (run-in-rest.ts); whoever
 * reads late is held below it (run-in-unseen.ts). Near the limit the drift at the end is half as much.
 * A stage that was not opened by the one before sends back. Source: the table run-in-rules; the fit: run-in-fit.ts.
 */
import { type CheckedInputs, defineCalculator } from './define.js';
import type { Estimate } from './run-in-fit.js';
import { judge } from './run-in-judge.js';
import { headingWords, type Reading, type Rules, type Sound, shown, sure } from './run-in-said.js';
import { commonPractice, figure, flag, oneOf, quantityInput, result, word, yesNoResult } from './spec.js';
import { constant, findRow, sourceOf } from './table.js';
import { CalcRefusal, type ResultValue, type Tables } from './types.js';

export const runInStep = defineCalculator({
  name: 'run-in-step',
  title: 'Next step of the run-in',
  inputs: {
    stages: { type: 'quantities', label: 'Stages', kind: 'speed', unit: 'rpm', limits: [1, 200_000] },
    limit: quantityInput('Highest temperature', 'temperature', 'degC', [30, 110], true),
    documented: flag('A limit above 70 °C is documented, with its reason'),
    ambient: quantityInput('Room temperature', 'temperature', 'degC', [-20, 50]),
    atStage: {
      type: 'quantities',
      label: 'Stage of each reading, 0 while it stands',
      kind: 'count',
      unit: '',
      limits: [0, 100],
      optional: true,
    },
    minutes: {
      type: 'quantities',
      label: 'Time of each reading',
      kind: 'duration',
      unit: 'min',
      limits: [0, 100_000],
      optional: true,
    },
    temps: {
      type: 'quantities',
      label: 'Temperature at each reading',
      kind: 'temperature',
      unit: 'degC',
      limits: [-40, 400],
      optional: true,
    },
    sounds: {
      type: 'choices',
      label: 'Sound at each reading',
      choices: ['smooth', 'hiss', 'rough', 'grinding'],
      optional: true,
    },
    other: {
      type: 'quantities',
      label: 'Temperature of the other bearing at each reading',
      kind: 'temperature',
      unit: 'degC',
      limits: [-40, 400],
      optional: true,
    },
    upTo: quantityInput('Limited run-in: highest stage', 'count', '', [1, 100], true),
    limitedAfter: quantityInput('Readings that were there when it was limited', 'count', '', [0, 100_000], true),
  },
  results: {
    decision: oneOf('Decision', ['hold', 'next', 'back-off', 'stop', 'complete']),
    stage: result('Stage to be at next', 'count', ''),
    speed: result('Speed to be at next', 'speed', 'rpm'),
    why: word('Why'),
    settled: yesNoResult('Temperature settled'),
    standing: yesNoResult('Stand still first'),
    coolTo: result('Stand still until it is at most', 'temperature', 'degC'),
    ends: yesNoResult('No further before the cause is found'),
    hissed: yesNoResult('It hissed too long'),
    mostStage: result('Highest stage of a limited run-in', 'count', ''),
    heading: result('Heading for, at this stage', 'temperature', 'degC'),
    headingTop: result('Heading for, at top speed', 'temperature', 'degC'),
    outlook: word('Outlook'),
    nextReading: result('Next reading in', 'duration', 'min'),
    stayReading: result('Next reading in, if its speed stays', 'duration', 'min'),
    leastExpected: result('Next reading at that speed, at the least', 'temperature', 'degC'),
    mostExpected: result('Next reading at that speed, at the most', 'temperature', 'degC'),
    late: result('Last reading came late by', 'duration', 'min'),
    ahead: yesNoResult('The last reading was at a stage that came too early'),
    aheadCount: result('Readings at a stage that came too early', 'count', ''),
    coldCount: result('Readings more than 5 K colder than the room', 'count', ''),
  },
  formula: 'dT/dt = (heading - T) / time constant, ring over housing; heading ~ speed^1.4, fitted to all readings',
  source: commonPractice(
    'stages and limits from the table run-in-rules. On 6,534 simulated rotors that it was not set by, of three sorts of physics, it accepted none that ends over the limit, stopped or sent back 1 in 100 healthy ones and 2 in 100 with a short spike; 2 were driven more than 5 K over the limit, by a lump of grease 2 minutes after a reading and by a preload that ran away unread. One rule was eased after that, tried on the hot ones alone. A real rotor may do what none of them did',
  ),
  run: (given, tables) => {
    const stages = given.list('stages').map((stage) => stage.value);
    const readings = readingsOf(given, stages.length);
    const usual = constant(tables, 'run-in-rules', 'temperature-limit').value;
    const limit = given.maybe('limit')?.value ?? usual;
    if (limit > usual && !given.flag('documented'))
      throw new CalcRefusal(
        'limit',
        `The highest temperature must be from 30 to ${usual} °C, the usual limit of running in: a higher one needs a documented reason.`,
      );
    const ambient = given.number('ambient').value;
    if (ambient + 10 > limit)
      throw new CalcRefusal(
        'ambient',
        `The room (${figure(ambient)} °C) is too near the limit of ${figure(limit)} °C to tell anything: check both.`,
      );
    const upTo = Math.min(stages.length, Math.round(given.maybe('upTo')?.value ?? stages.length));
    const rules = rulesOf(tables);
    const limitedAfter = Math.round(given.maybe('limitedAfter')?.value ?? 0);
    const said = judge(readings, { stages, upTo, limitedAfter, limit, room: ambient, rules });
    const source = ['temperature-limit', 'equilibrium'].flatMap((id) => findRow(tables, 'run-in-rules', id) ?? []);
    return {
      results: {
        decision: { value: said.decision },
        stage: { value: said.stage },
        speed: { value: said.decision === 'stop' ? 0 : (stages[said.stage - 1] ?? 0) },
        why: { value: said.why },
        settled: { value: said.settled },
        standing: { value: said.standing },
        ...(said.coolTo === undefined ? {} : { coolTo: { value: said.coolTo } }),
        ends: { value: said.ends },
        hissed: { value: said.hissed },
        mostStage: { value: Math.max(0, Math.min(stages.length - 1, said.most ?? stages.length)) },
        ahead: { value: said.ahead.at(-1) === readings.length && readings.length > 0 },
        aheadCount: { value: said.ahead.length },
        coldCount: { value: readings.filter((reading) => isCold(reading, ambient)).length },
        ...(said.heading ? { heading: degrees(said.heading) } : {}),
        ...(said.headingTop ? { headingTop: degrees(said.headingTop) } : {}),
        outlook: { value: tellsYet(readings) ? outlook(readings, said.heading, said.headingTop) : nothingYet },
        nextReading: { value: said.nextReading },
        stayReading: { value: said.stayReading },
        ...(said.expected ? expectedOf(said.expected) : {}),
        late: { value: said.late },
      },
      warnings: warningsFor(readings, ambient, said.late, said.warnings),
      // Of each reading's run, and only the last one's is ever told.
      get worked() {
        return readings
          .slice(-5)
          .map(
            (r) =>
              `${figure(r.minutes)} min: stage ${r.stage}, ${figure(stages[r.stage - 1] ?? 0)} rpm, ${figure(r.temp)} °C, ${r.sound}`,
          )
          .concat(
            said.timeConstant ? [`time constant about ${figure(said.timeConstant.mean, 2)} min`] : [],
            `-> ${said.decision}: ${said.why}`,
          );
      },
      sources: source.map(sourceOf),
    };
  },
});

/** At most what a thermometer can be asked for. */
function degrees(e: Estimate): ResultValue {
  const { value, plusMinus } = shown(e);
  return { value: Math.min(400, value), plusMinus: Math.min(400, plusMinus) };
}

/** A reading outside is off what was expected: two standard deviations, and what a thermometer is off. */
function expectedOf({ mean, sd }: Estimate): Record<string, ResultValue> {
  const half = Math.max(1.5, sure * Math.hypot(sd, readingOff));
  // What can be asked for.
  const within = (temp: number): ResultValue => ({ value: Math.min(400, Math.max(-40, temp)) });
  return { leastExpected: within(mean - half), mostExpected: within(mean + half) };
}
/** K */
const readingOff = 0.5;

/** From fewer readings while it runs, or from less than a minute of it, an outlook is as good as a guess. */
const LEAST_READINGS = 3;
function tellsYet(readings: readonly Reading[]): boolean {
  const stood = readings.findLastIndex((reading) => reading.stage === 0);
  const since = (readings.at(-1)?.minutes ?? 0) - (readings[Math.max(0, stood)]?.minutes ?? 0);
  return since >= 1 && readings.filter((reading) => reading.stage > 0).length >= LEAST_READINGS;
}
/** A half width that tells nothing, K. */
const tooWide = 25;
const nothingYet = 'nothing to tell yet';

/** What lies below the last reading is no outlook. */
const outlook = (readings: readonly Reading[], here: Estimate | undefined, top: Estimate | undefined): string =>
  here && top && here.sd <= tooWide && here.mean >= (readings.at(-1)?.temp ?? 0) - readingOff
    ? `will reach ${headingWords(here)} here, ${top.sd > 12.5 ? 'end not known yet' : `${headingWords(top)} at the end`}`
    : nothingYet;

function readingsOf(given: CheckedInputs, count: number): Reading[] {
  const numbers = (key: string): number[] => given.list(key).map((item) => item.value);
  const atStage = numbers('atStage');
  const [minutes, temps, other] = [numbers('minutes'), numbers('temps'), numbers('other')];
  const sounds = given.words('sounds') as readonly Sound[];
  for (const [key, words, list] of [
    ['minutes', 'times', minutes],
    ['temps', 'temperatures', temps],
    ['sounds', 'sounds', sounds],
    ...(given.has('other') ? ([['other', 'temperatures of the other bearing', other]] as const) : []),
  ] as const)
    if (list.length !== atStage.length)
      throw new CalcRefusal(
        key,
        `There are ${list.length} ${words} but ${atStage.length} stages: give one of each for every reading.`,
      );
  return atStage.map((stage, i) => {
    if (stage > count)
      throw new CalcRefusal('atStage', `There are ${count} stages: a reading can't be at stage ${stage}.`);
    if ((minutes[i] ?? 0) < (minutes[i - 1] ?? 0))
      throw new CalcRefusal(
        'minutes',
        `Reading ${i + 1} is earlier than the one before it: give the elapsed minutes in order.`,
      );
    const twin = other[i];
    return {
      stage,
      minutes: minutes[i] ?? 0,
      temp: temps[i] ?? 0,
      sound: sounds[i] ?? 'smooth',
      ...(twin === undefined ? {} : { other: twin }),
    };
  });
}

/** Colder than anything that stood in the room can be: the sensor is off the ring, or broken. */
const isCold = (reading: Reading, ambient: number): boolean => reading.temp < ambient - 5;

function warningsFor(readings: readonly Reading[], ambient: number, late: number, more: readonly string[]): string[] {
  const last = readings[readings.length - 1];
  if (!last) return [];
  const warnings = [...more];
  if (isCold(last, ambient))
    warnings.push(`${figure(last.temp)} °C is colder than the room: check the probe and its place.`);
  if (late > 5)
    warnings.push(
      `The last reading came ${figure(late, 2)} min after it was due: a spike before it was not seen. Read when due, or switch it off while nobody can.`,
    );
  return warnings;
}

function rulesOf(tables: Tables): Rules {
  const rule = (id: string): number => constant(tables, 'run-in-rules', id).value;
  return {
    leastStage: rule('least-stage'),
    settleWindow: rule('settle-window'),
    settleSpan: rule('settle-span'),
    equilibrium: rule('equilibrium'),
    leastLast: rule('least-last'),
    coolMargin: rule('cool-margin'),
    nearLimit: rule('near-limit'),
    longestHiss: rule('longest-hiss'),
    apartWatch: rule('apart-watch'),
    apartStop: rule('apart-stop'),
    longestBlocked: rule('longest-blocked'),
    mostBackOffs: rule('most-back-offs'),
    longestGap: rule('longest-gap'),
    rapidRise: rule('rapid-rise'),
    rapidTime: rule('rapid-time'),
    stageRise: rule('stage-rise'),
  };
}
