/**
 * Free volume of a bearing, mL, by two ways.
 * 1. Envelope less solids: V = pi/4 B (D^2 - d^2) - m/rho (mm, g, g/mL). It is that of the open bearing up to its faces; where
 *    the number of seals is given, the room between them is worked out too (sealed-room), and that is what is filled. Rings and ceramic balls are taken apart, so that a hybrid comes out as its all-steel twin does.
 * 2. From mass alone: 61 mL for each kg of the all-steel bearing (deep groove).
 * Uncertainty: first order in all dimensions, the mass, and the densities of steel and ceramic. Refuses a hybrid's mass
 * without balls and ball diameter: over steel's density it would overstate the volume by a fifth and more.
 * Sources: geometry (usual, from memory); densities from the table densities.
 */
import { type CheckedInputs, defineCalculator } from './define.js';
import { roomInputs, roomOf, type SealedRoom } from './sealed-room.js';
import { bore, choiceInput, figure, length, outsideInput, quantityInput, result, usual, width, word } from './spec.js';
import { checkRings } from './speed-factor.js';
import { constant, findRow, sourceOf } from './table.js';
import { CalcRefusal, type Measured, type Tables } from './types.js';
import { propagate } from './uncertainty.js';

const cm3 = 1000;
const envelopeOf = (d: number, D: number, B: number): number => ((Math.PI / 4) * B * (D * D - d * d)) / cm3;
const ballVolume = (count: number, ball: number): number => (count * (Math.PI / 6) * ball ** 3) / cm3;

const masses = ['steel', 'hybrid'] as const;
type MassIs = (typeof masses)[number];

/** Whose mass it is; refuses where a wrong guess would overdose. */
function massOf(given: CheckedInputs, warnings: string[]): MassIs {
  const material = given.maybeWord('ballMaterial');
  const stated = given.has('massIs') ? given.choice('massIs', masses) : undefined;
  if (stated === 'hybrid') {
    if (material === 'steel')
      throw new CalcRefusal(
        'massIs',
        'A bearing with steel balls has no hybrid mass: take the mass as that of the all-steel bearing, or the balls as ceramic.',
      );
    for (const key of ['balls', 'ball'])
      if (!given.has(key))
        throw new CalcRefusal(
          key,
          `A hybrid's mass needs the number of balls and the ball diameter, such as 9 balls of 7.938 mm: ${key === 'balls' ? 'the number' : 'the diameter'} is missing.`,
        );
    return 'hybrid';
  }
  if (stated === 'steel') return 'steel';
  if (material === 'ceramic')
    throw new CalcRefusal(
      'massIs',
      'Say whose mass it is: hybrid for the bearing with its ceramic balls, steel for the catalogue mass of the all-steel bearing.',
    );
  if (material === undefined)
    warnings.push(
      'The mass was taken as that of an all-steel bearing: for a hybrid say so, and give number and diameter of its balls.',
    );
  return 'steel';
}

