/** Spoilt files of readings by the real program; fuzz.test.ts does more of them in its own process. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { stringify } from 'yaml';
import { size } from '../setup/size.js';
import { replayed, written } from './program.js';
import { apply, change, type File, good } from './spoil.js';

it('one line on stderr with file and line, nothing on stdout', async () => {
  const samples = fc.sample(fc.array(change, { minLength: 1, maxLength: 2 }), size(8, 500));
  for (const changes of samples) {
    const file = structuredClone(good) as unknown as File;
    for (const c of structuredClone(changes)) apply(file, c);
    const path = written(stringify(file, { aliasDuplicateObjects: false }));
    const { code, out, err } = await replayed(path);
    expect([0, 1, 2]).toContain(code);
    if (code === 0) continue;
    expect(out).toBe('');
    expect(err.startsWith(`${path}:`) || /procedure/.test(err), err).toBe(true);
    expect(err.replace(/\n/g, '')).not.toMatch(/[\u0000-\u001f\u007f]/);
  }
});
