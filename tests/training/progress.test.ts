/** What counts as mastered, and when a skill comes again. */
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { classLines } from '../../src/training/class-lines.js';
import { type Debrief, debriefOf } from '../../src/training/debrief.js';
import { linesText } from '../../src/training/debrief-lines.js';
import { type Attempt, attemptsOf, dueSkills, progressOf, skillsOf } from '../../src/training/progress.js';
import { progressHtml } from '../../src/training/progress-html.js';
import { personOf, progressTable } from '../../src/training/progress-table.js';
import { rotorNamed } from './library.js';
import { planFor } from './plans.js';
import { walk } from './walk.js';

const made = (over: Partial<Attempt>): string =>
  JSON.stringify({
    rotor: 'one',
    at: '2026-03-02T10:00:00Z',
    finished: true,
    caught: 1,
    late: 0,
    fell: 0,
    right: 2,
    close: 0,
    wrong: 1,
    traps: [{ skill: 'seal', trap: 't', end: 'caught' }],
    slips: ['decimal-point'],
    signed: [{ initials: 'MN', seconds: 3 }],
    minutes: 14,
    ...over,
  });
const kept = (...list: Partial<Attempt>[]): Record<string, string> =>
  Object.fromEntries(list.map((a, i) => [`practice j${i}`, made(a)]));

describe('a rotor', () => {
  const mastered = (over: Partial<Attempt>): boolean | undefined => progressOf(kept(over))[0]?.mastered;
  it('is mastered when its trap was seen through at first sight, with predictions', () =>
    expect(mastered({})).toBe(true));
  it('is not by predicting nothing, nor by putting right what was told', () => {
    expect(mastered({ right: 0, close: 0 })).toBe(false);
    expect(mastered({ caught: 0, late: 1 })).toBe(false);
  });
});

describe('a skill', () => {
  const first = { at: '2026-03-02T10:00:00Z' };
  const later = { rotor: 'any-7', at: '2026-03-06T10:00:00Z' };
  const missed = { traps: [{ skill: 'seal', trap: 't', end: 'fell' as const }], fell: 1 };
  it('is mastered when seen through twice, in different clothes, days apart', () => {
    expect(skillsOf(kept(first, later))[0]?.mastered).toBe(true);
    expect(skillsOf(kept(first))[0]?.mastered).toBe(false);
    expect(skillsOf(kept(first, { ...later, rotor: 'one' }))[0]?.mastered).toBe(false);
    expect(skillsOf(kept(first, { ...later, at: '2026-03-02T15:00:00Z' }))[0]?.mastered).toBe(false);
  });
  it('is not mastered any more once it was missed again', () => {
    expect(skillsOf(kept(first, later, { ...missed, at: '2026-03-09T10:00:00Z' }))[0]).toMatchObject({
      met: 3,
      missed: 1,
      mastered: false,
    });
  });
  it('comes again sooner after a miss, and is due on its day', () => {
    const seen = skillsOf(kept(first))[0]!.due;
    const fallen = skillsOf(kept({ ...first, ...missed }))[0]!.due;
    expect(fallen < seen).toBe(true);
    expect(dueSkills(kept(first), new Date('2026-03-02T12:00:00Z')).has('seal')).toBe(false);
    expect(dueSkills(kept(first), new Date(`${seen}T12:00:00Z`)).has('seal')).toBe(true);
  });
});

it('is a table of people by skills, with slips, time at the keys and who signed how fast', () => {
  const text = progressTable([
    personOf('AP', kept({})),
    personOf('BC', kept({ fell: 1, traps: [{ skill: 'dose', trap: 'x', end: 'fell' }] })),
  ]);
  expect(text).toMatch(/AP +BC/);
  expect(text).toMatch(/^Seal +1\/1 +-$/m);
  expect(text).toMatch(/^Dose +- +0\/1$/m);
  expect(text).toMatch(/14 min +14 min/);
  expect(text).toContain('AP: slips decimal point 1; signed by MN once, the fastest after 3 s');
});

it('passes over lines that are damaged or of another kind', () => {
  expect(
    attemptsOf({ 'practice a': '{', 'practice b': '7', other: made({}), 'practice c': made({ at: 'never' }) }),
  ).toEqual([]);
});

it('takes another trap of a skill where there are several', () => {
  const first = { at: '2026-03-02T10:00:00Z' };
  const again = { rotor: 'any-7', at: '2026-03-06T10:00:00Z' };
  const other = { ...again, traps: [{ skill: 'seal', trap: 'u', end: 'caught' as const }] };
  const several = new Map([['seal', 2]]);
  expect(skillsOf(kept(first, again), several)[0]?.mastered).toBe(false);
  expect(skillsOf(kept(first, other), several)[0]?.mastered).toBe(true);
});

