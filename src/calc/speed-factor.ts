/**
 * Speed factors of a bearing.
 * n dm = n (d + D) / 2 and n d = n d, both mm/min, from bore d and outside diameter D in mm and speed n in rpm.
 * They are different numbers: a limit of one is no limit of the other.
 * Valid for any radial bearing with d < D. Uncertainty: first order in d, D and n.
 * Source: definitions; bands of n dm from the table fill-bands.
 */
import { defineCalculator } from './define.js';
import { arithmetic, bore, figure, oneOf, outsideInput, result, speed } from './spec.js';
import { bandOf } from './speed-band.js';
import { CalcRefusal, type Measured } from './types.js';
import { propagate } from './uncertainty.js';

/** Refuses rings that can't be: shared by all that take both diameters. */
export function checkRings(d: Measured, D: Measured): void {
  if (D.value <= d.value)
    throw new CalcRefusal(
      'outside',
      `The outside diameter (${figure(D.value)} mm) must be larger than the bore (${figure(d.value)} mm): measure again.`,
    );
}

export const speedFactor = defineCalculator({
  name: 'speed-factor',
  title: 'Speed factors n dm and n d',
  inputs: { bore, outside: outsideInput, speed: speed('Speed') },
  results: {
    ndm: result('Speed factor n dm (speed x mean diameter)', 'speed-factor', 'mm/min'),
    nd: result('n d', 'speed-factor', 'mm/min'),
    band: oneOf('Speed band of n dm', ['low', 'medium', 'high']),
  },
  formula: 'n dm = n (d + D) / 2;  n d = n d',
  source: arithmetic('definition of the speed factors'),
  run: (given, tables) => {
    const [d, D, n] = [given.number('bore'), given.number('outside'), given.number('speed')];
    checkRings(d, D);
    const ndm = propagate({ bore: d, outside: D, speed: n }, (x) => (x.speed * (x.bore + x.outside)) / 2);
    const nd = propagate({ bore: d, speed: n }, (x) => x.speed * x.bore);
    const { row, sources } = bandOf(ndm.value, tables);
    return {
      results: { ndm, nd, band: { value: String(row.band) } },
      warnings: ['n dm and n d are different numbers: hold each only against a limit of its own kind.'],
      worked: [
        `n dm = ${figure(n.value)} x (${figure(d.value)} + ${figure(D.value)}) / 2 = ${figure(ndm.value)} mm/min`,
        `n d = ${figure(n.value)} x ${figure(d.value)} = ${figure(nd.value)} mm/min`,
      ],
      sources,
    };
  },
});
