/**
 * A laptop on a share: appends to a job and says each number only once it is saved. It has its own name and clock, and the
 * share goes away for it while a file outside the share is there.
 */
import fs, { writeSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import os from 'node:os';

const [folder, id, name, minutesOff, away, limit] = process.argv.slice(2) as [
  string,
  string,
  string,
  string,
  string,
  string,
];
const isAway = fs.existsSync.bind(fs);

/** Every call on the share answers as a network file system does that has lost its server. */
function loseShare(): void {
  const all = fs as unknown as Record<string, unknown>;
  const lost = (call: string, path: unknown): NodeJS.ErrnoException | undefined =>
    typeof path === 'string' && path.startsWith(folder) && isAway(away)
      ? Object.assign(new Error(`ESTALE: stale file handle, ${call} '${path}'`), { code: 'ESTALE', errno: -116 })
      : undefined;
  for (const [call, old] of Object.entries(all)) {
    if (typeof old !== 'function' || !/^[a-z]/.test(call) || call === 'existsSync') continue;
    const work = old as (...args: unknown[]) => unknown;
    all[call] = (...args: unknown[]): unknown => {
      const error = lost(call, args[0]);
      if (!error) return work.apply(fs, args);
      if (call.endsWith('Sync')) throw error;
      const back = args.at(-1);
      if (typeof back === 'function') setImmediate(() => (back as (e: Error) => void)(error));
      return undefined;
    };
  }
}

const off = Number(minutesOff) * 60_000;
const RealDate = Date;
class OtherDate extends RealDate {
  constructor(...args: unknown[]) {
    if (args.length === 0) super(RealDate.now() + off);
    else super(...(args as [number]));
  }
  static override now(): number {
    return RealDate.now() + off;
  }
}
globalThis.Date = OtherDate as DateConstructor;
os.hostname = () => name;
loseShare();
syncBuiltinESMExports();

const { openStore } = await import('../../src/store/open-store.js');
const opened = await openStore(folder).open(id);
if (!opened.ok) writeSync(1, `trouble ${opened.trouble.code}\n`);
else if (opened.value.readOnly) writeSync(1, `read-only ${opened.value.whyReadOnly}\n`);
else {
  const job = opened.value;
  writeSync(1, `open ${job.entries.length}\n`);
  let left = Number(limit);
  const step = async (): Promise<void> => {
    const result = job.append({ kind: 'note', by: 'AB', place: 'job', text: `${name} ${left}` });
    if (result.ok) writeSync(1, `saved ${result.value[0]?.seq} ${name} ${left--}\n`);
    else writeSync(1, `trouble ${result.trouble.code}\n`);
    if (left > 0 && !job.whyReadOnly) setTimeout(() => void step(), 10);
    else {
      await job.close();
      writeSync(1, `closed ${job.whyReadOnly ?? ''}\n`);
      process.exit(0);
    }
  };
  void step();
}
