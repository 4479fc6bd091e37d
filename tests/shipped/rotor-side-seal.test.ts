/** A rotor-side seal is a closed ring on a shaft that keeps its bearing: no new one gets there, so what cannot be repaired ends the bearing. */
import { describe, expect, it } from 'vitest';
import type { ReplayItem } from '../../src/engine/replay/replay-file.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { closed } from './closures.js';
import { finished, Job, model, refused } from './good-job.js';

const back = 'b.back';
const raised: ReplayItem = { raise: 'seal-torn', at: back };
const what = (answers: Record<string, string>, held?: string): ReplayItem => ({
  step: 'torn-what',
  at: back,
  answers,
  ...(held ? { held } : {}),
});
const later: ReplayItem[] = [
  { raise: 'put-away', at: 'b' },
  { step: 'put-away', at: 'b', answers: { kept: 'film-and-bag' } },
];
const scrap = (step: string, key: string): ReplayItem => ({
  correct: { step, at: 'b', key, value: 'scrap', reason: 'the owner decides: no seal can go in' },
});
const scrapped: ReplayItem = {
  step: 'scrapped',
  at: 'b',
  answers: { replaced: 'yes', new_bearing: 'Invented maker, number 9' },
};
/** The good job in which nothing is done at the second bearing from a step on but what is given. */
function instead(job: Job, step: string, place: string, ...then: ReplayItem[]): Job {
  const from = job.items.indexOf(job.step(step, place));
  const left = job.items.slice(from).filter((x) => !('at' in x && x.at?.startsWith('b')));
  job.items.splice(from, job.items.length, raised, ...then, ...left);
  // Nothing is done at the other bearing while this one dries.
  job.step('white-cloth', 'a').after = '40 min';
  return job;
}
/** Its rotor-side seal is found so when it is looked at. */
function found(seal_condition: string, ...then: ReplayItem[]): Job {
  const job = new Job().answer('seal-log', back, { seal_condition });
  job.step('seal-log', back).held = 'torn-raised';
  const look = job.step('seal-log', back);
  instead(job, 'seal-log', back, ...then);
  job.items.splice(job.items.indexOf(raised), 0, look);
  return job;
}
const lost =
  /No new seal gets past the bearing.*Correct "Your decision" to scrap.*"Left for later".*can’t be overruled/;

describe('a rotor-side seal that is damaged', () => {
  it.each(['bent', 'torn'])('is not replaced where it is %s', (where) => {
    const job = found(where, what({ repair: 'replace' }));
    expect(refused(job.run())).toMatch(/No new seal gets past the bearing.*Straighten.*Glue.*can’t be overruled/);
  });
  it.each([
    ['bent', 'straighten'],
    ['bent', 'glue'],
    ['torn', 'glue'],
  ])('goes in again where it is %s: %s', (where, repair) => {
    const job = new Job().answer('seal-log', back, { seal_condition: where });
    job.step('seal-log', back).held = 'torn-raised';
    job
      .after('seal-log', back, raised, what({ repair: 'replace' }, 'back-not-new'), what({ repair }))
      .before('fill-syringe', 'job', {
        step: 'repair-check',
        at: back,
        after: '24 h',
        answers: { clearance: 'clear' },
      });
    if (repair === 'glue')
      job.after('seal-clean', back, { step: 'glue-seal', at: back, answers: { glue_stands: 'yes', cure_time: '2 h' } });
    job.before('repair-check', back, ...later, { raise: 'put-away', at: 'a' }, { ...later[1], at: 'a' } as ReplayItem);
    expect(finished(job.run())).toBe(true);
  });
  it.each(['lip', 'swollen'])('ends the bearing where it is %s', (where) => {
    expect(refused(found(where, what({})).run())).toMatch(lost);
    const at = model.steps.get('torn-what')?.gates?.find((g) => g.id === 'back-seal-lost');
    expect(at).toMatchObject({ raise: 'put-away', correct: ['second_look', 'first_look'], overrule: 'never' });
  });
  it.each(['lip', 'swollen'])('is scrapped at once where it is %s, the other bearing goes on', (where) => {
    const run = found(where, what({}, 'back-seal-lost'), scrap('first-verdict', 'first_look'), what({}))
      .before('cause', 'a', scrapped)
      .run();
    expect(finished(run)).toBe(true);
    const sheet = toMarkdown(sheetOf(run.state));
    expect(sheet).toContain('The bearing was scrapped');
    expect(sheet).toMatch(/Seal damaged \(the bearing was scrapped, not looked at further\): Not repaired/);
    expect(sheet).not.toContain('Replaced by a new one of the same rubber');
  });
  it('is put away until the owner decides, and is scrapped then', () => {
    const decided = [scrap('first-verdict', 'first_look'), what({})];
    const job = found('lip', what({}, 'back-seal-lost'), ...later, ...decided).before('cause', 'a', scrapped);
    expect(finished(job.run())).toBe(true);
  });
  it('holds the job while the owner has not decided', () => {
    expect(finished(found('lip', what({}, 'back-seal-lost'), ...later).run())).toMatch(
      /is not next: “Torn, bent or swollen seal”/,
    );
  });
  it.each([
    ['is torn as it goes in', 'refit-back'],
    ['is torn while it is cleaned', 'cause'],
  ])('scraps the bearing where it %s', (_, step) => {
    const torn = instead(
      new Job(),
      step,
      'b',
      what({ torn_where: 'lip' }, 'back-seal-lost'),
      ...later,
      scrap('second-verdict', 'second_look'),
      { step: 'second-verdict', at: 'b', sign: 'MN' },
      scrapped,
    );
    expect(finished(torn.run())).toBe(true);
  });
  it('scraps the bearing where its repair touches and cannot be trimmed', () => {
    const job = new Job().answer('seal-log', back, { seal_condition: 'bent' });
    job.step('seal-log', back).held = 'torn-raised';
    job.after('seal-log', back, raised, what({ repair: 'straighten' }));
    job.after('seal-clean', back, {
      step: 'repair-check',
      at: back,
      answers: { clearance: 'touches' },
      held: 'back-repair-clears',
    });
    instead(job, 'dry', 'b', ...later, scrap('first-verdict', 'first_look'));
    job.items.splice(job.items.lastIndexOf(raised), 1);
    expect(finished(job.before('cause', 'a', scrapped).run())).toBe(true);
  });
});

