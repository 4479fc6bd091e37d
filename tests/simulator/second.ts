/**
 * A second simulator that shares no line of physics with the first, so that the rules are also tried on rotors that they
 * were not set by. Three nodes (inner ring, outer ring, housing). Friction by parts: rolling Mrr = G (nu n)^0.6 with a
 * factor for starved tracks, sliding with a friction coefficient, grease drag that shears away, all as in the general
 * catalogue of SKF (2008 and later; from memory), with viscosity by an exponential in temperature (Reynolds). Grease works
 * itself in on two time scales, lumps fall back by chance, and preload goes with the inner ring's lead to the power 1.5
 * (Hertz).
 */
import type { Random } from '../../src/simulator/random.js';
import type { Machine } from '../bench/run-in/crew.js';

interface Side {
  readonly g: number;
  readonly nu40: number;
  /** 1/K */
  readonly thinning: number;
  /** W at 1 rad/s for a unit of sliding load */
  readonly slide: number;
  readonly drag: number;
  readonly quick: number;
  readonly lazy: number;
  readonly clogged: number;
  readonly falls: readonly { readonly stage: number; readonly after: number; readonly size: number }[];
  readonly hertz: number;
  readonly starving: number;
  readonly c: readonly [inner: number, outer: number, housing: number];
  readonly k: readonly [balls: number, seat: number, room: number];
  readonly motor: number;
}
interface Node {
  t: [number, number, number];
  quick: number;
  lazy: number;
  run: number;
  fallen: Set<number>;
}

const count = 10;

function heat(s: Side, n: Node, rpm: number): number {
  if (rpm <= 0) return 0;
  const mean = (n.t[0] + n.t[1]) / 2;
  const nu = Math.max(2, s.nu40 * Math.exp(-s.thinning * (Math.min(mean, 150) - 40)));
  const starved = 1 / Math.exp(4e-9 * nu * rpm * 60);
  const rolling = s.g * (nu * rpm) ** 0.6 * starved;
  // Most have neither: then the powers are not worked out.
  const grip = s.starving === 0 ? 1 : 1 + s.starving * (1 - Math.exp(-n.run / 180));
  const squeeze = s.hertz === 0 ? 1 : 1 + s.hertz * Math.max(0, (n.t[0] - n.t[2]) / 10) ** 1.5;
  const churn = s.drag * (n.quick + n.lazy + s.clogged) * (rpm / 1000) ** 0.3 * nu ** 0.35;
  return (rolling + s.slide * squeeze * grip + churn) * rpm * 1.047e-4;
}

function step(s: Side, n: Node, room: number, rpm: number, top: number, dt: number): void {
  const h = heat(s, n, rpm);
  const [i, o, c] = n.t;
  const across = s.k[0] * (i - o);
  const seat = s.k[1] * (o - c);
  const motor = s.motor * (rpm / top) ** 2;
  n.t = [
    Math.min(300, i + (60 * dt * (0.55 * h - across)) / s.c[0]),
    Math.min(300, o + (60 * dt * (0.45 * h + across - seat)) / s.c[1]),
    // A rotor moves air: it cools better at speed.
    Math.min(300, c + (60 * dt * (seat + motor - s.k[2] * (1 + 0.25 * (rpm / top)) * (c - room))) / s.c[2]),
  ];
  if (rpm <= 0) return;
  n.quick *= Math.exp((-dt / 5) * (rpm / top) ** 0.3);
  n.lazy *= Math.exp((-dt / 35) * (rpm / top) ** 0.3);
  n.run += dt;
}

