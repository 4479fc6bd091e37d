/** What page 1 and the tag tell the next owner of a real procedure's job: what was recorded, never what was planned. */
import { describe, expect, test } from 'vitest';
import { found } from '../../src/engine/state/found.js';
import type { State } from '../../src/engine/state/state.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import type { Sheet } from '../../src/sheet/sheet-data.js';
import { tagOf } from '../../src/sheet/tag.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { clock } from '../../src/sheet/when.js';
import { modelFor } from '../procedure/library.js';
import { closed } from '../shipped/closures.js';
import { inspectionJob, Job, lookAfter } from '../shipped/good-job.js';

const { show } = clock();
function stateOf(job: Job): State {
  const out = job.run();
  if (!out.ok) throw new Error(`item ${out.item}: ${out.message}`);
  return out.state;
}
const sheetFor = (job: Job): Sheet => sheetOf(stateOf(job));
/** The good job up to a step. */
function cut(step: string, job = new Job()): Job {
  job.items.splice(job.items.findIndex((x) => 'step' in x && x.step === step));
  return job;
}
const rowsOf = (sheet: Sheet, where = ''): readonly string[] =>
  sheet.front.rows.filter((r) => r.where === where).map((r) => `${r.heading}: ${r.text}`);
const tagLines = (sheet: Sheet): readonly string[] =>
  tagOf(sheet, show)?.lines.map((l) => `${l.label}: ${l.text}`) ?? [];
const unusual = (sheet: Sheet): string => sheet.front.unusual.map((u) => `${u.where}: ${u.text}`).join('\n');

const whole = sheetFor(new Job());

describe('work whose run-in is not accepted', () => {
  const begun = cut('standstill');
  const log = begun.step('run-in-log');
  log.rows = log.rows?.slice(0, 1) ?? [];
  const sheet = sheetFor(begun);

  test('says so before anything else, on page and tag, and names what is open', () => {
    expect(sheet.verdict).toMatch(/^DO NOT RUN\. The run-in is not accepted\. NOT FINISHED: \d+ of \d+ steps done\./);
    expect(sheet.verdict).toContain('Open: Run in and log');
    expect(tagLines(sheet)[1]).toBe('DO NOT RUN: The run-in is not accepted.');
    expect(tagLines(sheet).join('\n')).not.toMatch(/^(Limit|Done|Run-in|Write|Next look|Then): /m);
  });
  test('tells the readings that were taken, and the planned speed as planned', () => {
    expect(rowsOf(sheet).join('\n')).toMatch(
      /^Run-in: NOT ACCEPTED\. Readings so far: 1, the last at stage 1 of 10, [\d.]+ °C\. Planned to 14.000.rpm\.$/m,
    );
    expect(rowsOf(sheet).join('\n')).not.toMatch(/Released for|Warm after/);
    const at = (key: string) => sheet.headline.find((f) => f.key === key);
    expect(at('run_in_result')?.text).toBe('not done yet');
    expect(at('run_in_to')?.known ?? false).toBe(false);
    expect(sheet.next.find((f) => f.key === 'left_to_do')?.text).toBe('Not settled: the job is not finished');
  });
  test('stays so when something is opened again after it was accepted', () => {
    const again = cut('next-inspection');
    again.items.push({ raise: 'cage-popped-out', at: 'a' });
    const opened = sheetFor(again);
    expect(opened.verdict).toMatch(/^DO NOT RUN\. The run-in is not accepted\./);
    expect(opened.verdict).not.toMatch(/Accepted\.|Accept: yes/);
    expect(tagLines(opened).join('\n')).not.toMatch(/^Limit: /m);
    expect(unusual(opened)).toMatch(/Unforeseen: Cage popped out\. NOT SETTLED, still to do: Cage popped out/);
  });
  test('of a job that has hardly begun, says nothing of grease, tones or a next look', () => {
    const early = sheetFor(cut('history'));
    expect(early.verdict).toMatch(/^DO NOT RUN\./);
    expect(unusual(early)).not.toContain("makers' word");
    expect(rowsOf(early).join('\n')).toMatch(/^Run-in: NOT DONE\. Top speed wanted: 14.000.rpm$/m);
    expect([...rowsOf(early), ...early.front.watch.map((w) => w.text)].join('\n')).not.toMatch(
      /Grease|not known|Tones/,
    );
  });
  test('grease that is only chosen is not told as put in', () => {
    const chosen = sheetFor(cut('weigh-first'));
    expect(rowsOf(chosen).join('\n')).toMatch(/^Grease chosen, to be put in: Practice grease/m);
    expect(tagLines(chosen).join('\n')).not.toMatch(/^(Grease|Mind): /m);
    expect(unusual(chosen)).not.toContain("makers' word");
    expect(unusual(whole)).toContain("makers' word");
  });
});

