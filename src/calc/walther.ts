/**
 * Viscosity against temperature after ASTM D341 (Walther):
 * lg lg (nu + 0.7) = A - B lg T, nu in mm2/s, T in kelvin. Holds above about 2 mm2/s.
 */

export interface ViscosityPoint {
  /** mm2/s */
  readonly nu: number;
  /** degC */
  readonly t: number;
}

/** Of the absolute temperature. */
const log = (t: number): number => Math.log10(t + 273.15);
const loglog = (nu: number): number => Math.log10(Math.log10(nu + 0.7));

/** Viscosity in mm2/s at `t` degC from two measured points. Returns either point exactly. */
export function viscosityAt(a: ViscosityPoint, b: ViscosityPoint, t: number): number {
  if (t === a.t) return a.nu;
  if (t === b.t) return b.nu;
  const [xa, xb, x] = [log(a.t), log(b.t), log(t)];
  const [ya, yb] = [loglog(a.nu), loglog(b.nu)];
  const y = ya + ((yb - ya) * (x - xa)) / (xb - xa);
  return 10 ** (10 ** y) - 0.7;
}
