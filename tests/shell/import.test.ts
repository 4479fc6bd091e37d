/** A job from elsewhere whose answers do not fit their questions: told at the import, in the sheet, and not counted. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openStore } from '../../src/store/open-store.js';
import { newFolder, run, storedJob } from './shell.js';

describe('an imported job', () => {
  it('with values that no question could have had', async () => {
    const forged = newFolder();
    const id = await storedJob(forged, (e) =>
      e.kind === 'answer' && e.key === 'top_speed' ? { ...e, value: 5_000_000, typed: undefined } : e,
    );
    const file = join(newFolder(), 'job.json');
    expect((await run('export', id, file, '--data', forged)).code).toBe(0);
    const here = newFolder();
    const { code, out, err } = await run('import', file, '--data', here);
    expect(code).toBe(0);
    expect(out).toMatch(/^Imported as /);
    expect(err).toContain('These answers do not fit their questions and do not count');
    expect(err).toMatch(/Top speed.*5.?000.?000 rpm \(it is not from/);
    const sheet = await run('sheet', '--data', here);
    expect(sheet.out).toContain('A recorded answer does not fit its question and does not count: Top speed');
  });

  it('with nothing wrong says nothing more', async () => {
    const from = newFolder();
    const id = await storedJob(from);
    const file = join(newFolder(), 'job.json');
    const done = await run('export', id, file, '--data', from);
    // Where initials or a beginning were typed it says which job that was.
    expect(done.out).toMatch(new RegExp(`^.+ \\(${id}\\), written to `));
    const { code, err } = await run('import', file, '--data', newFolder());
    expect({ code, err }).toEqual({ code: 0, err: '' });
  });

  it('takes no entry with initials that are none', async () => {
    const folder = newFolder();
    const id = await storedJob(folder);
    const job = await openStore(folder).open(id);
    if (!job.ok) throw new Error(job.trouble.sentence);
    const refused = job.value.append({ kind: 'note', place: 'job', text: 'x', by: '\u0391\u03a1' });
    expect(refused.ok ? '' : refused.trouble.sentence).toContain('Latin letters');
    await job.value.close();
  });
});

describe('a time that no entry can hold', () => {
  it('in a file of readings is refused with its line', async () => {
    const file = join(newFolder(), 'long.replay.yaml');
    const good = readFileSync(new URL('../../procedures/practice/college-30kw.replay.yaml', import.meta.url), 'utf8');
    const far = async (from: RegExp, to: string): Promise<string> => {
      writeFileSync(file, good.replace(from, to));
      const { code, err } = await run('replay', file);
      expect(code).toBeGreaterThan(0);
      expect(code).toBeLessThan(70);
      expect(err.trimEnd().split('\n')).toHaveLength(1);
      return err;
    };
    expect(await far(/after: 10 min/, 'after: 99999999999999 d')).toMatch(/after: .*too long to wait/);
    expect(await far(/^start:.*$/m, 'start: "+275760-09-12T23:59:59Z"')).toMatch(/:\d+:\d+: .*years 1970 to 9998/);
  });
});

describe('several jobs', () => {
  it('go from one laptop to another by a folder; a second time nothing is added, and that is said', async () => {
    const from = newFolder();
    await storedJob(from);
    const second = openStore(from);
    const made = await second.create('Another', {
      ...{ kind: 'job', name: 'Another', procedure: 'regrease-in-place', version: '1', hash: 'h', by: 'AP' },
    });
    if (!made.ok) throw new Error(made.trouble.sentence);
    await made.value.close();
    const to = join(newFolder(), 'all');
    expect(await run('export', '--all', to, '--data', from)).toMatchObject({
      code: 0,
      out: expect.stringContaining('2 of 2'),
    });
    expect(await run('export', '--all', to, '--data', from)).toMatchObject({
      code: 1,
      err: expect.stringContaining('is not overwritten; name another folder.'),
    });
    const here = newFolder();
    const first = await run('import', to, '--data', here);
    expect(first.out.match(/^Imported as /gm)).toHaveLength(2);
    const again = await run('import', to, '--data', here);
    expect(again.code).toBe(0);
    expect(again.out.match(/It is here already/g)).toHaveLength(2);
    const listed = openStore(here).list();
    expect(listed.ok && listed.value.length).toBe(2);
  });
});
