/**
 * How much warmer than the room a bearing was at each stage of its run-in: the last reading of the stage, less the room.
 * For the next run-in of the same bearing to be held against. It ends before the first stage that has no reading.
 * Half width: the root of the squares of reading and room. Source: arithmetic.
 */
import { defineCalculator } from './define.js';
import { arithmetic, figure, quantityInput, result } from './spec.js';
import { CalcRefusal, type Measured } from './types.js';
import { propagate } from './uncertainty.js';

export const stageRise = defineCalculator({
  name: 'stage-rise',
  title: 'Warmer than the room at each stage',
  inputs: {
    atStage: { type: 'quantities', label: 'Stage at each reading', kind: 'count', unit: '', limits: [0, 100] },
    temps: {
      type: 'quantities',
      label: 'Temperature at each reading',
      kind: 'temperature',
      unit: 'degC',
      limits: [-60, 300],
    },
    room: quantityInput('Room', 'temperature', 'degC', [-40, 60]),
  },
  results: { rises: result('Warmer than the room at each stage', 'temperature-difference', 'K', true) },
  formula: 'rise = last temperature of the stage - room',
  source: arithmetic('a difference'),
  run: (given) => {
    const [stages, temps, room] = [given.list('atStage'), given.list('temps'), given.number('room')];
    if (stages.length !== temps.length)
      throw new CalcRefusal('temps', 'There must be as many temperatures as stages: one of each for every reading.');
    const rises: Measured[] = [];
    for (let stage = 1; ; stage++) {
      const last = temps[stages.findLastIndex((s) => s.value === stage)];
      if (!last) break;
      rises.push(propagate({ last, room }, (x) => x.last - x.room));
    }
    return {
      results: {
        rises: { value: rises.map((r) => r.value), plusMinus: rises.map((r) => r.plusMinus ?? 0) },
      },
      warnings: [],
      worked: rises.map((r, i) => `stage ${i + 1}: ${figure(r.value)} K`),
    };
  },
});
