/** Output that can't be written whole is never taken for a success. */
import { existsSync, readFileSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { noMounts, onSmallDisk } from '../store/private-mount.js';
import { goodFile, newFolder, shell, started, storedJob } from './shell.js';

const noFull = existsSync('/dev/full') ? undefined : 'there is no /dev/full here';

describe.skipIf(noFull !== undefined)('a device that is full', () => {
  it.each([
    ['a short output', '$R calc syringe bore=14.5 doses=1ml'],
    ['a long output', `$R replay ${goodFile} --json`],
    ['the list of commands', '$R --help'],
  ])('%s', (_name, line) => {
    const { code, err } = shell(`${line} > /dev/full`);
    expect(code).toBe(1);
    expect(err).toBe(
      'The output could not be written whole (the disk is full); free some space or write it elsewhere.\n',
    );
  });

  it('but a reader that has seen enough is no failure', () => {
    const { code, out } = shell(`set -o pipefail; $R replay ${goodFile} | head -1`);
    expect(out).toContain('PRACTICE');
    expect(code).toBe(0);
  });
});

describe.skipIf(noMounts !== undefined)(`a disk of its own${noMounts ? ` (skipped: ${noMounts})` : ''}`, () => {
  it('full: no part of the sheet is left, so that the next try finds its name free', async () => {
    const data = newFolder();
    const id = await storedJob(data);
    await onSmallDisk('256k', async (folder) => {
      const { bavail, bsize } = statfsSync(folder);
      const filling = join(folder, 'filling');
      writeFileSync(filling, Buffer.alloc(bavail * bsize - 4096));
      const out = join(folder, 'sheet.html');
      const write = () => started('sheet', id, '--format', 'html', '--out', out, '--data', data);
      const full = write();
      expect(full.code).toBe(1);
      expect(full.err).toContain('because the disk is full');
      expect(existsSync(out)).toBe(false);
      rmSync(filling);
      expect(write()).toMatchObject({ code: 0, err: '' });
      expect(readFileSync(out, 'utf8').trimEnd()).toMatch(/<\/html>$/);
      expect(write().err).toContain('is there already and is not overwritten');
    });
  });
});
