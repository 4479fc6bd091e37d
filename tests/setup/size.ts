/**
 * How much of each check runs: a sample of it in the daily run, the big numbers in `npm run test:long`. No check is
 * left out of the daily run, it only has fewer cases there.
 */
export const long = process.env.ROTORSIDE_TESTS === 'long';

/** The daily number, or the big one in the long run. */
export const size = (daily: number, big: number): number => (long ? big : daily);

/**
 * The seed of everything drawn at random: fixed in the daily run, so that it is the same on every machine; new in each
 * long run. `ROTORSIDE_SEED` gives one by hand. A failure prints it.
 */
export const seed = Number(process.env.ROTORSIDE_SEED ?? 20_260_302);

/** Numbers from 0 to 1, below 1, that come again for the same seed. */
export { uniformOf as random } from '../../src/simulator/random.js';
