/** A small disk of its own for tests of full and read-only disks; only root can mount one. */
// @ts-nocheck

import { execFileSync } from 'node:child_process';
import { newFolder } from './sample-job.js';

function mount(...args: string[]): boolean {
  try {
    execFileSync('mount', args, { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

/** Why mounts can't be made here; nothing when they can. */
export const noMounts: string | undefined = ((): string | undefined => {
  if (process.getuid?.() !== 0) return 'only root can mount a small disk';
  const folder = newFolder();
  if (!mount('-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', folder)) return 'this machine allows no mounts';
  execFileSync('umount', [folder]);
  return undefined;
})();

/** Runs a test on a small disk, which is gone afterwards. */
export async function onSmallDisk(size: string, run: (folder: string) => Promise<void>): Promise<void> {
  const folder = newFolder();
  if (!mount('-t', 'tmpfs', '-o', `size=${size},mode=700`, 'tmpfs', folder)) throw new Error('mount failed');
  try {
    await run(folder);
  } finally {
    execFileSync('umount', ['-l', folder]);
  }
}

export function remount(folder: string, how: 'ro' | 'rw'): void {
  execFileSync('mount', ['-o', `remount,${how}`, folder]);
}