test('accepted work says what it is released for, and no bar', () => {
  expect(whole.front.barred).toEqual([]);
  expect(whole.verdict).toMatch(/^FINISHED\. Regreased by hand and run in to/);
  expect(rowsOf(whole).join('\n')).toMatch(/^Released for: 14.000.rpm, and 70.°C at an outer ring$/m);
});

/** The good job with its second bearing scrapped and replaced. */
const replacedAtB = (): State =>
  stateOf(
    new Job().scrappedAtB({
      replaced: 'yes',
      new_bearing: 'Invented maker, 6204 hybrid, number 9',
      new_grease: 'Polyurea',
    }),
  );

describe('a new bearing in place of a scrapped one', () => {
  const sheet = sheetOf(replacedAtB());
  const there = rowsOf(sheet, 'Non-drive end').join('\n');
  test('carries its own maker, number and grease', () => {
    expect(there).toContain('New bearing: Invented maker, 6204 hybrid, number 9. Grease as delivered: Polyurea.');
    expect(there).toMatch(/^The old one was scrapped: .*pits/m);
    expect(tagLines(sheet)).toContain(
      'New bearing, Non-drive end: Invented maker, 6204 hybrid, number 9, grease Polyurea',
    );
  });
  test('carries no finding of the scrapped one', () => {
    expect(there).not.toMatch(/balls|cage|Grease put in|Old grease|to order/i);
    const told = (title: string) =>
      sheet.groups.filter((g) => g.title === title).flatMap((g) => g.figures.filter((f) => f.place.startsWith('b')));
    expect(told('Bearing and materials')).toEqual([]);
    expect(told('Dose and what went in')).toEqual([]);
    expect(told('The scrapped bearing, as it was found').some((f) => f.key === 'ball_material' && f.known)).toBe(true);
    expect(
      sheet.headline
        .filter((f) => f.place === 'b')
        .map((f) => f.text)
        .join('\n'),
    ).not.toMatch(/not known/);
    expect(sheet.headline.find((f) => f.key === 'ball_material' && f.place === 'b')).toBeUndefined();
    expect(sheet.headline.find((f) => f.key === 'bearing_now' && f.place === 'b')?.text).toBe('replaced by a new one');
  });
});

test('a look after it holds no tone or ball of the scrapped bearing against the new one', () => {
  const look = lookAfter(replacedAtB(), 'Look', '2026-04-13T08:00:00Z', 'before');
  look.items.splice(look.items.findIndex((x) => 'step' in x && x.step === 'listen' && x.at === 'b'));
  const { values } = stateOf(look);
  expect(values.get('outer_order', 'b').known).toBe(true);
  expect(values.get('tone_outer', 'b').known).toBe(false);
  expect(values.get('tone_outer', 'a').known).toBe(true);
  const told = sheetOf(stateOf(look)).groups.filter((g) => g.title === 'The first sheet of this bearing');
  expect(told.flatMap((g) => g.figures.map((f) => f.place))).toEqual(['a', 'a']);
});

