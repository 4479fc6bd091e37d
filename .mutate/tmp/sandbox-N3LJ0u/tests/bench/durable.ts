/** Time until one answer is on disk for good, through the store as the screens use it. */
// @ts-nocheck

import { resolve } from 'node:path';
import { openStore } from '../../src/store/open-store.js';
import { makeLongJob } from './prepare.js';

export async function durable(folder: string, sizes: readonly number[]): Promise<[number, number[]][]> {
  const out: [number, number[]][] = [];
  for (const n of sizes) {
    const made = await makeLongJob(`${folder}-${n}`, n);
    const opened = await openStore(resolve(made.folder)).open(made.id);
    if (!opened.ok) throw new Error(opened.trouble.sentence);
    const times: number[] = [];
    for (let i = 0; i < 40; i++) {
      const t = performance.now();
      const r = opened.value.append({ kind: 'note', place: 'job', text: `answer ${i}`, by: 'AB' });
      times.push(performance.now() - t);
      if (!r.ok) throw new Error(r.trouble.sentence);
    }
    await opened.value.close();
    out.push([n, times]);
  }
  return out;
}
