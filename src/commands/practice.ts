/** `rotorside practice [ROTOR]`: starts a practice rotor; without a terminal, or asked for JSON, lists them. */

import type { Library } from '../library/library.js';
import { openLibrary } from '../library/open-library.js';
import { near } from '../procedure/near.js';
import { showProblem } from '../procedure/problem.js';
import { safeText } from '../text/safe-text.js';
import { anyId, anyNumber } from '../training/generate.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { freshNumber, offered, rotorById } from './practice-rotors.js';

export async function practiceCommand(o: Options): Promise<Ended> {
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const rotors = offered(library);
  if (o.any) return drawn(o, library);
  const named = o.rest[0];
  if (named !== undefined && !rotorById(library, named)) {
    const ids = rotors.map((r) => r.rotor);
    const cure = near(named, ids) || (ids.length ? `There are: ${ids.join(', ')}.` : 'There are none here.');
    return { err: `There is no practice rotor “${safeText(named, { max: 40 })}”. ${cure}`, code: 2 };
  }
  const list = rotors.map(({ rotor, title, story, procedure }) => ({ rotor, title, story: story.trim(), procedure }));
  if (o.json) return { out: JSON.stringify(list, undefined, 2), code: 0 };
  if (named === undefined && !(process.stdin.isTTY && process.stdout.isTTY))
    return {
      out: [
        'Invented rotors to practise on:',
        '',
        ...list.map((r) => `  ${r.rotor.padEnd(16)} ${r.title}. ${firstSentence(r.story)}`),
        '',
        'On a terminal, rotorside practice ROTOR starts one, and rotorside practice --any draws a new one.',
      ].join('\n'),
      code: 0,
    };
  return (await import('./open.js')).open(o);
}

const firstSentence = (text: string): string => `${text.trim().split(/[.!?] /)[0] ?? ''}.`.replace(/\.\.$/, '.');

/** Without a terminal, or asked for JSON, it prints what is set in it: the mentor's key. */
async function drawn(o: Options, library: Library): Promise<Ended> {
  const typed = o.rest[0];
  const number = typed === undefined ? freshNumber(library) : anyNumber(anyId(Number(typed)));
  if (number === undefined || o.rest.length > 1)
    return {
      err: `“${safeText(o.rest.join(' '), { max: 40 })}” is no number of a rotor; type a whole one such as rotorside practice --any 17.`,
      code: 2,
    };
  const id = anyId(number);
  const rotor = rotorById(library, id);
  if (!rotor) return { err: 'No practice rotor is here that others can be drawn from.', code: 2 };
  if (o.json) return { out: JSON.stringify(rotor, undefined, 2), code: 0 };
  if (process.stdin.isTTY && process.stdout.isTTY) return (await import('./open.js')).open({ ...o, rest: [id] });
  return {
    out: [
      `${rotor.title}: the mentor's key`,
      '',
      ...rotor.traps.flatMap((t) => [
        `  ${t.title}`,
        `      It is: ${(t.was ?? t.would_have).trim()}`,
        `      ${t.lesson.trim()}`,
      ]),
      '',
      `On a terminal, rotorside practice --any ${number} starts it.`,
    ].join('\n'),
    code: 0,
  };
}