function draw(random: Random, fault: string, rise: number, room: number, top: number, slow: number): Side {
  const nu40 = random.ratio(15, 110);
  const ringShare = random.between(0.15, 0.45);
  const side: Side = {
    g: random.ratio(0.3, 2),
    nu40,
    thinning: random.between(0.022, 0.034),
    slide: random.ratio(3, 30),
    drag: 0,
    quick: random.between(0, 0.5),
    lazy: random.between(0, 0.25),
    clogged: 0,
    falls: [],
    hertz: 0,
    starving: 0,
    c: [1, 1, 1],
    k: [1, 1, 1],
    motor: 0,
  };
  const node: Node = { t: [room + rise, room + rise, room + rise], quick: 0, lazy: 0, run: 0, fallen: new Set() };
  const h = heat(side, node, top);
  const motor = random.chance(0.4) ? h * random.between(0, 0.7) : 0;
  const k1 = h / (ringShare * rise);
  const k2 = (h + motor) / (1.25 * (1 - ringShare) * rise);
  const k0 = k1 * random.between(0.8, 2);
  const c1 = 60 * random.ratio(1.2, 5) * k1;
  // One unit of churning is as much heat as all the rest at top speed.
  const drag = h / (top * 1.047e-4) / ((top / 1000) ** 0.3 * nu40 ** 0.35);
  const lump = (size: number) => ({
    stage: Math.ceil(random.between(2, count)),
    after: random.between(0, 14),
    size: size * random.between(0.4, 1.3),
  });
  const bad: Partial<Side> =
    fault === 'spike'
      ? { falls: [lump(4), lump(4), lump(2)], quick: random.between(0, 2) }
      : fault === 'clogged'
        ? { clogged: random.between(0.4, 4), lazy: random.between(0, 1) }
        : fault === 'squeezed'
          ? { hertz: random.ratio(0.3, 12) }
          : fault === 'starving'
            ? { starving: random.ratio(0.5, 8) }
            : {};
  return { ...side, drag, motor, c: [c1 * random.between(0.5, 1), c1, 60 * slow * 1.25 * k2], k: [k0, k1, k2], ...bad };
}

const shares: readonly (readonly [string, number])[] = [
  ['none', 0.42],
  ['spike', 0.2],
  ['clogged', 0.13],
  ['squeezed', 0.11],
  ['starving', 0.06],
  ['badly-cooled', 0.08],
];

export function drawSecond(random: Random): { fault: string; slow: number; machine: Machine } {
  let left = random.between(0, 1);
  let fault = 'none';
  for (const [name, share] of shares) {
    if (left >= 0 && left < share) fault = name;
    left -= share;
  }
  const top = random.ratio(5000, 30_000);
  const room = random.between(10, 35);
  const slow = random.ratio(20, 150);
  const usual = random.between(10, Math.min(38, 62 - room));
  const where = random.chance(0.5) ? 1 : 0;
  const sides = [0, 1].map((i) => {
    const mine = i === where || random.chance(0.2) ? fault : 'none';
    const rise = mine === 'badly-cooled' ? random.between(40, 90) : usual * random.between(0.7, 1);
    return draw(random, mine, rise, room, top, slow * random.between(0.9, 1.1));
  });
  const start: Machine['start'] = () => {
    const nodes = sides.map(
      (s): Node => ({ t: [room, room, room], quick: s.quick, lazy: s.lazy, run: 0, fallen: new Set() }),
    );
    let [stage, since] = [0, 0];
    return {
      setStage: (to) => {
        if (to !== stage) since = 0;
        stage = to;
      },
      run: (minutes) => {
        for (let rest = minutes; rest > 1e-9; ) {
          const dt = Math.min(0.1, rest);
          for (const [i, s] of sides.entries()) {
            const n = nodes[i];
            if (!n) continue;
            for (const [k, fall] of s.falls.entries())
              if (stage === fall.stage && since >= fall.after && !n.fallen.has(k)) {
                n.fallen.add(k);
                n.quick += fall.size;
              }
            step(s, n, room, (top * stage) / count, top, dt);
          }
          since += dt;
          rest -= dt;
        }
      },
      temps: () => [nodes[0]?.t[1] ?? room, nodes[1]?.t[1] ?? room],
    };
  };
  return { fault, slow, machine: { stages: count, top, room, start } };
}