describe('something unforeseen', () => {
  test('tells beside it how it ended', () => {
    const torn = new Job()
      .answer('seal-log', 'b.front', { seal_condition: 'lip' })
      .torn('b.front', { torn_where: 'lip', repair: 'replace' });
    expect(unusual(sheetFor(torn))).toContain(
      'Non-drive end, front side: Unforeseen: Seal damaged. Lip torn or damaged. Replaced by a new one of the same rubber.',
    );
  });
  test.each(['regrease-in-place', 'inspect-after-run'])('has an ending for each event of %s', (id) => {
    const { steps, branches = [], sheet } = modelFor(id).procedure;
    const told = branches.filter(
      (b) =>
        sheet?.front?.ended?.some((e) => e.event === b.id) ||
        steps.some((s) => s.branch === b.id && s.mark !== undefined),
    );
    expect(told.map((b) => b.id)).toEqual(branches.map((b) => b.id));
  });
});

test('page 1 begins with what the next owner needs: check numbers stand beside the ink', () => {
  const text = toMarkdown(whole);
  const at = (words: string): number => text.indexOf(words);
  expect(at('its own check number')).toBeGreaterThan(at('## Signed in ink'));
  expect(at('its own check number')).toBeLessThan(at('## Decisions and signatures'));
  const order = ['## This job', '## At a glance', '## Out of the ordinary', '## Next look', '## Watch and listen for'];
  expect(order.map(at)).toEqual(order.map(at).sort((a, b) => a - b));
});

test('what was weighed is told first, with what the scale is off by alone', () => {
  // 14.10 - 12.05 = 2.05 g, each ± 0.01 g: sqrt(2) x 0.01 = 0.014 g; 12.05 - 10.80 = 1.25 g. Arithmetic.
  expect(rowsOf(whole, 'Drive end').join('\n')).toMatch(
    /^Grease put in, weighed: 2\.050 ± 0\.014 g, 2\.28 ± 0\.05 mL$/m,
  );
  expect(rowsOf(whole, 'Non-drive end').join('\n')).toMatch(/^Grease put in, weighed: 1\.250 ± 0\.014 g, 1\.39/m);
});

test('what the first look left unclear stands on page 1 with what cleared it', () => {
  const told = whole.front.unusual.map((l) => `${l.where}: ${l.text}`).join('\n');
  expect(told).toMatch(/^Non-drive end: First look unclear \(.+\)\. Second look, cleaned: save\.$/m);
  expect(told).not.toMatch(/^Drive end: First look/m);
});

test('a share that is not the suggested one is told with both', () => {
  expect(toMarkdown(whole)).toMatch(/Dose 2\.3 mL, share 20 % \(suggested 22 %\)/);
});

test('why the grease failed and what cured it stands on page 1', () => {
  expect(rowsOf(whole, 'Drive end')).toContain(
    'Why the grease failed: Dirt let in. Done about it: New felt ring in front of the bearing, KO (invented)',
  );
});

test('what to order stands in one row', () => {
  expect(rowsOf(whole, 'Non-drive end').join('\n')).toMatch(
    /^Bearing, to order: 6204, balls: Ceramic, cage: PEEK\. Both sides: NBR seal that does not touch$/m,
  );
  expect(rowsOf(whole)).toContain('Spare pair: A seller that may have counterfeits');
  const mixed = sheetFor(
    closed({ front: 'shield-ring', back: 'shield-ring', dosed: ['2.5 mL', '11.85 g', '10.60 g'] }),
  );
  expect(rowsOf(mixed, 'Drive end').join('\n')).toContain('Both sides: metal shield in a wire ring');
});

describe('the next look', () => {
  const hours = (text: string): readonly string[] =>
    [...text.matchAll(/(\d+) h(?:ours)? of running/g)].map((m) => m[1] ?? '');
  test('has the same figures on page and tag', () => {
    const page = toMarkdown(whole).split('## Next look')[1]?.split('## Watch')[0] ?? '';
    expect(hours(page)).toEqual(['100', '500']);
    expect(hours(tagLines(whole).join('\n'))).toEqual(['100', '500']);
    expect(page).toContain('500 hours of running in all, set by AP');
    expect(page).toContain('Earlier than the estimate asks: that is 2200 hours, 880 at worst.');
    expect(page).not.toContain('already');
  });
  test('is the earliest that it may be due, and later only with a reason', () => {
    const late = new Job().answer('next-inspection', 'job', { inspect_set: '881' }).run();
    expect(late.ok ? '' : late.message).toContain('881 hours are later than 880');
    const set = sheetFor(new Job().answer('next-inspection', 'job', { inspect_set: '880' }));
    const why = set.front.due?.why.map((w) => w.text).join(' ');
    expect(why).toContain(
      'The estimate is 2200 hours, good to a factor of two or three: it may be due after 880 already.',
    );
  });
});

