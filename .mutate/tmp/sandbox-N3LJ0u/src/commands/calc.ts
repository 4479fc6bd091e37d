/** `rotorside calc`: one calculator from the shell. */
// @ts-nocheck

import { readFileSync } from 'node:fs';
import { runCalc } from '../calc/command.js';
import type { Tables } from '../calc/types.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';

export function calc(o: Options): Ended {
  const tables = JSON.parse(readFileSync(new URL('./tables.json', import.meta.url), 'utf8')) as Tables;
  const { stdout, stderr, code } = runCalc(
    [...o.rest, ...(o.json ? ['--json'] : []), ...(o.help ? ['--help'] : [])],
    tables,
  );
  return { out: stdout, err: stderr, code };
}
