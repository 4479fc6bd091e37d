/** Puts a whole journal into a data folder at once, as an import does: entry by entry each one would be synced. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Entry } from '../../src/engine/journal/entry.js';
import { newContent } from '../../src/store/job-file.js';
import { openStore } from '../../src/store/open-store.js';
import { writeTransfer } from '../../src/store/transfer-job.js';

/** Gives the id of the job. `random`: what its id ends with. */
export async function putJob(
  data: string,
  name: string,
  entries: readonly Entry[],
  random?: () => string,
): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'rotorside-put-'));
  const exported = join(folder, 'job.json');
  writeTransfer(newContent('made-for-a-test', name, [...entries]), exported);
  const taken = await openStore(data, random ? { random } : {}).importJob(exported);
  rmSync(folder, { recursive: true });
  if (!taken.ok) throw new Error(taken.trouble.sentence);
  return taken.value.id;
}
