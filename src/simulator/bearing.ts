/**
 * One bearing of a simulated rotor: two thermal nodes, ring and housing.
 *   Cr dTr/dt = H - Grh (Tr - Th)
 *   Ch dTh/dt = Grh (Tr - Th) - Gha (Th - room) + motor
 * H is Palmgren's friction. Grease adds to f0 while it churns: an excess that is worked out of the track with time and
 * speed, lumps that a higher speed draws in, and what never finds a way out. Preload grows with the ring's lead over the
 * housing (J. L. Stein and J. F. Tu, A State-Space Model for Monitoring Thermally Induced Preload in Anti-Friction
 * Spindle Bearings of High-Speed Machine Tools, J. Dyn. Syst. Meas. Control 116, 1994, 372-386; from memory).
 * Temperatures degC, times min, heat W, conductances W/K, capacities J/K.
 */
import { type ViscosityPoint, viscosityAt } from '../calc/walther.js';
import { heatOf, loadFreeTorque, loadTorque } from './friction.js';

export interface Grease {
  /** Base oil at 40 and 100 degC, mm2/s. */
  readonly oil: readonly [ViscosityPoint, ViscosityPoint];
  /** f0 once the grease stands beside the track. */
  readonly f0: number;
  /** Multiple of f0 that churns when the run-in begins. */
  readonly excess: number;
  /** Multiple of f0 that each stage draws in the first time, from stage 1 on. */
  readonly lumps: readonly number[];
  /** Minutes after the change of speed at which a lump comes in. */
  readonly lumpAfter: number;
  /** Multiple of f0 that finds no way out: overfilled, or a grease that does not channel. */
  readonly stuck: number;
  /** Time constant of working out at top speed, min. */
  readonly workOut: number;
  /** Growth of the load-free torque an hour, and where it ends: oil that is missing. 0 where there is enough. */
  readonly drying: number;
  readonly driest: number;
}

export interface BearingSpec {
  /** Pitch diameter, mm. */
  readonly dm: number;
  /** N */
  readonly staticRating: number;
  /** Preload while cold, N. */
  readonly force: number;
  /** N a kelvin of the ring over the housing. */
  readonly forcePerKelvin: number;
  readonly grease: Grease;
  readonly ringHeat: number;
  readonly housingHeat: number;
  readonly ringToHousing: number;
  readonly housingToRoom: number;
  /** Heat of the motor in the housing at top speed, W; it goes with the square of speed. */
  readonly motor: number;
}

export interface BearingState {
  readonly ring: number;
  readonly housing: number;
  /** Multiple of f0 that churns now. */
  readonly churn: number;
  /** Minutes that it has run. */
  readonly run: number;
}

/** The ring can't be hotter than this: nothing of the model holds there any more. */
const hottest = 300;

/** Temperatures of the table below: degC. */
const [coldest, warmest, tableStep] = [-40, 200, 0.25];
const tables = new WeakMap<Grease['oil'], Float64Array>();

/** Viscosity from a table of `viscosityAt`, in straight lines between its points: within 1e-4 of it, ten times as quick. */
function viscosityOf(oil: Grease['oil'], t: number): number {
  let table = tables.get(oil);
  if (!table) {
    table = Float64Array.from({ length: (warmest - coldest) / tableStep + 2 }, (_, i) =>
      viscosityAt(oil[0], oil[1], coldest + i * tableStep),
    );
    tables.set(oil, table);
  }
  const at = (Math.min(warmest, Math.max(coldest, t)) - coldest) / tableStep;
  const i = Math.floor(at);
  const low = table[i] ?? 0;
  return low + (at - i) * ((table[i + 1] ?? 0) - low);
}

/** Friction heat, W. `dry` multiplies the load-free part. */
export function frictionHeat(
  b: BearingSpec,
  ring: number,
  housing: number,
  churn: number,
  rpm: number,
  dry = 1,
): number {
  if (rpm <= 0) return 0;
  const nu = Math.max(2, viscosityOf(b.grease.oil, ring));
  const f0 = b.grease.f0 * (1 + churn) * dry;
  const force = b.force + b.forcePerKelvin * Math.max(0, ring - housing);
  return heatOf(loadFreeTorque(f0, nu, rpm, b.dm) + loadTorque(force, b.staticRating, b.dm), rpm);
}

export const atRest = (room: number): BearingState => ({ ring: room, housing: room, churn: 0, run: 0 });

const dryness = (g: Grease, run: number): number => 1 + Math.min(g.driest, (g.drying * run) / 60);

/** One step of `minutes` at a steady speed (Heun, second order). Keep steps at half a minute or less. */
export function stepBearing(
  b: BearingSpec,
  s: BearingState,
  rpm: number,
  topRpm: number,
  room: number,
  minutes: number,
): BearingState {
  const speed = rpm / topRpm;
  const dry = dryness(b.grease, s.run);
  const motor = b.motor * speed * speed;
  const slope = (ring: number, housing: number): readonly [number, number] => {
    const flow = b.ringToHousing * (ring - housing);
    const heat = frictionHeat(b, ring, housing, s.churn, rpm, dry);
    return [
      (60 * (heat - flow)) / b.ringHeat,
      (60 * (flow + motor - b.housingToRoom * (housing - room))) / b.housingHeat,
    ];
  };
  const [r1, h1] = slope(s.ring, s.housing);
  const [r2, h2] = slope(s.ring + r1 * minutes, s.housing + h1 * minutes);
  const left = rpm > 0 ? Math.exp((-minutes / b.grease.workOut) * Math.sqrt(speed)) : 1;
  return {
    ring: Math.min(hottest, s.ring + ((r1 + r2) / 2) * minutes),
    housing: Math.min(hottest, s.housing + ((h1 + h2) / 2) * minutes),
    churn: b.grease.stuck + (s.churn - b.grease.stuck) * left,
    run: rpm > 0 ? s.run + minutes : s.run,
  };
}
