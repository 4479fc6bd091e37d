/**
 * What to do next in a run-in, from its whole history of readings: hold, next, back-off, stop or complete.
 * Stateless: the same readings always give the same answer. Speeds rpm, temperatures degC of the outer ring, times min.
 * - At or over the limit (70 degC at most unless a higher one is documented, 110 degC never), or rough or grinding: stop.
 * - Rapid rise: back off, cool to room, resume at the last stage before the spike.
 * - Next only after the temperature has settled, the sound is smooth, and it is 5 K and more below the limit.
 * A stage that was not opened by the one before sends back. Source: the table run-in-rules.
 */
import { showDuration } from '../units/show.js';
import { defineCalculator } from './define.js';
import { fold, type History, hissedFor, isSettled, type Reading, type Rules, type Sound } from './run-in-history.js';
import { figure, flag, oneOf, practice, quantity, result, word, yesNo } from './spec.js';
import { constant, findRow, sourceOf } from './table.js';
import { CalcRefusal, type Tables } from './types.js';

type Decision = 'hold' | 'next' | 'back-off' | 'stop' | 'complete';

interface Said {
  readonly decision: Decision;
  readonly stage: number;
  readonly why: string;
  /** The rotor stands still meanwhile. */
  readonly standing?: boolean;
}

export const runInStep = defineCalculator({
  name: 'run-in-step',
  title: 'Next step of the run-in',
  inputs: {
    stages: { type: 'quantities', label: 'Stages', kind: 'speed', unit: 'rpm', limits: [1, 200_000] },
    limit: quantity('Highest temperature', 'temperature', 'degC', [30, 110], true),
    documented: flag('A limit above 70 °C is documented, with its reason'),
    ambient: quantity('Room temperature', 'temperature', 'degC', [-20, 50]),
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
  },
  results: {
    decision: oneOf('Decision', ['hold', 'next', 'back-off', 'stop', 'complete']),
    stage: result('Stage to be at next', 'count', ''),
    speed: result('Speed to be at next', 'speed', 'rpm'),
    why: word('Why'),
    settled: yesNo('Temperature settled'),
    standing: yesNo('Stand still first'),
    ahead: yesNo('Last reading at a stage that was not open'),
    aheadCount: result('Readings at a stage that was not open', 'count', ''),
    coldCount: result('Readings more than 5 K colder than the room', 'count', ''),
  },
  formula: 'settled: moves by 1 K at most over 10 min, after 15 min at the stage; rapid: 2 K/min and 3 K',
  source: practice('stages and limits from the table run-in-rules'),
  run: (given, tables) => {
    const stages = given.list('stages').map((stage) => stage.value);
    const readings = readingsOf(
      given.list('atStage').map((item) => item.value),
      given.list('minutes').map((item) => item.value),
      given.list('temps').map((item) => item.value),
      given.words('sounds') as readonly Sound[],
      stages.length,
    );
    const limit = given.maybe('limit')?.value ?? constant(tables, 'run-in-rules', 'temperature-limit').value;
    const usual = constant(tables, 'run-in-rules', 'temperature-limit').value;
    if (limit > usual && !given.flag('documented'))
      throw new CalcRefusal(
        'limit',
        `The highest temperature must be from 30 to ${usual} °C, the published limit of running in: a higher one needs a documented reason.`,
      );
    const ambient = given.number('ambient').value;
    if (ambient + 10 > limit)
      throw new CalcRefusal(
        'ambient',
        `The room (${figure(ambient)} °C) is too near the limit of ${figure(limit)} °C to tell anything: check both.`,
      );
    const rules = rulesOf(tables);
    const history = fold(readings, limit, ambient, rules);
    const settled = isSettled(history.here, rules);
    const said = decide(readings, history, settled, stages, limit, ambient, rules);
    const speed = said.decision === 'stop' ? 0 : (stages[said.stage - 1] ?? 0);
    const source = findRow(tables, 'run-in-rules', 'temperature-limit');
    return {
      results: {
        decision: { value: said.decision },
        stage: { value: said.stage },
        speed: { value: speed },
        why: { value: said.why },
        settled: { value: settled },
        standing: { value: said.standing === true },
        ahead: { value: history.ahead.at(-1) === readings.length && readings.length > 0 },
        aheadCount: { value: history.ahead.length },
        coldCount: { value: readings.filter((reading) => isCold(reading, ambient)).length },
      },
      warnings: warningsFor(readings, ambient),
      worked: readings
        .slice(-5)
        .map(
          (r) =>
            `${figure(r.minutes)} min: stage ${r.stage}, ${figure(stages[r.stage - 1] ?? 0)} rpm, ${figure(r.temp)} °C, ${r.sound}`,
        )
        .concat(`-> ${said.decision}: ${said.why}`),
      sources: source ? [sourceOf(source)] : [],
    };
  },
});

function readingsOf(
  atStage: readonly number[],
  minutes: readonly number[],
  temps: readonly number[],
  sounds: readonly Sound[],
  count: number,
): Reading[] {
  for (const [key, words, list] of [
    ['minutes', 'times', minutes],
    ['temps', 'temperatures', temps],
    ['sounds', 'sounds', sounds],
  ] as const)
    if (list.length !== atStage.length)
      throw new CalcRefusal(
        key,
        `There are ${list.length} ${words} but ${atStage.length} stages: give one of each for every reading.`,
      );
  return atStage.map((stage, i) => {
    if (stage > count)
      throw new CalcRefusal('atStage', `There are ${count} stages: a reading can't be at stage ${stage}.`);
    if (i > 0 && (minutes[i] ?? 0) < (minutes[i - 1] ?? 0))
      throw new CalcRefusal(
        'minutes',
        `Reading ${i + 1} is earlier than the one before it: give the elapsed minutes in order.`,
      );
    return { stage, minutes: minutes[i] ?? 0, temp: temps[i] ?? 0, sound: sounds[i] ?? 'smooth' };
  });
}

