/** What was missed comes again in other clothes, and counts as mastered only when seen through twice, days apart. */

import { expect, it } from 'vitest';
import { freshNumber, kindsOf } from '../../src/commands/practice-rotors.js';
import { debriefOf } from '../../src/training/debrief.js';
import { drawnRotor } from '../../src/training/generate.js';
import { PracticeRotor } from '../../src/training/practice-rotor.js';
import { attemptOf, dueSkills, skillsOf } from '../../src/training/progress.js';
import { DAY } from '../../src/units/kinds.js';
import { random, seed } from '../setup/size.js';
import { catalogue, modelOfRotor } from './library.js';
import { type How, planOf } from './plans.js';
import { walk } from './walk.js';

const library = { rotors: new Map(catalogue.map((r) => [r.rotor, r])) };
const kinds = kindsOf(library);
const chance = random(seed);

/** One apprentice, and a clock that is moved. */
class Course {
  private readonly kept: Record<string, string> = {};
  constructor(private now: number) {}
  pass(days: number): void {
    this.now += days * DAY;
  }
  due = (): ReadonlyMap<string, string> => dueSkills(this.kept, new Date(this.now));
  skill = (name: string) => skillsOf(this.kept, kinds).find((s) => s.skill === name)!;
  /** Plays a rotor, the clock standing where it does. @returns its traps of that skill */
  play(number: number, how: How, skill: string): string[] {
    const file = drawnRotor(number, catalogue)!;
    const rotor = new PracticeRotor(file, modelOfRotor(file));
    const made = debriefOf(walk(rotor.model, rotor, planOf(file, how)).state, rotor);
    const at = new Date(this.now).toISOString();
    const { name, value } = attemptOf(`job-${Object.keys(this.kept).length}`, { ...made, lastEntry: at })!;
    this.kept[name] = value;
    return file.traps.filter((t) => t.skill === skill).map((t) => t.id);
  }
}

it('brings a trap that was missed again in other clothes, days apart, until it is mastered', () => {
  const skill = 'seal';
  expect(kinds.get(skill)).toBeGreaterThan(1);
  const with1 = Array.from({ length: 400 }, (_, i) => i + 1).find((n) =>
    drawnRotor(n, catalogue)!.traps.every((t) => t.skill === skill),
  )!;
  const course = new Course(Date.parse('2026-03-02T10:00:00Z'));
  const [missed] = course.play(with1, 'fell', skill);
  expect(course.skill(skill)).toMatchObject({ met: 1, missed: 1, mastered: false });

  // At once, and in another dress.
  expect([...course.due()]).toEqual([[skill, missed]]);
  const second = freshNumber(library, course.due(), chance);
  const worn = course.play(second, 'caught', skill);
  expect(second).not.toBe(with1);
  expect(worn).not.toEqual([missed]);
  expect(course.skill(skill).mastered).toBe(false);

  // The same day it is not due any more; on its day it is, and not a day before.
  expect(course.due().has(skill)).toBe(false);
  const days = Math.round((Date.parse(course.skill(skill).due) - Date.parse('2026-03-02')) / DAY);
  expect(days).toBeGreaterThanOrEqual(1);
  course.pass(days - 1);
  expect(course.due().has(skill)).toBe(false);
  course.pass(1);
  expect(course.due().has(skill)).toBe(true);
  course.pass(2);
  // Others may be due by now too; it is this one that is asked for.
  const third = freshNumber(library, new Map([[skill, course.due().get(skill)!]]), chance);
  expect(course.play(third, 'caught', skill)).not.toEqual(worn);
  expect(course.skill(skill).mastered).toBe(true);

  // Seen through long ago is no longer known for sure.
  course.pass(400);
  expect(course.due().has(skill)).toBe(true);
});
