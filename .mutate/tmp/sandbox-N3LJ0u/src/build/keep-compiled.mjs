// @ts-nocheck
// Runs a quick command once on an example and keeps what V8 compiled for it beside its file: `keep-compiled.mjs FILE NAME`.
import { renameSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { optimiseLate, run, scriptOf } from './load-compiled.mjs';

const examples = {
  calc: (commands) => commands.calc({ rest: ['speed-factor', 'bore=25', 'outside=52', 'speed=12000'] }),
  replay: (commands) => commands.replayCommand({ rest: ['procedures/practice/college-30kw.replay.yaml'] }),
};

const [file, name, late] = process.argv.slice(2);
if (late) optimiseLate();
const script = scriptOf(file);
const commands = run(script, file, dirname(file), createRequire(file), () => {
  throw new Error('The example needs a part that is loaded on the way.');
});
const ended = await examples[name](commands);
if (ended.code !== 0) throw new Error(`The example of ${name} failed: ${ended.err}`);
writeFileSync(`${file}.bin.${process.pid}`, script.createCachedData());
renameSync(`${file}.bin.${process.pid}`, `${file}.bin`);
