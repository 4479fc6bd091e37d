/** Appends to a job until it is killed (or so often as it is told), and says each number only after append has returned. */
// @ts-nocheck

import { writeSync } from 'node:fs';
import { openStore } from '../../src/store/open-store.js';

const [folder, id, limit = 'Infinity'] = process.argv.slice(2) as [string, string, string?];
let left = Number(limit);
const opened = await openStore(folder).open(id);
if (!opened.ok) {
  writeSync(1, `trouble ${opened.trouble.sentence}\n`);
} else if (opened.value.readOnly) {
  writeSync(1, `read-only ${opened.value.whyReadOnly}\n`);
} else {
  const job = opened.value;
  writeSync(1, `open ${job.entries.length}\n`);
  const step = (): void => {
    const result = job.append({ kind: 'note', by: 'AB', place: 'job', text: `note ${'x'.repeat(3000)}` });
    writeSync(1, result.ok ? `saved ${result.value[0]!.seq}\n` : `trouble ${result.trouble.sentence}\n`);
    if (--left > 0) setImmediate(step);
  };
  step();
}