it('is a page to be printed, with the traps that were missed by name, and made harmless', () => {
  const page = progressHtml(
    [personOf('AP', kept({})), personOf('B<C', kept({ traps: [{ skill: 'dose', trap: 'x', end: 'fell' }] }))],
    '2026-03-02',
  );
  expect(page).toContain('<th scope="col">B&lt;C</th>');
  expect(page).toContain('<tr><th scope="row">Seal</th><td>1/1</td><td>-</td></tr>');
  expect(page).toContain('<tr><th scope="row">X</th><td>B&lt;C</td><td>1 of 1</td></tr>');
  expect(page).toContain('<tr><th scope="row">At the keys</th><td>14 min</td><td>14 min</td></tr>');
});

describe('a class', () => {
  const rotor = rotorNamed('brown-seal');
  const { entries } = walk(rotor.model, rotor, planFor(rotor, 'caught'));
  /** The same work under other initials, with another guess of the dose and another reading of a seal. */
  const of = (who: string, dose: string, depth?: number) => {
    const typed = entries.map((e): Entry => {
      if (e.kind === 'job') return { ...e, by: who, apprentice: who };
      if (e.kind === 'predict' && e.key === 'dose_due') return { ...e, by: who, value: dose, typed: dose };
      const value = e.kind === 'answer' && e.key === 'seal_depth' && depth !== undefined ? depth : undefined;
      return { ...e, by: e.by === 'AP' ? who : e.by, ...(value === undefined ? {} : { value }) } as Entry;
    });
    return debriefOf(new State(rotor.model, typed, Date.parse(typed.at(-1)!.at)), rotor);
  };
  const one = of('C1', '0.87 mL');
  const { stands: _, ...whole } = of('C2', '1.7 mL', 3);
  const two: Debrief = { ...whole, finished: false };
  const jobs = [
    { debrief: two, next: 'Drive end: Test the beep', still: 12, since: '16:05' },
    { debrief: one, next: '', still: 40, since: '15:37' },
  ];
  const text = linesText(classLines({ jobs, over: false, left: 0, older: [] }, 'mentor'));
  it('shows first who may be stuck, where, and for how long', () => {
    expect(text).toContain('2 people on invented rotors; 1 may be stuck or waits for somebody.');
    expect(text).toMatch(
      /! C2, The brown seal: Drive end: Test the beep, step \d+ of \d+; nothing typed since 16:05\n {4}Gone on against advice: .*\nC1, The brown seal: finished/,
    );
    const waits = [{ ...jobs[0]!, waits: 'Let it dry' }];
    expect(linesText(classLines({ jobs: waits, over: false, left: 0, older: [] }, 'mentor'))).toContain(
      'nobody is stuck',
    );
    expect(linesText(classLines({ jobs, over: true, left: 3, older: [] }, 'mentor'))).not.toMatch(
      /stuck|nothing typed/,
    );
  });
  it('has what all expected of one figure side by side', () =>
    expect(text).toMatch(
      /The brown seal, Dose to put in \(Drive end\)\n {4}C1 right: 0\.87 mL, by their own readings 0\.87 ± 0\.15 mL\n {4}C2 WRONG: 1\.7 mL, by their own readings .*; the rotor is 0\.87 ± 0\.15 mL/,
    ));
  it('says at what stop or signature somebody stands and since when; who has not begun is never flagged', () => {
    const with_ = (change: Partial<typeof two>, n = 1) =>
      linesText(
        classLines(
          {
            jobs: Array.from({ length: n }, () => ({ ...jobs[0]!, still: 6, debrief: { ...two, ...change } })),
            over: false,
            left: 0,
            older: [],
          },
          'mentor',
        ),
      );
    const stop = { at: 'Drive end: Set the dose', phase: 9, by: 'stop' as const, says: 'Too much. Set it again.' };
    expect(with_({ stands: stop })).toContain(
      '! C2, The brown seal: STOP at Drive end: Set the dose since 16:05. Too much.',
    );
    expect(with_({ stands: { at: 'Set the dose', phase: 9, by: 'hold' }, mentor: 'MM' })).toContain(
      '! C2, The brown seal: HOLD at Set the dose, waits for MM since 16:05',
    );
    // The sentence of a stop does not end before what follows it.
    expect(with_({ stands: stop, keys: 3 })).toContain('16:05. Too much; 3 min at the keys');
    // One person with two jobs is one.
    expect(with_({ stands: stop }, 2)).toContain('1 person on invented rotors; 1 may be stuck');
    const idle = with_({ begun: false, begunAt: 'Work out the dose' });
    expect(idle).toContain('nobody is stuck');
    expect(idle).toContain('\nC2, The brown seal: not begun, set up 16:05; starts at “Work out the dose”');
  });
  it('tells anybody of a rotor what all who are still at work on it are past, and nothing else of it', () => {
    const told = (change: Partial<Debrief>, reader: 'mentor' | 'anybody' = 'anybody') => {
      const both = [{ ...jobs[0]!, debrief: { ...two, ...change } }, jobs[1]!];
      return linesText(classLines({ jobs: both, over: false, left: 0, older: [] }, reader));
    };
    const phases = rotor.model.procedure.phases.map((p) => p.id);
    const [seals, dose] = ['seals-off', 'dose'].map((p) => phases.indexOf(p));
    const truths = /it showed|the rotor is|WRONG|A seal that acetone would ruin/;
    const ahead = two.traps.map((t) => ({ ...t, end: 'not-met' as const }));
    // C2 has just begun: what C1 saw through and read off lies ahead.
    expect(told({ reached: seals!, traps: ahead })).not.toMatch(truths);
    expect(told({ reached: seals!, traps: ahead })).toContain('still has ahead is left out. The mentor reads all');
    expect(told({ reached: seals!, traps: ahead }, 'mentor')).toMatch(/^For the mentor: it tells.*it showed/ms);
    // At the dose the seal is behind, the figure of the dose is not.
    const mid = told({ reached: dose! });
    expect(mid).toMatch(/lying in it.*\n {4}C1 right/);
    expect(mid).not.toMatch(/Dose to put in|3 mm/);
    expect(told({ reached: dose! + 1 })).toMatch(/C2 typed 3 mm\. It made “Dose to put in”/);
    expect(told({ finished: true })).not.toMatch(/still has ahead|For the mentor/);
  });
  it('tells what was left empty as not measured, with what the guide took instead', () => {
    const notTaken = two.misread.map((m) => ({ ...m, typed: 'left empty', empty: true as const }));
    const both = [{ ...jobs[0]!, debrief: { ...two, misread: [], notTaken } }];
    expect(linesText(classLines({ jobs: both, over: false, left: 0, older: [] }, 'mentor'))).toMatch(
      /\nNot measured\n.*, Depth of a seal.*: left empty, it showed .* mm\n {4}C2: The guide took its usual figure: “Dose to put in” /,
    );
  });
  it('leaves out step and reason of a stop for anybody while somebody on that rotor has the step ahead', () => {
    const stop = { at: 'Drive end: Does it fit', phase: 8, by: 'stop' as const, says: 'Old and new clash.' };
    const told = (other: Partial<Debrief>, reader: 'mentor' | 'anybody' = 'anybody') => {
      const of = [two, { ...two, apprentice: 'C3', ...other }].map((debrief) => ({ ...jobs[0]!, debrief }));
      const class_ = [{ ...of[0]!, debrief: { ...two, stands: stop } }, of[1]!];
      return linesText(classLines({ jobs: class_, over: false, left: 0, older: [] }, reader));
    };
    const whole = 'STOP at Drive end: Does it fit since 16:05. Old and new clash.';
    expect(told({ reached: 8 })).toMatch(/^! C2, The brown seal: STOP since 16:05$/m);
    expect(told({ begun: false, reached: 0 })).not.toMatch(/clash|Does it fit/);
    expect(told({ reached: 8 }, 'mentor')).toContain(whole);
    expect(told({ reached: 9 })).toContain(whole);
    expect(told({ reached: 8, stands: stop })).toContain(whole);
    expect(told({ reached: 0, rotor: 'two-tins' })).toContain(whole);
  });
  it('tells the mentor what was gone on against, why, and who signed; and of which rotor a trap is not in the job', () => {
    const against =
      /\n {4}Gone on against advice: .* \(MN: a cut lay in the warm oil over the weekend and did not swell\)\n/;
    expect(text).toMatch(against);
    const late = jobs.map((j) => ({ ...j, debrief: { ...j.debrief, before: 1, begunAt: 'Clean' } }));
    const told = (reader: 'mentor' | 'anybody') =>
      linesText(classLines({ jobs: late, over: false, left: 0, older: [] }, reader));
    expect(told('anybody')).not.toMatch(against);
    expect(told('anybody')).toContain('\nThe brown seal: A trap of this rotor lies before “Clean”');
  });
  it('names a misread reading, who misread it, and what that did', () =>
    expect(text).toMatch(
      /, Depth of a seal.*: it showed .* mm\n {4}C2 typed 3 mm\. It made “Dose to put in” \(Drive end\) .* too little\./,
    ));
});
