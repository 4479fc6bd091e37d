/** What an invented rotor says: nothing that would teach a dangerous test, and nothing of another way than the one taken. */
import { describe, expect, it } from 'vitest';
import { firstOf } from '../../src/training/draw-words.js';
import { drawnRotor } from '../../src/training/generate.js';
import { PracticeRotor } from '../../src/training/practice-rotor.js';
import type { Phrasing } from '../../src/training/rotor-file.js';
import { catalogue, modelOfRotor, rotors } from './library.js';
import { planFor } from './plans.js';
import { walk } from './walk.js';

const model = modelOfRotor(catalogue[0]!);
const drawn = Array.from({ length: 60 }, (_, i) => new PracticeRotor(drawnRotor(i + 1, catalogue)!, model));
const all = (said: Phrasing | undefined): string[] => (said === undefined ? [] : [said].flat());

const sayings = catalogue.flatMap((r) => [
  ...[...r.readings, ...(r.draw?.readings ?? []), ...(r.draw?.one_of ?? []).flat(2)].flatMap((x) => [
    ...all(x.says),
    ...Object.values(x.sees ?? {}).flatMap(all),
    ...(x.ways ?? []).flatMap((w) => [
      ...[w.says, w.sees, w.harmless?.says, w.harmless?.sees].flatMap(all),
      ...(w.careless === undefined ? [w.label] : []),
    ]),
  ]),
  ...Object.values(r.looks ?? {}).flatMap((of) => Object.values(of).flatMap(all)),
]);

it.each([
  // Unknown grease can hold solvent, or give off hydrofluoric acid when it is heated; the guide allows no heater near.
  ['heats or lights unknown grease', /hot ?plate|\bflame|\blighter\b|\bstove\b|rubbed warm|heat gun|crackle/i],
  ['runs the machine before the run-in', /nothing to the top|every step that you try/i],
  ['lets a magnet jump at steel or hands', /leaps|jumps to it|both hands to get it back/i],
  // Glass that is pressed breaks into the glove.
  ['presses grease between glass', /glass plates|pressed on glass/i],
  // What runs off the cover is in the winding.
  ['tries a cover with a drop', /drop let fall|with a drop|water that you|tried with water|stops on the film/i],
  ['touches what can burn the skin without a glove', /two fingers\.|under the thumb/i],
])('none of them %s', (_, words) => {
  expect(sayings.length).toBeGreaterThan(300);
  expect(sayings.filter((s) => words.test(s))).toEqual([]);
});

it('nobody is told before the terminals are asked for that a meter was used', () => {
  for (const rotor of [...rotors, ...drawn])
    for (const key of ['coast_timed', 'stop_locked'])
      expect(rotor.shows('standstill', 'job', key, 0) ?? '', rotor.id).not.toMatch(/meter|proven/i);
});

it('every lock and every proof of the terminals is shown, whatever was answered before it', () => {
  const safe = new Set(['isolate', 'prove-dead', 'machine-dead']);
  for (const rotor of [...rotors, ...drawn])
    for (const step of rotor.model.procedure.steps)
      for (const q of step.ask ?? []) {
        if (q.kind !== 'choice' || safe.has(step.id)) continue;
        if (!q.options.some((o) => o.value === 'proven' || (o.value === 'locked' && step.hazard))) continue;
        for (const [id, { kind }] of rotor.model.place)
          if (kind === step.at && (id === 'job' || id.startsWith('a')))
            expect(rotor.mayShow(step.id, id, q.key), `${rotor.id} ${step.id}@${id} ${q.key}`).toBe(true);
      }
});

it('a rotor inside its stator is known by its plate: no clip comes near it, and the electrician parts its leads', () => {
  const weekend = rotors.find((r) => r.id === 'weekend')!;
  const end = (_: unknown, view: { step: { id: string } }): boolean => view.step.id === 'part-leads';
  const { state } = walk(weekend.model, weekend, { ...planFor(weekend, 'caught'), end });
  for (const rotor of [...rotors, ...drawn]) {
    const told = (step: string, key: string): string => rotor.shows(step, 'job', key, 0, state) ?? '';
    expect(told('magnets', 'magnets_found'), rotor.id).toMatch(/^The plate (?!.*clip)/);
    expect(told('part-leads', 'leads_apart'), rotor.id).toMatch(/electrician.*apart/);
  }
});

