/**
 * Stages of a run-in up to the top speed (rpm), with times (min) and limits (degC).
 * Ten equal steps from a tenth of the top speed; at each the temperature settles before the next. At most 70 degC,
 * ideally 35 to 40 degC at full speed; up to 10 h in all. Wanted above n dm 500 000, or with preload.
 * Source: the table run-in-rules; what it calls common practice there is this guide's own caution.
 */
import { defineCalculator } from './define.js';
import { commonPractice, figure, ndm, quantityInput, result, speed, word } from './spec.js';
import { constant, findRow, sourceOf } from './table.js';
import { propagate } from './uncertainty.js';

export const runIn = defineCalculator({
  name: 'run-in',
  title: 'Stages of the run-in',
  inputs: {
    speed: speed('Top speed', [100, 200_000]),
    ndm: ndm(true),
    ambient: quantityInput('Room temperature', 'temperature', 'degC', [-20, 50], true),
  },
  results: {
    stages: result('Stages', 'speed', 'rpm', true),
    minimumMinutes: result('Shortest time in all', 'duration', 'min'),
    longestMinutes: result('It may take up to', 'duration', 'min'),
    stageMinutes: result('Shortest time at a stage', 'duration', 'min'),
    limit: result('Highest temperature of the outer ring', 'temperature', 'degC'),
    idealLow: result('Ideal at full speed, from', 'temperature', 'degC'),
    idealHigh: result('Ideal at full speed, to', 'temperature', 'degC'),
    cooled: result('Counts as cooled at or below', 'temperature', 'degC'),
    need: word('Wanted'),
    burst: word('Short-burst option'),
  },
  formula: 'stage k = top speed x k / 10',
  source: commonPractice('stages and limits from the table run-in-rules'),
  run: (given, tables) => {
    const top = given.number('speed');
    const rule = (id: string): number => constant(tables, 'run-in-rules', id).value;
    const count = rule('stages');
    const stages = Array.from({ length: count }, (_, i) =>
      propagate({ speed: top }, (x) => Number(((x.speed * (i + 1)) / count).toPrecision(12))),
    );
    const factor = given.maybe('ndm');
    const wanted = factor === undefined || factor.value > rule('wanted-above');
    const ambient = given.maybe('ambient');
    const limit = rule('temperature-limit');
    const warnings = ['Stop at once on roughness, grinding, or a rapid rise of temperature.'];
    if (ambient && ambient.value > 30)
      warnings.push(
        `A room of ${figure(ambient.value)} °C leaves little margin to ${limit} °C: cool the room, or expect to hold long.`,
      );
    return {
      results: {
        stages: {
          value: stages.map((stage) => stage.value),
          ...(top.plusMinus === undefined ? {} : { plusMinus: stages.map((stage) => stage.plusMinus ?? 0) }),
        },
        minimumMinutes: { value: count * rule('least-stage') },
        longestMinutes: { value: rule('longest') },
        stageMinutes: { value: rule('least-stage') },
        limit: { value: limit },
        idealLow: { value: rule('ideal-low') },
        idealHigh: { value: rule('ideal-high') },
        ...(ambient ? { cooled: { value: ambient.value + rule('cool-margin') } } : {}),
        need: {
          value: wanted
            ? factor === undefined
              ? 'yes: n dm was not given, so it is taken as fast'
              : 'yes: n dm is above 500 000'
            : 'not by n dm alone; do it all the same after regreasing by hand, and always with preload',
        },
        burst: {
          value: `${rule('short-burst-run') * 60} s at speed, then at least ${rule('short-burst-rest')} min rest, until it settles`,
        },
      },
      warnings,
      worked: [
        `${count} stages of ${figure(top.value)} / ${count} = ${figure(top.value / count)} rpm`,
        `at least ${count} x ${rule('least-stage')} min = ${count * rule('least-stage')} min, up to ${rule('longest') / 60} h where it settles slowly`,
      ],
      sources: ['stages', 'temperature-limit', 'short-burst-run'].flatMap((id) => {
        const row = findRow(tables, 'run-in-rules', id);
        return row ? [sourceOf(row)] : [];
      }),
    };
  },
});
