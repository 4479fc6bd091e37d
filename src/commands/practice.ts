/** `rotorside practice [ROTOR]`: starts a practice rotor; without a terminal, or asked for JSON, lists them. */

import { initialsSentence, sameInitials, tidyInitials } from '../engine/journal/initials.js';
import type { Library } from '../library/library.js';
import { openLibrary } from '../library/open-library.js';
import { near } from '../procedure/near.js';
import { showProblem } from '../procedure/problem.js';
import { safeText } from '../text/safe-text.js';
import { anyId, anyNumber } from '../training/generate.js';
import type { Rotor } from '../training/rotor-file.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { freshNumber, offered, rotorById } from './practice-rotors.js';
import { peopleIn, setUpClass, wrongPeople } from './set-up-class.js';

export async function practiceCommand(o: Options): Promise<Ended> {
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const rotors = offered(library);
  const wrong = wrongGiven(o, library);
  if (wrong !== undefined) return { err: wrong, code: 2 };
  if (o.any) return drawn(o, library);
  const named = o.rest[0];
  if (named !== undefined && !rotorById(library, named)) {
    const ids = rotors.map((r) => r.rotor);
    const cure = near(named, ids) || (ids.length ? `There are: ${ids.join(', ')}.` : 'There are none here.');
    return { err: `There is no practice rotor “${safeText(named, { max: 40 })}”. ${cure}`, code: 2 };
  }
  const own = named === undefined ? undefined : rotorById(library, named);
  if (o.key)
    return own
      ? { out: keyOf(own, library, o.from), code: 0 }
      : { err: 'Name the rotor whose key is wanted: rotorside practice ROTOR --key.', code: 2 };
  const list = rotors.map(({ rotor, title, story, procedure }) => ({ rotor, title, story: story.trim(), procedure }));
  if (o.json) return { out: JSON.stringify(list, undefined, 2), code: 0 };
  if (own && isClass(o)) return setUpClass(o, library, own);
  if (named === undefined && isClass(o))
    return { err: 'Name the rotor that all get: rotorside practice ROTOR --by …, or --any for a drawn one.', code: 2 };
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

/**
 * What is set in a rotor, and at which steps it shows.
 * @param from phase at which the apprentice begins: a trap that lies before it is not met
 */
function keyOf(rotor: Rotor, library: Library, from: string | undefined): string {
  const { steps = [], phases = [] } = library.procedures.get(rotor.procedure)?.procedure ?? {};
  const titleOf = (id: string | undefined): string => steps.find((s) => s.id === id)?.title ?? '';
  const order = (phase: string): number => phases.findIndex((p) => p.id === phase);
  const begins = from === undefined ? -1 : order(from);
  return [
    `${rotor.title}: the mentor's key`,
    '',
    ...rotor.traps.flatMap((t) => {
      const words = new Set(`${t.caught} ${t.fell}`.match(/\w+/g)?.map((w) => w.replace(/^way_/, '')));
      const at = steps.filter((s) => s.ask?.some((q) => words.has(q.key)));
      const before = at.length > 0 && at.every((s) => order(s.phase) < begins);
      return [
        `  ${t.title}`,
        ...(before ? [`      It lies before “${phases[begins]?.title}”: whoever begins there does not meet it.`] : []),
        ...(at.length ? [`      At: ${at.map((s) => s.title).join('; ')}`] : []),
        ...(t.too_late === undefined ? [] : [`      Too late after: ${titleOf(t.too_late)}`]),
        `      It is: ${(t.was ?? t.would_have).trim()}`,
        `      ${t.lesson.trim()}`,
      ];
    }),
  ].join('\n');
}

/** A sentence where something that was set beforehand can't be taken. */
function wrongGiven({ by, mentor, lessons, from }: Options, library: Library): string | undefined {
  const people = by === undefined ? undefined : wrongPeople(by);
  if (people !== undefined) return people;
  if (mentor !== undefined && tidyInitials(mentor) === undefined) return `--mentor: ${initialsSentence}`;
  if (by !== undefined && mentor !== undefined && peopleIn(by).some((one) => sameInitials(one, mentor)))
    return 'The mentor is another person than the one who practises; name two.';
  if (lessons !== undefined && lessons !== 'at-end' && lessons !== 'at-once')
    return '--lessons is at-end or at-once; type --lessons at-once.';
  const phases = [...library.procedures.values()].flatMap((p) => p.procedure.phases.slice(1).map((x) => x.id));
  if (from !== undefined && from !== 'start' && !phases.includes(from))
    return `There is no phase “${safeText(from, { max: 40 })}”. ${near(from, phases) || `There are: start, ${[...new Set(phases)].join(', ')}.`}`;
  return undefined;
}

/** Several people at once: their jobs are made, and each goes on with its own. */
const isClass = ({ by = '' }: Options): boolean => peopleIn(by).length > 1;

const firstSentence = (text: string): string => `${text.trim().split(/[.!?] /)[0] ?? ''}.`.replace(/\.\.$/, '.');

/** What is set in it is told to nobody who did not ask for the key. */
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
  if (!o.key && isClass(o)) return setUpClass(o, library, rotor);
  if (!o.key) return (await import('./open.js')).open({ ...o, rest: [id] });
  return {
    out: [keyOf(rotor, library, o.from), '', `On a terminal, rotorside practice --any ${number} starts it.`].join('\n'),
    code: 0,
  };
}