export const freeVolume = defineCalculator({
  name: 'free-volume',
  title: 'Free volume of a bearing',
  inputs: {
    bore,
    outside: outsideInput,
    width,
    mass: quantityInput('Mass', 'mass', 'g', [0.5, 200_000]),
    balls: quantityInput('Number of balls', 'count', '', [3, 60], true),
    ball: length('Ball diameter', [0.5, 150], true),
    ballMaterial: choiceInput('Ball material', ['steel', 'ceramic'], true),
    massIs: choiceInput('Whose mass it is', ['steel', 'hybrid'], true),
    ...roomInputs,
  },
  results: {
    volume: result('Room up to the ring faces, computed', 'volume', 'mL'),
    sealedRoom: result('Room left for grease, computed', 'volume', 'mL'),
    roomLow: result('That room, low end', 'volume', 'mL'),
    roomHigh: result('That room, high end', 'volume', 'mL'),
    offSeals: result('Taken off for the seals', 'volume', 'mL'),
    offChamfers: result('Taken off for the chamfers', 'volume', 'mL'),
    offCage: result('Taken off for the cage', 'volume', 'mL'),
    takenOff: word('Taken off'),
    secondEstimate: result('Free volume from mass alone', 'volume', 'mL'),
    disagreement: result('Second estimate against the first', 'share', '%'),
    freeShare: result('Free share of the envelope', 'share', '%'),
    envelope: result('Envelope', 'volume', 'mL'),
  },
  formula: 'V = pi/4 B (D^2 - d^2) - m/rho;  second estimate V = 61 m (kg)',
  aliases: { contact: 'rubber', gap: 'rubber', metal: 'shield', steel: 'sheet-steel', nylon: 'pa66' },
  source: usual('envelope less solids; the factor 61 for deep groove bearings, from memory'),
  run: (given, tables) => {
    const [d, D, B] = [given.number('bore'), given.number('outside'), given.number('width')];
    const typed = given.number('mass');
    checkRings(d, D);
    const warnings: string[] = [];
    const massIs = massOf(given, warnings);
    // A catalogue mass without its half width would look exact, and mass dominates the result.
    const usualHalf = (constant(tables, 'bearing-constants', 'mass-half-width').value / 100) * typed.value;
    const mass = typed.plusMinus === undefined ? { ...typed, plusMinus: usualHalf } : typed;
    const [count, ball] = [given.maybe('balls') ?? { value: 0 }, given.maybe('ball') ?? { value: 0 }];
    checkBalls(count, ball, d, D, B);
    const steel = constant(tables, 'densities', 'steel');
    const ceramic = constant(tables, 'densities', 'silicon-nitride');
    const factor = constant(tables, 'bearing-constants', 'free-volume-per-kg');
    const hybrid = massIs === 'hybrid';
    const inputs = {
      bore: d,
      outside: D,
      width: B,
      mass,
      'density of steel': steel,
      ...(hybrid ? { balls: count, ball, 'density of ceramic': ceramic } : {}),
    };
    type X = Readonly<Record<string, number>>;
    const at = (x: X, key: string): number => x[key] ?? 0;
    const balls = (x: X): number => (hybrid ? ballVolume(at(x, 'balls'), at(x, 'ball')) : 0);
    /** Mass of the bearing had it steel balls, g. */
    const steelTwin = (x: X): number =>
      at(x, 'mass') + balls(x) * (at(x, 'density of steel') - at(x, 'density of ceramic'));
    const solids = (x: X): number => steelTwin(x) / at(x, 'density of steel');
    const envelope = (x: X): number => envelopeOf(at(x, 'bore'), at(x, 'outside'), at(x, 'width'));
    const volume = propagate(inputs, (x: X) => envelope(x) - solids(x));
    const second = propagate(inputs, (x: X) => (factor.value * (hybrid ? steelTwin(x) : at(x, 'mass'))) / 1000);
    const whole = propagate({ bore: d, outside: D, width: B }, envelope);
    refuseSolid(volume.value, whole.value, mass.value);
    const freeShare = (volume.value / whole.value) * 100;
    const disagreement = (second.value / volume.value - 1) * 100;
    warnShare(freeShare, hybrid, tables, warnings);
    if (Math.abs(disagreement) > 15)
      warnings.push(
        `The two estimates differ by ${figure(Math.abs(disagreement), 2)} %: check the mass and the width, and measure the free volume if you can.`,
      );
    if (typed.plusMinus === undefined)
      warnings.push(
        `For the mass 5 % either way was taken, usual between catalogues. A data sheet or a spare on the scale makes the dose surer: give it such as ${Math.round(mass.value)} +- 1 g.`,
      );
    const rows = [
      findRow(tables, 'densities', 'steel'),
      hybrid ? findRow(tables, 'densities', 'silicon-nitride') : undefined,
    ];
    const room = roomOf(given, { bore: d, outside: D, width: B }, volume, tables);
    warnings.push(
      ...(room
        ? room.warnings
        : [
            'This is the open bearing up to its faces. Two seals, the chamfers and a moulded cage leave a fifth to a third less: give the number of seals, or measure.',
          ]),
    );
    return {
      results: {
        volume,
        ...(room ? roomResults(room) : {}),
        secondEstimate: second,
        disagreement: { value: disagreement },
        freeShare: { value: freeShare },
        envelope: whole,
      },
      warnings,
      worked: [
        `envelope = pi/4 x ${figure(B.value)} x (${figure(D.value)}^2 - ${figure(d.value)}^2) = ${figure(whole.value)} mL`,
        ...(hybrid
          ? [
              `balls = ${figure(count.value)} x pi/6 x ${figure(ball.value)}^3 = ${figure(ballVolume(count.value, ball.value))} mL of ceramic at ${ceramic.value} g/mL, the rest steel`,
            ]
          : []),
        `solids = ${figure(whole.value - volume.value)} mL, from ${figure(mass.value)} g with steel at ${steel.value} g/mL`,
        `V = ${figure(whole.value)} - ${figure(whole.value - volume.value)} = ${figure(volume.value)} mL (the open bearing up to its faces)`,
        `second estimate = ${figure(second.value)} mL, ${figure(disagreement, 2)} % against the first`,
        ...(room?.worked ?? []),
      ],
      sources: rows.filter((row) => row !== undefined).map(sourceOf),
    };
  },
});

