/** What others did in a practice costs and brings the apprentice no mark; what was refused and misread is told. */
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { debriefOf } from '../../src/training/debrief.js';
import { debriefText } from '../../src/training/debrief-lines.js';
import { attemptOf } from '../../src/training/progress.js';
import { progressHtml } from '../../src/training/progress-html.js';
import { personOf, personPage, progressTable } from '../../src/training/progress-table.js';
import { catalogue, modelOfRotor, rotorNamed } from './library.js';
import { planFor } from './plans.js';
import { walk } from './walk.js';

const rotor = rotorNamed('quiet-one');
const fell = walk(modelOfRotor(rotor), rotor, planFor(rotor, 'fell'));
const stateOf = (entries: readonly Entry[]): State => new State(rotor.model, entries, fell.state.now);
const made = (entries: readonly Entry[]) => debriefOf(stateOf(entries), rotor);
/** The answers that fit are somebody else's. */
const given = (by: string, fits: (e: Extract<Entry, { kind: 'answer' }>) => boolean): Entry[] =>
  fell.entries.map((e) => (e.kind === 'answer' && fits(e) ? { ...e, by } : e));
const keptOf = (d: ReturnType<typeof debriefOf>) => ({ 'practice j': attemptOf('j', d)?.value ?? '' });

describe('what a mentor did', () => {
  const trap = made(fell.entries).traps[0]!;
  const alone = made(fell.entries);
  const helped = made(given('MN', (e) => e.step === 'white-cloth' || e.step === 'duty'));
  it('is named, in the debrief and in the table', () => {
    expect(alone.helped).toEqual([]);
    expect(helped.helped.map((h) => h.initials)).toEqual(['MN']);
    expect(debriefText(helped)).toMatch(/^Done by others: MN \d+ steps \(.+\)\.$/m);
    const mn = helped.helped[0]!;
    expect(JSON.parse(keptOf(helped)['practice j'])).toMatchObject({ helped: mn.steps });
    expect(progressTable([personOf('AP', keptOf(helped))])).toMatch(new RegExp(`^Helped +${mn.steps} steps$`, 'm'));
    expect(progressTable([personOf('AP', keptOf(alone))])).toMatch(/^Helped +never$/m);
  });
  it('is no trap of the apprentice', () => {
    expect(alone.traps.map((t) => [t.end, t.by])).toEqual([['fell', undefined]]);
    // Whoever fell into it: all answers up to the end are the mentor's.
    const all = made(given('MN', () => true).map((e) => (e.kind === 'done' ? { ...e, by: 'MN' } : e)));
    expect(all.traps.map((t) => t.by)).toEqual(['MN']);
    expect(all.ways).toEqual([]);
    expect(all.care?.of).toBe(0);
    const text = debriefText(all);
    expect(text).toContain(`Missed by MN: ${trap.title}`);
    expect(text).toContain('0 of 1 trap caught, 0 missed.');
    expect(JSON.parse(keptOf(all)['practice j'])).toMatchObject({ fell: 0, traps: [] });
  });
  it('is no misreading of the apprentice', () => {
    const wrong = (by: string): Entry[] =>
      fell.entries.map((e) => (e.kind === 'answer' && e.key === 'rotor' ? { ...e, value: 'Another', by } : e));
    const ap = fell.entries[0]!.by;
    expect(made(wrong(ap)).misread.map((m) => m.key)).toEqual(['rotor']);
    expect(made(wrong('MN')).misread).toEqual([]);
  });
});

