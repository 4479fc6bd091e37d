/** Practice that begins at a later phase, quiet readings that pass, and lessons that are told as soon as harm is done. */
import { describe, expect, it } from 'vitest';
import { beginLate, type FirstEntry, fillTo, inMemory } from '../../src/commands/fill-practice.js';
import { propose } from '../../src/engine/actions/propose.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import type { Library } from '../../src/library/library.js';
import type { OpenJob } from '../../src/screens/app-contract.js';
import { debriefOf } from '../../src/training/debrief.js';
import { debriefText } from '../../src/training/debrief-lines.js';
import { setUpAt } from '../../src/training/filled.js';
import { drawnRotor } from '../../src/training/generate.js';
import { harmsNow } from '../../src/training/harm.js';
import { PracticeRotor } from '../../src/training/practice-rotor.js';
import { attemptOf } from '../../src/training/progress.js';
import { library } from '../procedure/library.js';
import { long } from '../setup/size.js';
import { bareJob, START } from './bare-job.js';
import { catalogue, modelOfRotor, rotorNamed, rotors } from './library.js';
import { planFor } from './plans.js';
import { walk } from './walk.js';

const shipped: Library = { ...library, rotors: new Map(catalogue.map((r) => [r.rotor, r])) };
const drawn = Array.from({ length: 10 }, (_, i) => drawnRotor(i + 1, catalogue)!).map(
  (file) => new PracticeRotor(file, modelOfRotor(file)),
);
describe('a late start', () => {
  it.each([
    ['quiet-one', 'seals-off'],
    ['stage-six', 'run-in'],
    ['brown-seal', 'clean'],
    ['two-tins', 'grease'],
    ['glitter', 'residue'],
  ])('of %s stands at the first step of “%s”, and the bench did what comes before', async (id, phase) => {
    const rotor = rotorNamed(id);
    const { job, clock, state } = bareJob(rotor, phase);
    expect(await fillTo(job, rotor, phase, clock)).toBeUndefined();
    const now = state();
    expect(now.available('a')[0]?.step.phase).toBe(phase);
    // Nothing of what comes before is still to be done, at once or after a wait.
    const order = rotor.model.procedure.phases.map((p) => p.id);
    const left = [...now.available('a'), ...now.waiting].map((v) => order.indexOf(v.step.phase));
    expect(Math.min(...left)).toBe(order.indexOf(phase));
    expect(now.entries.slice(1, -1).every((e) => e.by === 'BENCH')).toBe(true);
    expect(now.ledger.operator).toBe('AP');
  });
  describe.each([...rotors, ...drawn].map((r, i) => [r.id, r, i] as const))('of %s', (id, rotor, i) => {
    const phases = rotor.model.procedure.phases.map((p) => p.id);
    const some = phases.slice(1).filter((_, p) => long || p % 5 === i % 5);
    const each = some.flatMap((phase) => [[phase, 'MN'] as const, [phase, undefined] as const]);
    it.each(each.filter((_, n) => long || (n + i) % 2 === 0))(
      'arrives at “%s”, mentor %s, and stands there after a restart too',
      async (phase, mentor) => {
        const { first, clock } = bareJob(rotor, phase, mentor, 'CA');
        const made = (entry: FirstEntry) =>
          ({ ok: true, value: inMemory(entry, clock) as unknown as OpenJob }) as const;
        const store = { create: async (_: string, entry: FirstEntry) => made(entry) };
        const opened = await beginLate(store, shipped, first, {}, clock);
        if (!opened.ok) throw new Error(opened.trouble.sentence);
        const again = JSON.parse(JSON.stringify(opened.value.entries)) as Entry[];
        // What was done is past: no time lies ahead of the clock, and none before the one above it.
        const times = again.map((e) => Date.parse(e.at));
        expect([clock.now(), times.at(-1)]).toEqual([START, START]);
        expect(times).toEqual([...times].sort((a, b) => a - b));
        const now = new State(rotor.model, again, START);
        expect(setUpAt(now)).toBe(new Date(START).toISOString());
        const at = now.available('a')[0]!;
        expect(now.ledger.operator).toBe('CA');
        // Nothing is confirmed over and over.
        const dangers = now.entries.flatMap((e) => (e.kind === 'caution' ? [`${e.step}@${e.place}`] : []));
        expect(Math.max(...[...new Set(dangers)].map((d) => dangers.filter((x) => x === d).length))).toBeLessThan(4);
        expect(opened.notice).toBeUndefined();
        // Whoever comes to a machine that is locked out hangs an own lock first.
        if (id === 'weekend' && at.step.id === 'own-lock') return;
        expect(phases.indexOf(at.step.phase)).toBeGreaterThanOrEqual(phases.indexOf(phase));
      },
    );
  });
  it('stops at the first repeat and says where and why', async () => {
    const rotor = rotorNamed('quiet-one');
    const { job, clock } = bareJob(rotor, 'seals-off');
    const deaf: typeof job = {
      added: [],
      get entries() {
        return job.entries;
      },
      // A danger that stays as if nobody had confirmed it.
      append: (drafts) => job.append(drafts.filter((d) => d.kind !== 'caution')),
    };
    expect(await fillTo(deaf, rotor, 'seals-off', clock)).toMatch(
      /^Filled in up to “.+” and no further: the same is asked there again\. Go on from there\.$/,
    );
    expect(job.entries.length).toBeLessThan(40);
  });
  it('counts nothing for the apprentice that was seen through before', async () => {
    const rotor = rotorNamed('quiet-one');
    const { job, clock, state } = bareJob(rotor, 'run-in');
    await fillTo(job, rotor, 'run-in', clock);
    const made = debriefOf(state(), rotor);
    expect([made.traps, made.predictions, made.holds]).toEqual([[], [], []]);
    expect(made.from).toBe('run-in');
    // Set up and not begun is no practice yet; its first line makes it one.
    expect(made.begun).toBe(false);
    expect(attemptOf('j', made)).toBeUndefined();
    const begun = attemptOf('j', { ...made, begun: true });
    expect(JSON.parse(begun?.value ?? '')).toMatchObject({ begunLate: true, caught: 0 });
  });
  it('still meets the trap that lies ahead', async () => {
    const rotor = rotorNamed('stage-six');
    const { job, clock, state } = bareJob(rotor, 'run-in');
    await fillTo(job, rotor, 'run-in', clock);
    expect(debriefOf(state(), rotor).traps.map((t) => t.end)).toEqual(['not-met']);
  });
});