function roomResults({ room, seals, chamfers, cage }: SealedRoom) {
  const width = room.plusMinus ?? 0;
  const off = [
    `seals ${figure(seals.value, 2)} mL`,
    `chamfers ${figure(chamfers.value, 2)} mL`,
    `cage ${figure(cage.value, 2)} mL`,
  ];
  return {
    sealedRoom: room,
    roomLow: { value: Math.max(0, room.value - width) },
    roomHigh: { value: room.value + width },
    offSeals: seals,
    offChamfers: chamfers,
    offCage: cage,
    takenOff: { value: off.join(', ') },
  };
}

/** Balls must fit between the rings and round the pitch circle. */
function checkBalls(count: Measured, ball: Measured, d: Measured, D: Measured, B: Measured): void {
  if (ball.value === 0) return;
  const most = Math.min((D.value - d.value) / 2, B.value * 1.2);
  if (ball.value >= most)
    throw new CalcRefusal(
      'ball',
      `The ball diameter must be below ${figure(most)} mm for these rings, not ${figure(ball.value)} mm.`,
    );
  const round = Math.floor((Math.PI * (d.value + D.value)) / 2 / ball.value);
  if (count.value > round)
    throw new CalcRefusal(
      'balls',
      `At most ${round} balls of ${figure(ball.value)} mm go round these rings, not ${figure(count.value)}.`,
    );
}

function refuseSolid(volume: number, envelope: number, mass: number): void {
  if (volume <= 0)
    throw new CalcRefusal(
      'mass',
      `${figure(mass)} g is more steel than fits in the envelope of ${figure(envelope)} mL: check mass and dimensions.`,
    );
}

function warnShare(share: number, hybrid: boolean, tables: Tables, warnings: string[]): void {
  const low = constant(tables, 'bearing-constants', 'free-share-low').value;
  const high = constant(tables, 'bearing-constants', 'free-share-high').value;
  if (share > high)
    warnings.push(
      `${figure(share, 3)} % of the envelope would be free, usual is ${low} to ${high} %: ${hybrid ? 'check mass, balls and dimensions' : "is this a hybrid's mass? Then say so, and give number and diameter of its balls"}.`,
    );
  if (share < low)
    warnings.push(
      `Only ${figure(share, 3)} % of the envelope would be free, usual is ${low} to ${high} %: check mass and dimensions.`,
    );
}
