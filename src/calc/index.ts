/** All calculators by name. */

import { ballTest } from './ball-test.js';
import { bareSteel } from './bare-steel.js';
import { bead } from './bead.js';
import { capFill } from './cap-fill.js';
import { cause } from './cause.js';
import { cleaningPower } from './cleaning-power.js';
import { fill } from './fill.js';
import { freeVolume } from './free-volume.js';
import { frequencies } from './frequencies.js';
import { consistency, viscosityGrade } from './grades.js';
import { greaseCheck } from './grease-check.js';
import { greaseLife } from './grease-life.js';
import { hotInterval } from './hot-interval.js';
import { inspection } from './inspection.js';
import { inspectionVerdict } from './inspection-verdict.js';
import { insulation } from './insulation.js';
import { insulationTest } from './insulation-test.js';
import { measuredVolume } from './measured-volume.js';
import { motorSpeed } from './motor-speed.js';
import { nextLook } from './next-look.js';
import { replenishment } from './replenishment.js';
import { requiredViscosityCalculator } from './required-viscosity.js';
import { residue } from './residue.js';
import { runIn } from './run-in.js';
import { runInStep } from './run-in-step.js';
import { saveOrScrap } from './save-or-scrap.js';
import { sealOil } from './seal-oil.js';
import { solvent } from './solvent.js';
import { speedFactor } from './speed-factor.js';
import { speedLimit } from './speed-limit.js';
import { stageRise } from './stage-rise.js';
import { syringe } from './syringe.js';
import { thickener } from './thickener.js';
import type { Calculator } from './types.js';
import { vapour } from './vapour.js';
import { viscosity } from './viscosity.js';
import { viscosityRatio } from './viscosity-ratio.js';

/** In the order of the job. */
const all: readonly Calculator[] = [
  motorSpeed,
  speedFactor,
  speedLimit,
  saveOrScrap,
  ballTest,
  residue,
  cause,
  cleaningPower,
  solvent,
  vapour,
  bareSteel,
  thickener,
  sealOil,
  viscosity,
  requiredViscosityCalculator,
  viscosityRatio,
  viscosityGrade,
  consistency,
  greaseCheck,
  freeVolume,
  measuredVolume,
  fill,
  syringe,
  bead,
  capFill,
  replenishment,
  insulationTest,
  insulation,
  runIn,
  runInStep,
  stageRise,
  frequencies,
  greaseLife,
  hotInterval,
  inspection,
  inspectionVerdict,
  nextLook,
];

export const calculators: Readonly<Record<string, Calculator>> = Object.fromEntries(all.map((c) => [c.name, c]));