describe('a lesson at once', () => {
  const rotor = rotorNamed('quiet-one');
  const { entries } = walk(modelOfRotor(rotor), rotor, planFor(rotor, 'fell'));
  const at = (n: number) => harmsNow(new State(rotor.model, entries.slice(0, n), START + 1e9), rotor);
  it('is told when it is too late to put right, not before, and names the cause', () => {
    const cloth = entries.findIndex((e) => e.kind === 'answer' && e.key === 'cloth') + 1;
    expect(at(cloth)).toEqual([]);
    const first = entries.findIndex((_, i) => at(i + 1).length > 0);
    const done = entries[first];
    expect(done && 'step' in done && done.step).toBe('gap-fill');
    const trap = rotor.file.traps[0]!;
    expect(at(first + 1).map((h) => h.id)).toEqual([trap.id]);
    expect(debriefText(debriefOf(new State(rotor.model, entries, START + 1e9), rotor))).toContain(trap.was);
    expect(
      at(first + 1)[0]
        ?.lines.map((l) => l.text)
        .join(),
    ).toContain(trap.was);
  });
  it('is told of nobody who was careful', () => {
    const careful = walk(rotor.model, rotor, planFor(rotor, 'caught')).state;
    expect(harmsNow(careful, rotor)).toEqual([]);
  });
});

describe('what is quiet', () => {
  const rotor = rotorNamed('quiet-one');
  const { job, clock, state } = bareJob(rotor, 'open');
  it('is what the rotor shows in the answer’s own words, and nothing that has to be looked at', async () => {
    await fillTo(job, rotor, 'first-look', clock);
    const quiet = (step: string, key: string, place = 'job') => rotor.quiet(step, place, key, 0, state());
    expect(quiet('duty', 'run_temp')).toBe('58 C');
    expect(quiet('costs', 'pair_price')).toBe('640');
    // A finding, a way, and what nobody shows.
    expect(quiet('first-feel', 'first_findings', 'a')).toBeUndefined();
    expect(quiet('white-cloth', 'cloth', 'a')).toBeUndefined();
    expect(quiet('first-verdict', 'first_look', 'a')).toBeUndefined();
    const wrong = propose(
      state(),
      { do: 'answer', step: 'costs', place: 'job', key: 'pair_price', text: quiet('costs', 'pair_price') },
      'AP',
    );
    expect(wrong.ok).toBe(true);
  });
});
