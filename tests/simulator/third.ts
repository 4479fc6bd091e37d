/**
 * A third simulator, written before it was first run and not used to set any rule. Three nodes: shaft with inner ring,
 * outer ring, housing. Friction: Petroff's viscous drag, torque as nu n (N. P. Petroff 1883, as in any text on lubrication;
 * from memory), with viscosity after Vogel, and boundary friction that falls with speed (R. Stribeck 1902). Grease is worked
 * out by turns, not by minutes, slumps back a little at rest, and lumps come in at any time after a change of speed.
 * Preload grows with the shaft's lead over the housing; its torque goes with the power 4/3 (Hertz). The room drifts.
 */
import type { Random } from '../../src/simulator/random.js';
import type { Machine } from '../bench/run-in/crew.js';

interface Side {
  /** W at top speed and 40 degC: viscous, boundary. */
  readonly viscous: number;
  readonly boundary: number;
  /** K of Vogel: nu goes with exp(b / (T + 95)). */
  readonly vogel: number;
  readonly churn: number;
  readonly stuck: number;
  /** Turns at top speed, in minutes, that work out all but a third. */
  readonly workOut: number;
  readonly slump: number;
  readonly lumps: readonly { readonly stage: number; readonly after: number; readonly size: number }[];
  /** Preload over its cold value, a kelvin of lead. */
  readonly tight: number;
  readonly dry: number;
  /** Heat capacities J/K and conductances W/K. */
  readonly c: readonly [shaft: number, ring: number, housing: number];
  readonly k: readonly [balls: number, seat: number, room: number];
  readonly motor: number;
}
interface Node {
  t: [number, number, number];
  churn: number;
  run: number;
  done: Set<number>;
}
const count = 10;

const thick = (s: Side, t: number): number => Math.exp(s.vogel / (Math.min(160, t) + 95) - s.vogel / 135);

function heat(s: Side, n: Node, speed: number): number {
  if (speed <= 0) return 0;
  const [shaft, ring, housing] = n.t;
  const preload = (1 + s.tight * Math.max(0, shaft - housing)) ** (4 / 3);
  const viscous = s.viscous * thick(s, (shaft + ring) / 2) * speed * speed * (1 + n.churn);
  const boundary = s.boundary * speed * (1 + 0.5 * Math.exp(-8 * speed)) * (1 + s.dry * (1 - Math.exp(-n.run / 240)));
  return viscous + boundary * preload;
}

function step(s: Side, n: Node, room: number, speed: number, dt: number): void {
  const h = heat(s, n, speed);
  const [shaft, ring, housing] = n.t;
  const across = s.k[0] * (shaft - ring);
  const seat = s.k[1] * (ring - housing);
  n.t = [
    Math.min(300, shaft + (60 * dt * (0.5 * h + 0.3 * s.motor * speed * speed - across)) / s.c[0]),
    Math.min(300, ring + (60 * dt * (0.5 * h + across - seat)) / s.c[1]),
    Math.min(300, housing + (60 * dt * (seat + 0.7 * s.motor * speed * speed - s.k[2] * (housing - room))) / s.c[2]),
  ];
  if (speed > 0) {
    n.churn = s.stuck + (n.churn - s.stuck) * Math.exp((-dt * speed) / s.workOut);
    n.run += dt;
  } else n.churn += (s.slump * dt) / 60;
}

function draw(random: Random, fault: string, rise: number, room: number, slow: number): Side {
  const share = random.between(0.15, 0.5);
  const boundary = random.between(0.05, 0.45);
  const lump = () => ({
    stage: Math.ceil(random.between(1, count)),
    after: random.ratio(0.5, 20),
    size: random.between(0.5, 6),
  });
  const bare: Side = {
    viscous: 10 * (1 - boundary),
    boundary: 10 * boundary,
    vogel: random.between(700, 1200),
    churn: random.between(0, 0.6),
    stuck: 0,
    workOut: random.ratio(3, 15),
    slump: random.between(0, 0.05),
    lumps: [],
    tight: 0,
    dry: 0,
    c: [1, 1, 1],
    k: [1, 1, 1],
    motor: 0,
  };
  const t = room + rise;
  const h = heat(bare, { t: [t + 0.5 * share * rise, t, t], churn: 0, run: 0, done: new Set() }, 1);
  const motor = random.chance(0.5) ? h * random.between(0, 0.8) : 0;
  const seat = (h + 0.3 * motor) / (share * rise);
  const out = (h + motor) / ((1 - share) * rise);
  const ringHeat = 60 * random.ratio(1.2, 6) * seat;
  const bad: Partial<Side> =
    fault === 'spike'
      ? { lumps: [lump(), lump(), lump()], churn: random.between(0, 2) }
      : fault === 'stuck'
        ? { stuck: random.between(0.5, 6), churn: random.between(1, 3) }
        : fault === 'tight'
          ? { tight: random.ratio(0.03, 0.8) }
          : fault === 'dry'
            ? { dry: random.ratio(0.7, 8) }
            : {};
  return {
    ...bare,
    motor,
    c: [ringHeat * random.between(0.8, 2.5), ringHeat, 60 * slow * out],
    k: [seat * random.between(0.8, 2), seat, out],
    ...bad,
  };
}

const shares: readonly (readonly [string, number])[] = [
  ['none', 0.4],
  ['spike', 0.22],
  ['stuck', 0.12],
  ['tight', 0.12],
  ['dry', 0.06],
  ['badly-cooled', 0.08],
];

export function drawThird(random: Random): { fault: string; slow: number; machine: Machine } {
  let left = random.between(0, 1);
  let fault = 'none';
  for (const [name, part] of shares) {
    if (left >= 0 && left < part) fault = name;
    left -= part;
  }
  const top = random.ratio(5000, 30_000);
  const room = random.between(10, 35);
  const slow = random.ratio(20, 150);
  const usual = random.between(10, Math.min(38, 62 - room));
  const where = random.chance(0.5) ? 1 : 0;
  const drift = random.between(0, 1.5);
  const phase = random.between(0, 2 * Math.PI);
  const sides = [0, 1].map((i) => {
    const mine = i === where || random.chance(0.2) ? fault : 'none';
    const rise = mine === 'badly-cooled' ? random.between(40, 90) : usual * random.between(0.7, 1);
    return draw(random, mine, rise, room, slow * random.between(0.9, 1.1));
  });
  const start: Machine['start'] = () => {
    const nodes = sides.map((s): Node => ({ t: [room, room, room], churn: s.churn, run: 0, done: new Set() }));
    let [stage, since, minutes] = [0, 0, 0];
    return {
      setStage: (to) => {
        if (to !== stage) since = 0;
        stage = to;
      },
      run: (time) => {
        for (let rest = time; rest > 1e-9; ) {
          const dt = Math.min(0.1, rest);
          const around = room + drift * (Math.sin(phase + minutes / 80) - Math.sin(phase));
          for (const [i, s] of sides.entries()) {
            const n = nodes[i];
            if (!n) continue;
            for (const [k, l] of s.lumps.entries())
              if (stage === l.stage && since >= l.after && !n.done.has(k)) {
                n.done.add(k);
                n.churn += l.size;
              }
            step(s, n, around, stage / count, dt);
          }
          since += dt;
          minutes += dt;
          rest -= dt;
        }
      },
      temps: () => [nodes[0]?.t[1] ?? room, nodes[1]?.t[1] ?? room],
    };
  };
  return { fault, slow, machine: { stages: count, top, room, start } };
}
