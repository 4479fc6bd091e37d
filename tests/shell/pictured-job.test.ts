/** A job with a picture goes to another computer by the two commands, and the picture stands on the sheet there. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { openStore } from '../../src/store/open-store.js';
import { keepPicture, pictureFolder } from '../../src/store/pictures.js';
import { newFolder, run, storedJob } from './shell.js';

const hashOf = (file: string): string => createHash('sha256').update(readFileSync(file)).digest('hex');

it('is exported and imported with its picture, and says so where the picture was left behind', async () => {
  const from = newFolder();
  const id = await storedJob(from);
  const photo = join(newFolder(), 'front seal.jpg');
  const plate = sharp({ create: { width: 1200, height: 900, channels: 3, background: '#7a6a55' } });
  writeFileSync(photo, await plate.jpeg().toBuffer());
  const before = hashOf(photo);
  const kept = await keepPicture(from, id, `'${photo}' `);
  if (typeof kept === 'string') throw new Error(kept);
  const job = await openStore(from).open(id);
  if (!job.ok) throw new Error(job.trouble.sentence);
  const { file, sha256, bytes, name } = kept;
  const picture = {
    kind: 'picture',
    step: 'size',
    place: 'a',
    file,
    sha256,
    bytes,
    name,
    shows: 'Front seal',
    by: 'AP',
  };
  expect(job.value.append(picture as Parameters<typeof job.value.append>[0]).ok).toBe(true);
  await job.value.close();

  const out = join(newFolder(), 'job.json');
  const exported = await run('export', id, out, '--data', from);
  expect(exported).toMatchObject({ code: 0, err: '' });
  expect(exported.out).toContain('and 1 picture to');
  const here = newFolder();
  const imported = await run('import', out, '--data', here);
  expect(imported).toMatchObject({ code: 0, err: '' });
  expect(imported.out).toMatch(/^Imported as (\S+): .*With 1 picture\./);
  const there = /^Imported as (\S+):/.exec(imported.out)?.[1] ?? '';
  expect(readdirSync(pictureFolder(here, there))).toContain(file);
  expect(hashOf(join(pictureFolder(here, there), file))).toBe(before);
  expect(hashOf(photo)).toBe(before);
  const sheet = (await run('sheet', there, '--format', 'html', '--data', here)).out;
  expect(sheet).toContain('src="data:image/jpeg;base64,');
  expect(sheet).toContain('Front seal');

  renameSync(`${out}.pictures`, `${out}.elsewhere`);
  const without = newFolder();
  const bare = await run('import', out, '--data', without);
  expect(bare.code).toBe(0);
  expect(bare.err).toContain('Left behind: 1 picture of this job.');
  expect((await run('sheet', '--data', without)).code).toBe(0);
});
