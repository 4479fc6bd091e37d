import type { Ended } from '../cli.js';
import type { Options } from './arguments.js';
export async function review(_: Options): Promise<Ended> {
  return { code: 2, err: 'not yet' };
}
