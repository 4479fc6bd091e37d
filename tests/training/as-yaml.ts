/** A replay file as text, one line a step and one a row. */
import { stringify } from 'yaml';
import type { ReplayFile } from '../../src/engine/replay/replay-file.js';

const flow = (x: unknown): string => stringify(x, { collectionStyle: 'flow', lineWidth: 0 }).trim();

export function asYaml(file: ReplayFile, head: string): string {
  const { steps, ...top } = file;
  const lines = steps.map((s) => {
    if (!('rows' in s) || !s.rows) return `  - ${flow(s)}`;
    const { rows, ...rest } = s;
    const more = Object.entries(rest).map(([k, v], i) => `${i === 0 ? '  - ' : '    '}${k}: ${flow(v)}`);
    return [...more, '    rows:', ...rows.map((r) => `      - ${flow(r)}`)].join('\n');
  });
  return [`# ${head}`, `${stringify(top).trim()}`, 'steps:', ...lines, ''].join('\n');
}
