/** Jobs from several laptops by export and import: no loss, no duplicate. */
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { openStore } from '../../src/store/open-store.js';
import { size } from '../setup/size.js';
import { answer, first, got, makeJob, newFolder } from './sample-job.js';

let files = 0;
async function exported(folder: string, id: string): Promise<string> {
  const file = join(newFolder(), `${files++}.json`);
  got(openStore(folder).exportJob(id, file));
  return file;
}
const take = async (folder: string, file: string) => {
  const taken = await openStore(folder).importJob(file);
  return { head: got(taken), notice: taken.ok ? taken.notice : undefined };
};
const notesOf = async (folder: string, id: string): Promise<unknown[]> => {
  const job = got(await openStore(folder).open(id, { readOnly: true }));
  return job.entries.flatMap((e) => (e.kind === 'answer' ? [e.value] : []));
};

test('taken in twice it is one job, and that is said', async () => {
  const { folder, job } = await makeJob(3);
  await job.close();
  const file = await exported(folder, job.id);
  const there = newFolder();
  const one = await take(there, file);
  expect(one.notice).toBeUndefined();
  const two = await take(there, file);
  expect(two.head.id).toBe(one.head.id);
  expect(two.notice).toContain('It is here already');
  expect(got(openStore(there).list())).toHaveLength(1);
  // Into the folder that it is from as well.
  expect((await take(folder, file)).head.id).toBe(job.id);
  expect(got(openStore(folder).list())).toHaveLength(1);
});

test('what was added elsewhere comes into the job that is here; an older copy takes nothing away', async () => {
  const { folder, job } = await makeJob(2);
  await job.close();
  const old = await exported(folder, job.id);
  const there = newFolder();
  const { head } = await take(there, old);
  const other = got(await openStore(there).open(head.id));
  got(other.append([answer(8), answer(9)]));
  await other.close();
  const longer = await take(folder, await exported(there, head.id));
  expect(longer.head.id).toBe(job.id);
  expect(longer.notice).toBe(`2 entries were added to ${job.id}.`);
  expect(await notesOf(folder, job.id)).toEqual([0.1, 0.2, 8, 9]);
  expect((await take(folder, old)).notice).toContain('It is here already');
  expect(await notesOf(folder, job.id)).toEqual([0.1, 0.2, 8, 9]);
  expect(got(openStore(folder).list()).map((h) => h.entries)).toEqual([5]);
});

test('where both went on, both are kept, however often it is taken in', async () => {
  const { folder, job } = await makeJob(2);
  const file = await exported(folder, job.id);
  const there = newFolder();
  const { head } = await take(there, file);
  const other = got(await openStore(there).open(head.id));
  got(other.append(answer(7)));
  await other.close();
  got(job.append(answer(5)));
  await job.close();
  const theirs = await exported(there, head.id);
  const parted = await take(folder, theirs);
  expect(parted.notice).toMatch(new RegExp(`began as ${job.id}, and from entry 4 on`));
  expect(await notesOf(folder, job.id)).toEqual([0.1, 0.2, 5]);
  expect(await notesOf(folder, parted.head.id)).toEqual([0.1, 0.2, 7]);
  expect((await take(folder, theirs)).head.id).toBe(parted.head.id);
  expect(got(openStore(folder).list())).toHaveLength(2);
});

test.each(['first', 'last'] as const)(
  'of two that parted it goes with the one that has more in common, worked on %s',
  async (when) => {
    const { folder, job } = await makeJob(2);
    const there = newFolder();
    const { head } = await take(there, await exported(folder, job.id));
    const add = async (at: string, id: string, n: number): Promise<void> => {
      const opened = got(await openStore(at).open(id));
      got(opened.append(answer(n)));
      await opened.close();
    };
    await job.close();
    await add(there, head.id, 7);
    await add(folder, job.id, 5);
    const nearer = (await take(folder, await exported(there, head.id))).head.id;
    await add(there, head.id, 9);
    for (const id of when === 'first' ? [nearer, job.id] : [job.id, nearer]) await add(folder, id, 8);
    const { notice } = await take(folder, await exported(there, head.id));
    expect(notice).toMatch(new RegExp(`began as ${nearer}, and from entry 5 on`));
  },
);

test('a job that is open in another window is not lengthened under it', async () => {
  const { folder, job } = await makeJob(1);
  const there = newFolder();
  const { head } = await take(there, await exported(folder, job.id));
  const other = got(await openStore(there).open(head.id));
  got(other.append(answer(7)));
  await other.close();
  const file = await exported(there, head.id);
  const refused = await openStore(folder).importJob(file);
  expect(refused.ok ? '' : refused.trouble.sentence).toContain('open in another window');
  await job.close();
  expect((await take(folder, file)).head.entries).toBe(3);
});

test('two at once take in the same file as one job', async () => {
  const { folder, job } = await makeJob(1);
  await job.close();
  const file = await exported(folder, job.id);
  const there = newFolder();
  const both = await Promise.all([take(there, file), take(there, file)]);
  expect(new Set(both.map((t) => t.head.id)).size).toBe(1);
  expect(got(openStore(there).list())).toHaveLength(1);
});

test('whatever laptops do, in any order of exports and imports, no entry is lost and none is there twice', async () => {
  const act = fc.record({
    who: fc.nat(2),
    to: fc.nat(2),
    what: fc.constantFrom('begin', 'go on', 'go on', 'hand over', 'hand over', 'hand over'),
    which: fc.nat(1),
  });
  let n = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(act, { minLength: 8, maxLength: 20 }), async (acts) => {
      const laptops = [newFolder(), newFolder(), newFolder()];
      /** Every answer that was ever saved, by laptop that has to have it. */
      const has: Set<number>[] = [new Set(), new Set(), new Set()];
      for (const { who, to, what, which } of acts) {
        const store = openStore(laptops[who]!);
        const heads = got(store.list());
        if (what === 'begin' || heads.length === 0) {
          const job = got(await store.create(`Job ${n}`, { ...first, name: `Job ${n}` }));
          got(job.append(answer(++n)));
          has[who]!.add(n);
          await job.close();
          continue;
        }
        const { id } = heads[which % heads.length]!;
        if (what === 'go on') {
          const job = got(await store.open(id));
          got(job.append(answer(++n)));
          has[who]!.add(n);
          await job.close();
        } else {
          for (const v of await notesOf(laptops[who]!, id)) has[to]!.add(v as number);
          await take(laptops[to]!, await exported(laptops[who]!, id));
        }
      }
      for (const [i, folder] of laptops.entries()) {
        const journals = await Promise.all(got(openStore(folder).list()).map(({ id }) => notesOf(folder, id)));
        expect(new Set(journals.flat())).toEqual(has[i]);
        // No journal is the same as another, or a beginning of it.
        const texts = journals.map((j) => j.join(','));
        for (const [a, one] of texts.entries())
          for (const [b, two] of texts.entries()) if (a !== b) expect(`${two},`.startsWith(`${one},`)).toBe(false);
      }
    }),
    { numRuns: size(20, 200) },
  );
});
