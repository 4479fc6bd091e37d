/** Where the simulated bearing must end and how quickly, from its balance of heat alone: what its steps are held against. */
import { type BearingSpec, frictionHeat } from '../../src/simulator/bearing.js';

/** Beyond it nothing is left to heat, as in the simulator; degC. */
const hottest = 300;

/** Where it ends at a steady speed, with what never finds a way out still in the track; degC. */
export function endTemperature(b: BearingSpec, rpm: number, topRpm: number, room: number): number {
  let ring = room;
  let housing = room;
  const motor = b.motor * (rpm / topRpm) ** 2;
  for (let i = 0; i < 4000; i++) {
    const heat = frictionHeat(b, ring, housing, b.grease.stuck, rpm, 1 + b.grease.driest);
    const wantHousing = room + (heat + motor) / b.housingToRoom;
    const wantRing = wantHousing + heat / b.ringToHousing;
    const moved = Math.abs(wantRing - ring) + Math.abs(wantHousing - housing);
    ring = Math.min(hottest, ring + 0.1 * (wantRing - ring));
    housing = Math.min(hottest, housing + 0.1 * (wantHousing - housing));
    if (moved < 1e-7) break;
  }
  return ring;
}

/** The two time constants of the network with a steady heat, slow one first, min. */
export function timeConstants(b: BearingSpec): readonly [slow: number, fast: number] {
  const a = b.ringToHousing / b.ringHeat;
  const c = b.ringToHousing / b.housingHeat;
  const d = b.housingToRoom / b.housingHeat;
  const trace = a + c + d;
  const root = Math.sqrt(trace * trace - 4 * a * d);
  return [2 / (trace - root) / 60, 2 / (trace + root) / 60];
}
