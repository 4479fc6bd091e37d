/**
 * Simulated run-ins by the rules of the guide. As a child: rotors FROM to TO (not included) as lines of JSON.
 * As the parent: shares them out over the cores and prints the table. `npm run bench:run-in -- 3000 7000001`: so many
 * rotors of each simulator from this seed on.
 */
import { spawn } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { argv, execPath, exit } from 'node:process';
import { type Simulator, simulators } from './machines.js';
import { score } from './score.js';
import { figuresOf, type Line, lineOf, table } from './tally.js';

interface Result extends Line {
  readonly simulator: Simulator;
  readonly seed: number;
}

function child(simulator: Simulator, from: number, to: number): void {
  for (let seed = from; seed < to; seed++) {
    const result: Result = { simulator, seed, ...lineOf(score(simulator, seed)) };
    console.log(JSON.stringify(result));
  }
}

function share(simulator: Simulator, from: number, to: number): Promise<Result[]> {
  return new Promise((done, fail) => {
    const self = spawn(execPath, [argv[1] ?? '', 'child', simulator, String(from), String(to)], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let text = '';
    self.stdout.on('data', (part) => {
      text += part;
    });
    self.on('error', fail);
    self.on('close', (code) =>
      code === 0
        ? done(
            text
              .trim()
              .split('\n')
              .map((line) => JSON.parse(line)),
          )
        : fail(new Error(`a share of the bench ended with ${code}`)),
    );
  });
}

async function parent(rotors: number, first: number): Promise<void> {
  const cores = Math.max(1, Math.min(8, availableParallelism()));
  const results: Result[] = [];
  for (const simulator of simulators) {
    const each = Math.ceil(rotors / cores);
    const shares = Array.from({ length: cores }, (_, i) => share(simulator, first + i * each, first + (i + 1) * each));
    results.push(...(await Promise.all(shares)).flat());
  }
  const columns = simulators.map(
    (simulator) => [`${simulator} simulator`, figuresOf(results.filter((r) => r.simulator === simulator))] as const,
  );
  const text = table(columns);
  console.log(text);
  mkdirSync('.bench', { recursive: true });
  writeFileSync('.bench/run-in.md', `${text}\n`);
  writeFileSync('.bench/run-in.json', JSON.stringify(results));
}

const [, , mode, simulator, from, to] = argv;
if (mode === 'child') child(simulator as Simulator, Number(from), Number(to));
else
  parent(Number(mode ?? 3000), Number(simulator ?? 7_000_001)).catch((error) => {
    console.error(String(error));
    exit(1);
  });
