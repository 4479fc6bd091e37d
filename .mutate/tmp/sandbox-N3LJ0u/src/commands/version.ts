// @ts-nocheck
import { readFileSync } from 'node:fs';

/** The program's version, from package.json beside the bundle's folder. */
export const version = (
  JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8')) as { version: string }
).version;
