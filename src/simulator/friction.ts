/**
 * Friction of a grease-lubricated deep groove ball bearing after Palmgren, as in T. A. Harris, Rolling Bearing Analysis
 * (chapter on friction; from memory):
 *   load-free   M0 = 1e-7 f0 (nu n)^(2/3) dm^3     where nu n >= 2000, else 160e-7 f0 dm^3
 *   load        M1 = f1 F dm,  f1 = z (F / C0)^y,  z = 0.0009, y = 0.55 for deep groove
 *   heat        H = 1.047e-4 n M
 * M in N mm, nu in mm2/s, n in rpm, dm in mm, F in N, H in W. f0 is 0.7 to 2 with grease.
 */

/** N mm. `f0` 0.7 to 2 for a settled grease, more while it churns. */
export function loadFreeTorque(f0: number, nu: number, rpm: number, dm: number): number {
  if (rpm <= 0) return 0;
  const flow = nu * rpm;
  if (flow < 2000) return 160e-7 * f0 * dm ** 3;
  const root = Math.cbrt(flow);
  return 1e-7 * f0 * root * root * dm ** 3;
}

/** N mm; `staticRating` C0 in N. */
export function loadTorque(force: number, staticRating: number, dm: number): number {
  if (force <= 0) return 0;
  return 0.0009 * (force / staticRating) ** 0.55 * force * dm;
}

/** W */
export const heatOf = (torque: number, rpm: number): number => 1.047e-4 * torque * rpm;
