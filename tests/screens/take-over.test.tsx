/** A new job on a rotor that was here before: picked, what is known of it confirmed by one key, none of it typed again. */
import { afterEach, expect, test } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { takenOver } from '../../src/life/take-over.js';
import { Job, model } from '../shipped/good-job.js';
import { type Bench, openBench } from './bench.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const first = new Job().run().state;
const rotor = 'Practice rotor 1';
const listed = {
  id: 'first',
  name: 'First job',
  procedure: model.procedure.procedure,
  changed: first.entries.at(-1)?.at ?? '',
  summary: { finished: true, rotor, machine: 'Test bench', did: 'Regreased in place', hours: 500, due: '2026-05-04' },
};

async function atTakeOver(cols = 80, rows = 24): Promise<Bench> {
  let kept: readonly Entry[] = [];
  const b = openBench({
    model,
    cols,
    rows,
    at: '2028-01-03T08:00:00Z',
    app: {
      jobs: {
        list: () => ({ ok: true, value: [listed] }),
        latest: () => ({ ok: true, value: { jobs: [listed], count: 1 } }),
        open: async () => ({ ok: false, trouble: { code: 'none', sentence: 'None.' } }),
        create: async (name, head) => {
          kept = [{ ...head, seq: 1, at: '2028-01-03T08:00:00.000Z' } as Entry];
          return {
            ok: true,
            value: {
              ...{ id: 'second', name, readOnly: false, draftTexts: () => [], setDraftTexts: () => undefined },
              get entries() {
                return kept;
              },
              append: (drafts) => {
                const more = drafts.map((d, i) => ({ ...d, seq: kept.length + 1 + i, at: '2028-01-03T08:00:01.000Z' }));
                kept = [...kept, ...(more as Entry[])];
                b.kept.entries = kept;
                return { ok: true, value: more as Entry[] };
              },
              close: async () => undefined,
            },
          };
        },
      },
      takenOver: async () => takenOver(model, [{ job: 'first', state: first }]),
    },
  });
  open.push(b);
  await b.ready();
  await b.press(/(\d) +Start a job/.exec(b.screen())?.[1] ?? '');
  await b.waitFor('Which rotor?');
  await b.press('2');
  await b.waitFor('Name of the job');
  await b.press('enter', 'XY', 'enter', '1');
  await b.waitFor('Known from earlier jobs');
  return b;
}

test('it stands on one screen, with the job that it is from', async () => {
  const b = await atTakeOver();
  expect(b.screen()).not.toContain('more below');
  expect(b.screen()).toContain(`From ${first.ledger.job?.name}`);
});

test('one key takes all of it over, each figure with where it is from', async () => {
  const b = await atTakeOver();
  // A stray Enter takes nothing over.
  await b.press('enter');
  await b.waitFor('Nothing is picked yet');
  await b.press('1');
  await b.waitFor('Before you begin');
  await b.press('enter');
  await b.waitFor('Which bearings');
  const answers = b.kept.entries.flatMap((e) => (e.kind === 'answer' ? [e] : []));
  expect(answers.find((e) => e.key === 'cage' && e.place === 'a')).toMatchObject({
    by: 'XY',
    value: 'peek',
    from: { job: 'first', name: first.ledger.job?.name },
  });
  expect(answers.every((e) => e.from?.job === 'first')).toBe(true);
  expect(answers.map((e) => e.key)).not.toContain('balls_seen');
});

test('what is not so is asked anew in its step', async () => {
  const b = await atTakeOver();
  await b.press('3');
  await b.waitFor('Pick what is not so');
  await b.press(/(\d) +\[x\] Bearing size/.exec(b.screen())?.[1] ?? '');
  await b.waitFor('[ ] Bearing size');
  await b.press('esc');
  await b.waitFor('1 asked anew');
  await b.press('1');
  await b.waitFor('Before you begin');
  await b.press('enter');
  await b.waitFor('Which bearings');
  const sizes = b.kept.entries.flatMap((e) => (e.kind === 'answer' && e.key === 'bearing_size' ? [e.place] : []));
  expect(sizes).toEqual(['b']);
});
