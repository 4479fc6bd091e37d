/** Sheet and tag of practice: of one bearing, and of a job whose beginning the guide filled in. */
import { expect, it } from 'vitest';
import { fillTo } from '../../src/commands/fill-practice.js';
import { State } from '../../src/engine/state/state.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { tagOf } from '../../src/sheet/tag.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { clock as wall } from '../../src/sheet/when.js';
import { jobText, newContent, recordSum } from '../../src/store/job-file.js';
import { bareJob } from './bare-job.js';
import { rotorNamed } from './library.js';
import { planFor } from './plans.js';
import { walk } from './walk.js';

const rotor = rotorNamed('quiet-one');
const { state, entries } = walk(rotor.model, rotor, planFor(rotor, 'caught'));
const { show } = wall();

it('the tag of a job on one bearing tells how warm it was, and at which end', () => {
  const lines = tagOf(sheetOf(state), show)?.lines.filter((l) => l.label.startsWith('Run-in, no load'));
  expect(lines?.map((l) => l.text)).toEqual([expect.stringMatching(/^Drive end \d+ ± 1 °C, room 21/)]);
});

it('page 1 tells that under load it is warmer than in the run-in, and where it stood in service', () => {
  const watch = sheetOf(state).front.watch.map((w) => w.text);
  expect(watch.join('\n')).toMatch(/Under load it is warmer than in the run-in \(before: 58[^)]*°C\)/);
  expect(watch.join('\n')).toMatch(/Once steady: drive end _+ °C, other end _+ °C, room _+ °C\. At 5 K more above/);
});

it('the whole record shows how the hours to the next look were worked out', () => {
  const shown = sheetOf(state).derivations.filter((d) => /inspection|next look/i.test(JSON.stringify(d)));
  const text = JSON.stringify(shown);
  expect(text).toMatch(/a quarter of/);
  expect(text).toMatch(/factor of/);
});

it('paper and file belong together by the number over all entries, which the file ends with', () => {
  const check = recordSum(entries);
  expect(check).toMatch(/^[0-9a-f]{16}$/);
  expect(JSON.parse(jobText(newContent('any', 'any name', entries)))).toMatchObject({ end: check });
  const changed = entries.map((e, i) => (i === 40 ? { ...e, by: `${e.by}X` } : e));
  expect(recordSum(changed)).not.toBe(check);
  const made = toMarkdown(sheetOf(state, { number: 'q-abcd2345', check }));
  const [page1, rest] = [made.slice(0, made.indexOf('## Grease')), made.slice(made.indexOf('About this record'))];
  expect(page1 || made).toContain(`${entries.length} entries, check number ${check}`);
  expect(made).toContain('its own check number');
  expect(rest).toMatch(new RegExp(`check number ${check}\\. rotorside sheet q-abcd2345 works it out anew`));
  // A job from a file of readings is no record on disk.
  expect(toMarkdown(sheetOf(state))).not.toMatch(/entries, check number/);
});

it('of a late start the sheet tells once that the guide filled in what comes before, and vouches for nothing of it', async () => {
  const { job, clock, state: now } = bareJob(rotor, 'run-in');
  expect(await fillTo(job, rotor, 'run-in', clock)).toBeUndefined();
  const sheet = sheetOf(now());
  const told = sheet.front.unusual.map((u) => u.text).join('\n');
  expect(told).toContain('What comes before “Run in” was filled in by the guide: nobody did it.');
  expect(told).not.toMatch(/ANOTHER MENTOR|ANOTHER ANSWER|OVERRULED|NO OWN FINDING|put right/);
  expect(sheet.signatures).toEqual([]);
  expect(sheet.head.people.map((p) => p.initials)).toEqual(['AP', 'MN']);
  // Nothing is left out of a real record, whatever somebody's initials are.
  const real = new State(
    rotor.model,
    now().entries.map((e) => {
      if (e.kind !== 'job') return e;
      const { practice: _, ...kept } = e;
      return kept as typeof e;
    }),
    now().now,
  );
  expect(sheetOf(real).head.people.map((p) => p.initials)).toContain('BENCH');
});
