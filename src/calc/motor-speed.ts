/**
 * Speed of a motor from the frequency that its drive shows, rpm: n = 60 f / p (1 - s), f in Hz, p pole pairs, slip s of an
 * induction motor. Pole pairs are half the poles of the plate. A drive's display in Hz is electrical, not turns a second.
 * Source: arithmetic.
 */
import { defineCalculator } from './define.js';
import { arithmetic, figure, quantityInput, result } from './spec.js';
import { CalcRefusal } from './types.js';
import { propagate } from './uncertainty.js';

export const motorSpeed = defineCalculator({
  name: 'motor-speed',
  title: 'Speed from the frequency of the drive',
  inputs: {
    frequency: quantityInput('Frequency that the drive shows', 'frequency', 'Hz', [0.1, 10_000]),
    polePairs: quantityInput('Pole pairs', 'count', '', [1, 50]),
    slip: quantityInput('Slip of an induction motor', 'share', '%', [0, 30], true),
  },
  results: {
    speed: result('Speed', 'speed', 'rpm'),
    turns: result('Turns a second', 'frequency', 'Hz'),
  },
  formula: 'n = 60 f / p (1 - s)',
  source: arithmetic('60 s in a minute, one turn for each pole pair'),
  run: (given) => {
    const frequency = given.number('frequency');
    const pairs = given.number('polePairs').value;
    if (!Number.isInteger(pairs))
      throw new CalcRefusal(
        'polePairs',
        `Pole pairs are whole: half the poles of the plate, such as 2 for 4 poles, not ${figure(pairs)}.`,
      );
    const slip = given.maybe('slip') ?? { value: 0 };
    const speed = propagate({ frequency, slip }, (x) => ((60 * x.frequency) / pairs) * (1 - x.slip / 100));
    if (speed.value > 200_000)
      throw new CalcRefusal('frequency', `${figure(speed.value)} rpm is no motor: check frequency and pole pairs.`);
    return {
      results: { speed, turns: { value: speed.value / 60 } },
      warnings: given.has('slip')
        ? []
        : ['No slip was taken: right for a magnet rotor; an induction motor turns 1 to 5 % slower.'],
      worked: [
        `n = 60 x ${figure(frequency.value)} / ${figure(pairs)}${slip.value > 0 ? ` x (1 - ${figure(slip.value)} %)` : ''} = ${figure(speed.value)} rpm`,
      ],
    };
  },
});
