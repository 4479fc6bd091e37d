/** Drawings as SVG for the page: self-contained, described in words, no script. */
import { svgBearing } from './bearing-svg.js';
import { svgCage } from './cage-svg.js';
import { svgLife } from './life-svg.js';
import { isPicture, type PictureName, type PictureValues } from './picture.js';
import { svgProbes } from './probes-svg.js';
import { svgRunIn } from './run-in-svg.js';
import { svgSyringe } from './syringe-svg.js';

const draw: Readonly<Record<PictureName, (values: PictureValues) => string>> = {
  syringe: svgSyringe,
  'bearing-section': svgBearing,
  'cage-side': svgCage,
  probes: svgProbes,
  'run-in-curve': svgRunIn,
  'life-curve': svgLife,
};

/** One `<svg>` element; empty for an unknown name. */
export const svgDrawing = (picture: string, values: PictureValues): string =>
  isPicture(picture) ? draw[picture](values) : '';
