/** `rotorside practice [ROTOR]`: starts a practice rotor; without a terminal, or asked for JSON, lists them. */
// @ts-nocheck

import { openLibrary } from '../library/open-library.js';
import { near } from '../procedure/near.js';
import { showProblem } from '../procedure/problem.js';
import { safeText } from '../text/safe-text.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';

export async function practice(o: Options): Promise<Ended> {
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const rotors = [...library.rotors.values()];
  const named = o.rest[0];
  if (named !== undefined && !library.rotors.has(named)) {
    const ids = rotors.map((r) => r.rotor);
    const cure = near(named, ids) || (ids.length ? `There are: ${ids.join(', ')}.` : 'There are none here.');
    return { err: `There is no practice rotor “${safeText(named, { max: 40 })}”. ${cure}`, code: 2 };
  }
  const list = rotors.map(({ rotor, title, teaches, procedure }) => ({ rotor, title, teaches, procedure }));
  if (o.json) return { out: JSON.stringify(list, undefined, 2), code: 0 };
  if (named === undefined && !(process.stdin.isTTY && process.stdout.isTTY))
    return {
      out: [
        'Invented rotors to practise on:',
        '',
        ...list.map((r) => `  ${r.rotor.padEnd(16)} ${r.title}. ${r.teaches}`),
        '',
        'On a terminal, rotorside practice ROTOR starts one.',
      ].join('\n'),
      code: 0,
    };
  return (await import('./open.js')).open(o);
}
