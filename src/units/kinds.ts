/** Kinds of quantity and the one canonical unit in which each is kept and computed. */
export const canonicalUnit = {
  length: 'mm',
  volume: 'mL',
  room: 'm3',
  mass: 'g',
  temperature: 'degC',
  'temperature-difference': 'K',
  speed: 'rpm',
  viscosity: 'mm2/s',
  duration: 'min',
  density: 'g/mL',
  share: '%',
  force: 'N',
  torque: 'N·m',
  pressure: 'bar',
  voltage: 'V',
  current: 'A',
  resistance: 'ohm',
  frequency: 'Hz',
  angle: 'deg',
  concentration: 'ppm',
  money: '',
  count: '',
  'speed-factor': 'mm/min',
  ratio: '',
} as const;

export type QuantityKind = keyof typeof canonicalUnit;

/** What else there is to know of a kind. */
interface KindTraits {
  /** It has a meaning below zero; any other refuses a minus. */
  readonly belowZero: boolean;
  /** `20.000` is more likely twenty thousand than twenty; shown as a whole number from ten on. */
  readonly whole: boolean;
  /** It runs over many powers of ten: the units that it is read in, the smallest first. Empty: its canonical unit. */
  readonly scale: readonly string[];
}
const plain: KindTraits = { belowZero: false, whole: false, scale: [] };
const whole: KindTraits = { ...plain, whole: true };
const signed: KindTraits = { ...plain, belowZero: true };

export const kindTraits: Readonly<Record<QuantityKind, KindTraits>> = {
  length: plain,
  // Solvent comes by the litre, grease by the millilitre.
  volume: { ...plain, scale: ['mL', 'L'] },
  room: plain,
  mass: plain,
  temperature: signed,
  'temperature-difference': signed,
  speed: whole,
  viscosity: plain,
  duration: plain,
  density: plain,
  share: plain,
  force: { ...plain, scale: ['N', 'kN'] },
  torque: plain,
  pressure: { ...plain, scale: ['mbar', 'bar'] },
  voltage: { ...signed, scale: ['mV', 'V', 'kV'] },
  current: { ...signed, scale: ['mA', 'A', 'kA'] },
  resistance: { ...plain, scale: ['mΩ', 'Ω', 'kΩ', 'MΩ', 'GΩ'] },
  frequency: plain,
  angle: signed,
  concentration: whole,
  money: whole,
  count: whole,
  'speed-factor': whole,
  ratio: plain,
};

/** Milliseconds in a day, for the difference of two instants. */
export const DAY = 86_400_000;
