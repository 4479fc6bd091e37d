import { execFileSync } from 'node:child_process';

/** Build once before the suite: pseudo-terminal and command tests run the real program. */
export default function setup(): void {
  if (process.env.ROTORSIDE_SKIP_BUILD) return;
  execFileSync(process.execPath, ['src/build/build.mjs'], { stdio: 'inherit' });
}