describe('the table of a class', () => {
  it('shows misreadings, care and what was expected', () => {
    const d = made(
      fell.entries.map((e) => (e.kind === 'answer' && e.key === 'rotor' ? { ...e, value: 'Another' } : e)),
    );
    const person = personOf('AP', keptOf(d));
    expect(person.misread).toBe(1);
    expect(person.care).toEqual(d.care && { marks: d.care.marks, of: d.care.of });
    const judged = d.predictions.filter((p) => p.verdict !== 'not-judged' && p.verdict !== 'unreadable');
    expect(person.expected.of).toBe(judged.length);
    const text = progressTable([person]);
    expect(text).toMatch(new RegExp(`^Misread +1 of ${person.readings}$`, 'm'));
    expect(text).toMatch(new RegExp(`^Care +${person.care.marks} of ${person.care.of}$`, 'm'));
    expect(text).toMatch(new RegExp(`^Expected right or close +${person.expected.right} of ${judged.length}$`, 'm'));
    expect(personPage(person, [], () => 'A seal that grew')).toMatch(/- \S+ +A seal that grew: once/);
    const page = progressHtml([person], '2026-03-02');
    expect(page).toContain(`<tr><th scope="row">Misread</th><td>1 of ${person.readings}</td></tr>`);
    expect(page).toContain('<tr><th scope="row">Expected right or close</th>');
  });
  it('tells what a mentor laid out: begun late, lessons at once', () => {
    const d = made(
      fell.entries.map((e) => (e.kind === 'job' ? { ...e, from: 'seals-off', lessons: 'at-once' as const } : e)),
    );
    const title = rotor.model.procedure.phases.find((p) => p.id === 'seals-off')!.title;
    expect(debriefText(d)).toContain(`Begun at “${title}”`);
    expect(debriefText(d)).toContain('Lessons were told as soon as harm was done.');
    const text = progressTable([personOf('AP', keptOf(d))]);
    expect(text).toMatch(/^Begun late +1 of 1$/m);
    expect(text).toMatch(/^Lessons at once +1 of 1$/m);
  });
  it('counts a careless way apart from traps that were set, and names both by their titles', () => {
    const other = catalogue.flatMap((r) => r.traps).find((t) => t.skill === 'ball-material')!;
    const d = {
      ...made(fell.entries),
      traps: [],
      ways: [
        {
          phase: 0,
          label: 'The test',
          where: '',
          way: 'by eye',
          careless: { trap: other.id, skill: 'ball-material', title: other.title, costs: 'c', lesson: 'l' },
        },
      ],
    };
    const person = personOf('AP', keptOf(d));
    expect(person.skills).toMatchObject([{ skill: 'ball-material', met: 0, missed: 0, careless: 1 }]);
    expect(progressTable([person])).toMatch(/^Ball material +-$/m);
    expect(personPage(person, [])).toContain('no trap met yet, careless once; again from ');
    const page = progressHtml([person], '2026-03-02');
    expect(page).toContain('<h2>Traps that were missed</h2><p>None.</p>'.replace('<p>', '\n<p>'));
    expect(page).toContain(`<th scope="row">${other.title}</th><td>AP</td><td>1</td>`);
    expect(debriefText(d)).toContain('Careless: The test');
    // The same skill and day in both.
    const again = person.again!;
    expect(debriefText({ ...d, again: { ...again, due: '2026-11-07' } })).toContain(
      'Practise “Ball material” again from 7 November 2026 on.',
    );
    expect(again.rotor).toBe(d.rotor);
    expect(debriefText({ ...d, again: { ...again, due: '2026-11-07', from: 'Twin tins' } })).toContain(
      'again from 7 November 2026 on (met on “Twin tins”).',
    );
    expect(progressTable([person])).toMatch(new RegExp(`^Again from +Ball material ${again.due}$`, 'm'));
  });
});

it('tells a refused signature, with its reason and when it was signed after all', () => {
  const at = fell.entries.findIndex((e) => e.kind === 'sign');
  const sign = fell.entries[at]!;
  if (sign.kind !== 'sign') throw new Error('nothing is signed');
  const when = new Date(Date.parse(sign.at) - 41_000).toISOString();
  const { step, place, by } = sign;
  const refuse = {
    kind: 'refuse',
    step,
    place,
    by,
    reason: 'The cloth is grey',
    initials: 'MN',
    seq: 0,
    at: when,
  } as Entry;
  const list = [...fell.entries.slice(0, at), refuse, ...fell.entries.slice(at)].map((e, i) => ({ ...e, seq: i + 1 }));
  const text = debriefText(made(list));
  expect(text).toMatch(/^Refused by MN \d\d:\d\d UTC: .+: The cloth is grey; signed 41 s later$/m);
  expect(debriefText(made(list.slice(0, at + 1)))).toMatch(/The cloth is grey; not signed since$/m);
});