describe('a front seal with a torn lip', () => {
  const front = 'b.front';
  const waits = (...then: ReplayItem[]): Job => {
    const job = new Job().answer('seal-log', front, { seal_condition: 'lip' });
    job.step('seal-log', front).held = 'torn-raised';
    const at = (repair: string): ReplayItem => ({ step: 'torn-what', at: front, answers: { repair } });
    return job
      .after(
        'seal-log',
        front,
        { raise: 'seal-torn', at: front },
        { ...at('glue'), held: 'lip-replaced' } as ReplayItem,
        ...later,
        ...then,
      )
      .drop((x) => x.at === front && ['seal-solvent', 'seal-clean'].includes(x.step));
  };
  it.each(['lip', 'swollen', 'torn', 'bent'])('is no matter of taste: “%s” goes back in by no reason', (condition) => {
    const job = new Job().answer('seal-log', front, { seal_condition: condition });
    job.step('seal-log', front).overrule = { gate: 'torn-raised', reason: 'no new one this week', initials: 'MN' };
    expect(refused(job.run())).toMatch(/can’t be overruled/);
  });
  it('is asked about again where the seal was bent before', () => {
    const at = (answers: Record<string, string>): ReplayItem => ({ step: 'torn-what', at: front, answers });
    const again = (answers: Record<string, string>): string => {
      const job = new Job().answer('seal-log', front, { seal_condition: 'bent' });
      job.step('seal-log', front).held = 'torn-raised';
      job
        .after('seal-log', front, { raise: 'seal-torn', at: front }, at({ repair: 'straighten' }))
        .before('fill-syringe', 'job', { step: 'repair-check', at: front, answers: { clearance: 'clear' } })
        .before('refit', front, { raise: 'seal-torn', at: front }, at(answers));
      return refused(job.run());
    };
    expect(again({ repair: 'straighten' })).toMatch(/needs an answer for torn_where/);
    expect(again({ torn_where: 'lip', repair: 'straighten' })).toMatch(/A damaged lip cannot be repaired/);
  });
  it('is put away until a new seal is here', () => {
    const renewed: ReplayItem = { step: 'torn-what', at: front, answers: { repair: 'replace' } };
    expect(finished(waits(renewed).run())).toBe(true);
  });
});

it('asks for no new metal shield at the rotor side either', () => {
  const job = closed({ front: 'gap', back: 'shield' }).answer('seal-make', 'a.back', { shield_out: 'yes' });
  expect(refused(job.run())).toMatch(/does not apply here/);
});