it('terminals that are told to be dead were tested in pairs and to earth, and the figure is 0', () => {
  for (const rotor of catalogue)
    for (const [key, of] of Object.entries(rotor.looks ?? {}))
      for (const said of key.includes('dead') ? all(of.proven) : []) {
        expect(said, key).toMatch(/pair.*to earth/);
        expect(said, key).not.toMatch(/nothing/);
      }
});

it('a ring is never told by what a seat has too', () => {
  // A seat is turned bright in a lathe; a ring is hardened and ground.
  const said = catalogue.flatMap((r) => all(r.looks?.sensor_at?.ring));
  expect(said.length).toBeGreaterThan(0);
  for (const s of said) expect(s).toMatch(/ring/);
});

it('what is said of several readings does not stand in front of one that has something to be seen of its own', () => {
  for (const rotor of [...rotors, ...drawn]) {
    const told = (step: string, at: string, key: string) => rotor.shows(step, at, key, 0) ?? '';
    expect(told('count-open', 'a', 'cage_side'), rotor.id).not.toMatch(/counted|rounds|pen mark/i);
    expect(told('history', 'a', 'got_in'), rotor.id).not.toMatch(/job sheet hangs|in the file|kept a diary/i);
    // A figure alone keeps it.
    expect(told('count-open', 'a', 'balls_seen'), rotor.id).toMatch(/counted|rounds|pen mark|^$/i);
    // A plate is read off before anything is measured or discharged.
    for (const key of ['rated_volts', 'ir_temp'])
      expect(told('winding-dry', 'job', key), rotor.id).not.toMatch(/discharge/i);
  }
});

describe('a careless way where its trap is not set', () => {
  const harmless = [...rotors, ...drawn].flatMap((rotor) => {
    const elsewhere = new Set((rotor.file.elsewhere ?? []).map((t) => t.id));
    return rotor.file.readings.flatMap((r) =>
      (r.ways ?? []).flatMap((w) => {
        const { key } = r;
        const good = r.ways?.find((x) => x.careless === undefined);
        if (key === undefined || w.careless === undefined || !elsewhere.has(w.careless) || !good) return [];
        const told = (way: string): string => rotor.shows(r.step, r.at, key, 0, undefined, way) ?? '';
        return [
          {
            rotor: rotor.id,
            key,
            kind: model.steps.get(r.step)?.ask?.find((q) => q.key === key)?.kind,
            careless: told(w.way),
            careful: told(good.way),
          },
        ];
      }),
    );
  });

  it('is not answered as if the careful way had been taken', () => {
    expect(harmless.length).toBeGreaterThan(100);
    const looked = harmless.filter((h) => h.kind !== 'quantity' && h.kind !== 'number');
    expect(looked.filter((h) => h.careless === h.careful || h.careless === '')).toEqual([]);
  });
  it('shows the same figure, as nothing is wrong', () => {
    const figures = harmless.filter((h) => h.kind === 'quantity');
    for (const h of figures) expect(h.careless.split(' - ').at(-1), h.rotor).toBe(h.careful.split(' - ').at(-1));
  });
});

it('seals, contacts and water are told in the words of the step', () => {
  const plain = catalogue.find((r) => r.draw)!;
  for (const said of all(plain.looks?.leads?.beep)) expect(said).toContain('tone');
  for (const said of all(plain.looks?.ball_probes?.open)) expect(said).toMatch(/(tone|silent).*twice/);
  for (const said of all(plain.looks?.magnet?.['not-attracted'])) expect(said).toMatch(/^The magnet/);
  for (const at of ['a.front', 'a.back']) {
    const reading = plain.readings.find((r) => r.step === 'seal-make' && r.at === at);
    for (const said of all(reading?.sees?.seal_kind)) expect(said).toMatch(/between (it|its lip) and the inner ring/);
  }
  expect(firstOf(plain.looks?.cap_room?.none)).not.toMatch(/shield/);
});
