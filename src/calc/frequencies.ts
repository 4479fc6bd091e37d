/**
 * Defect frequencies with the inner ring turning, in Hz and in orders of the shaft speed.
 * g = Dw cos a / Dpw; outer Z (1 - g) / 2, inner Z (1 + g) / 2, ball spin Dpw (1 - g^2) / (2 Dw), cage (1 - g) / 2.
 * Pure rolling. Slip of the cage lowers cage and outer raceway and raises the inner one, since together they stay Z a turn;
 * an axial load (contact angle) does the opposite. Ball spin is counted once a turn of the ball: a defect meets
 * both races, so tables that list twice the spin count both. Any geometry: outer + inner = Z. Uncertainty: first order.
 */
import { defineCalculator } from './define.js';
import { figure, length, quantityInput, result, speed, usual } from './spec.js';
import { CalcRefusal } from './types.js';
import { propagate } from './uncertainty.js';

interface Geometry {
  readonly balls: number;
  readonly ball: number;
  readonly pitch: number;
  /** degrees */
  readonly angle: number;
}

/** Orders of the shaft speed. */
function ordersOf({ balls, ball, pitch, angle }: Geometry) {
  const g = (ball * Math.cos((angle * Math.PI) / 180)) / pitch;
  return {
    outer: (balls * (1 - g)) / 2,
    inner: (balls * (1 + g)) / 2,
    ballSpin: (pitch * (1 - g * g)) / (2 * ball),
    cage: (1 - g) / 2,
  };
}

const all = ['outer', 'inner', 'ballSpin', 'cage'] as const;
const names = { outer: 'Outer raceway', inner: 'Inner raceway', ballSpin: 'Ball spin', cage: 'Cage' };

export const frequencies = defineCalculator({
  name: 'frequencies',
  title: 'Defect frequencies',
  inputs: {
    balls: quantityInput('Number of balls', 'count', '', [3, 60]),
    ball: length('Ball diameter', [0.5, 150]),
    pitch: length('Pitch diameter', [2, 2000]),
    angle: quantityInput('Contact angle', 'angle', 'deg', [0, 45], true),
    speed: speed('Speed'),
  },
  results: {
    ...Object.fromEntries(all.map((name) => [name, result(names[name], 'frequency', 'Hz')])),
    ...Object.fromEntries(
      all.map((name) => [`${name}Order`, result(`${names[name]}, of the shaft speed`, 'ratio', '')]),
    ),
  },
  formula: 'outer Z(1-g)/2; inner Z(1+g)/2; ball spin Dpw(1-g^2)/(2 Dw); cage (1-g)/2; g = Dw cos a / Dpw',
  source: usual('standard kinematics of rolling bearings'),
  run: (given) => {
    const input = {
      balls: given.number('balls'),
      ball: given.number('ball'),
      pitch: given.number('pitch'),
      angle: given.maybe('angle') ?? { value: 0 },
    };
    const n = given.number('speed');
    if (input.ball.value >= input.pitch.value / 1.5)
      throw new CalcRefusal(
        'ball',
        `The ball diameter must be well below the pitch diameter of ${figure(input.pitch.value)} mm, not ${figure(input.ball.value)} mm.`,
      );
    const most = Math.floor((Math.PI * input.pitch.value) / input.ball.value);
    if (input.balls.value > most)
      throw new CalcRefusal(
        'balls',
        `At most ${most} balls of ${figure(input.ball.value)} mm go round a pitch circle of ${figure(input.pitch.value)} mm.`,
      );
    const turn = n.value / 60;
    const results = Object.fromEntries(
      all.flatMap((name) => [
        [name, propagate({ ...input, speed: n }, (x) => (ordersOf(x)[name] * x.speed) / 60)],
        [`${name}Order`, propagate(input, (x) => ordersOf(x)[name])],
      ]),
    );
    const g = (input.ball.value * Math.cos((input.angle.value * Math.PI) / 180)) / input.pitch.value;
    return {
      results,
      warnings: [
        'The real tone can be 1 to 3 % lower or higher: slip and axial load shift it.',
        'Ball spin is counted once a turn of the ball; a list that gives twice this counts both raceways.',
      ],
      worked: [
        `g = ${figure(input.ball.value)} x cos ${figure(input.angle.value)}° / ${figure(input.pitch.value)} = ${figure(g)}`,
        `shaft = ${figure(n.value)} / 60 = ${figure(turn)} Hz`,
        ...all.map(
          (name) => `${names[name].toLowerCase()}: ${figure(ordersOf(valuesOf(input))[name], 6)} x ${figure(turn)} Hz`,
        ),
      ],
    };
  },
});

const valuesOf = (input: Readonly<Record<keyof Geometry, { value: number }>>): Geometry => ({
  balls: input.balls.value,
  ball: input.ball.value,
  pitch: input.pitch.value,
  angle: input.angle.value,
});
