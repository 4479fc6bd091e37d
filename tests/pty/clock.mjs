// Loaded before the program (node --import): gives its process another wall clock, as `faketime` would. The program
// itself has no such knob. The file holds {"add": ms} for a clock that runs that much ahead, or {"stand": ms} for one
// that stands still; it is read at each look, so that hours pass while the program runs.
import { readFileSync } from 'node:fs';

const file = new URL(import.meta.url).searchParams.get('file');
const Real = globalThis.Date;
let told = { add: 0 };

function now() {
  try {
    told = JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    // It is just being written: the time told last holds.
  }
  return told.stand ?? Real.now() + told.add;
}

globalThis.Date = class Moved extends Real {
  constructor(...args) {
    if (args.length === 0) super(now());
    else super(...args);
  }
  static now() {
    return now();
  }
};