function decide(
  readings: readonly Reading[],
  history: History,
  settled: boolean,
  stages: readonly number[],
  limit: number,
  ambient: number,
  rules: Rules,
): Said {
  const last = readings[readings.length - 1];
  const rpm = (stage: number): string => `${figure(stages[stage - 1] ?? 0)} rpm`;
  if (!last) return { decision: 'hold', stage: 1, why: `begin at stage 1, ${rpm(1)}, and take the first reading` };
  const cool = `cool to ${figure(ambient + rules.coolMargin)} °C or below`;
  if (history.noise)
    return {
      decision: 'stop',
      stage: 1,
      standing: true,
      why: `${readings[history.noise.reading - 1]?.sound} at reading ${history.noise.reading}: stop, find the cause, and begin a new run-in only once it turns smoothly by hand`,
    };
  const { allowed } = history;
  if (history.cooling?.kind === 'hot' && last.temp >= limit)
    return {
      decision: 'stop',
      stage: allowed,
      standing: true,
      why: `${figure(last.temp)} °C is at or over ${figure(limit)} °C: stop, ${cool}, then resume at stage ${allowed}, ${rpm(allowed)}`,
    };
  if (history.cooling) {
    const cause =
      history.cooling.kind === 'rapid'
        ? `rose ${figure(history.cooling.rise, 2)} K in ${showDuration(history.cooling.over)} at reading ${history.cooling.reading}`
        : `reached ${figure(limit)} °C at reading ${history.cooling.reading}`;
    return {
      decision: 'back-off',
      stage: allowed,
      standing: true,
      why: `it ${cause}: stand still, ${cool}, then resume at stage ${allowed}, ${rpm(allowed)}`,
    };
  }
  if (last.stage === 0)
    return { decision: 'hold', stage: allowed, why: `it stands still: go on at stage ${allowed}, ${rpm(allowed)}` };
  if (last.stage > allowed)
    return {
      decision: 'back-off',
      stage: allowed,
      why: `stage ${last.stage} is not open yet: go back to stage ${allowed}, ${rpm(allowed)}, until it has settled there`,
    };
  const hissed = hissedFor(readings);
  if (hissed >= rules.longestHiss)
    return {
      decision: 'stop',
      stage: allowed,
      why: `it has hissed for ${showDuration(hissed)}: stop and look at seals, beads and cage; then go on at stage ${allowed}, ${rpm(allowed)}`,
    };
  if (last.sound === 'hiss')
    return {
      decision: 'hold',
      stage: last.stage,
      why: 'a hiss: hold until it turns smooth; if it stays half an hour, stop and look',
    };
  if (!settled) {
    const here = last.minutes - (history.here[0]?.minutes ?? last.minutes);
    const least =
      here < rules.leastStage
        ? `at the stage for ${figure(Math.floor(here * 10) / 10)} of at least ${rules.leastStage} min`
        : `the last ${rules.settleWindow} min must move by ${rules.settleSpan} K at most, over three readings`;
    return { decision: 'hold', stage: last.stage, why: `not settled: ${least}` };
  }
  if (last.stage >= stages.length)
    return { decision: 'complete', stage: last.stage, why: `settled at ${figure(last.temp)} °C at the top speed` };
  if (last.temp > limit - rules.nearLimit)
    return {
      decision: 'hold',
      stage: last.stage,
      why: `settled, but ${figure(last.temp)} °C is within ${rules.nearLimit} K of ${figure(limit)} °C: no further stage; look for too much grease, preload or drag`,
    };
  return {
    decision: 'next',
    stage: last.stage + 1,
    why: `settled at ${figure(last.temp)} °C: go to stage ${last.stage + 1}, ${rpm(last.stage + 1)}`,
  };
}

/** Colder than anything that stood in the room can be: the sensor is off the ring, or broken. */
const isCold = (reading: Reading, ambient: number): boolean => reading.temp < ambient - 5;

function warningsFor(readings: readonly Reading[], ambient: number): string[] {
  const last = readings[readings.length - 1];
  if (!last) return [];
  const warnings: string[] = [];
  if (isCold(last, ambient))
    warnings.push(`${figure(last.temp)} °C is colder than the room: check the probe and its place.`);
  const before = readings[readings.length - 2];
  if (before && last.minutes - before.minutes > 30)
    warnings.push('More than half an hour lies between the last two readings: a spike between them was not seen.');
  return warnings;
}

function rulesOf(tables: Tables): Rules {
  const rule = (id: string): number => constant(tables, 'run-in-rules', id).value;
  return {
    leastStage: rule('least-stage'),
    settleWindow: rule('settle-window'),
    settleSpan: rule('settle-span'),
    rapidRate: rule('rapid-rate'),
    rapidRise: rule('rapid-rise'),
    coolMargin: rule('cool-margin'),
    nearLimit: rule('near-limit'),
    longestHiss: rule('longest-hiss'),
  };
}