test('a limit that is read at the seat is not told as one of the ring', () => {
  const job = cut('run-in-log').answer('run-in-plan', 'job', { sensor_at: 'seat', temp_limit: '60 C' });
  job.step('run-in-plan').overrule = { gate: 'steady-below-stop', reason: 'the seat reads low', initials: 'MN' };
  const seat = stateOf(job);
  expect(seat.values.get('limit_where', 'job')).toMatchObject({ value: 'at the seat of a bearing' });
  expect(sheetOf(seat).front.instruments.map((r) => `${r.heading}: ${r.text}`)).toContain(
    'Thermometer: at each seat, reads up to 10 K low',
  );
  const { rows = [], tag = [] } = seat.model.procedure.sheet?.front ?? {};
  const limits = [...rows, ...tag].filter((r) => r.say.includes('{temp_limit}'));
  expect(limits.length).toBeGreaterThan(2);
  for (const r of limits) expect(r.say).toContain('{temp_limit} {limit_where}');
});

describe('a look at the bearings', () => {
  /** Nothing found at either, so far as a step. */
  const calm = (): Job => {
    const job = inspectionJob().answer('seal-outside', 'a.back', { outside: 'dry' });
    job.answer('listen', 'b', { heard: 'smooth', tone: 'none' });
    job.step('warmth', 'b').rows = [0, 10, 10].map((after) => ({ after: `${after} min`, ring_temp: '40 C' }));
    return job;
  };
  test('has a tag with what was decided, the next look and why it is due', () => {
    const job = calm().drop((x) => x.step === 'out-of-service' || x.step === 'bring');
    for (const place of ['a', 'b']) job.answer('verdict', place, { fate: 'run-on' });
    job.before(
      'statement',
      'job',
      { step: 'close-up', answers: { closed_up: 'yes' } },
      { step: 'next-look', predict: { next_due: '500' }, answers: { next_set: '500' } },
    );
    const sheet = sheetFor(job);
    expect(sheet.head.finished).toBe(true);
    expect(sheet.front.barred).toEqual([]);
    expect(tagLines(sheet).join('\n')).toMatch(/^Decided, Drive end: Run on$/m);
    expect(tagLines(sheet).join('\n')).toMatch(/^Next look: 500 h of running/m);
    expect(sheet.front.due?.why.map((w) => w.text).join(' ')).toMatch(/\w/);
  });
  test('bars a machine that is to be opened, before it is decided and after', () => {
    const loud = cut('verdict', calm());
    loud.items.push({ raise: 'noise', at: 'a' });
    expect(sheetFor(loud).verdict).toMatch(
      /^DO NOT RUN\. Drive end: Nobody decided yet, and the findings say open it \(noise\)\. NOT FINISHED/,
    );
    const open = sheetFor(inspectionJob());
    expect(open.verdict).toMatch(/^DO NOT RUN\. Non-drive end: This bearing is to be opened\. FINISHED\./);
    expect(open.front.due).toBeUndefined();
    expect(tagLines(open)).toContain('DO NOT RUN: Non-drive end: This bearing is to be opened.');
  });
});

test('what is not called for at a bearing leaves what is worked out for it known', () => {
  const job = closed({ front: 'shield', back: 'shield', dosed: ['0.6 mL', '13.80 g', '12.55 g'] });
  const state = stateOf(job);
  expect(found(state).values.get('inspect_early', 'job')).toMatchObject(state.values.get('inspect_early', 'job'));
  expect(sheetOf(state).front.due?.hours).toBe(100);
});
