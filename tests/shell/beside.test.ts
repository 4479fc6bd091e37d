/** What lies beside a file that is checked alone: tables, and for a part the procedure that uses it. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { root } from '../procedure/library.js';
import { ranIn } from '../setup/commands.js';

const folder = mkdtempSync(join(tmpdir(), 'beside-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('one file alone', () => {
  mkdirSync(join(folder, 'tables'));
  mkdirSync(join(folder, 'parts'));
  writeFileSync(
    join(folder, 'tables', 'plugs.yaml'),
    'table: plugs\ntitle: Plugs\ncolumns: { torque: { type: number, unit: Nm, label: Torque } }\nrows:\n  - { id: small, torque: 15, tag: shop, source: "shop\'s own, untested" }\n',
  );
  writeFileSync(
    join(folder, 'gearbox.yaml'),
    `procedure: gearbox
version: 1.0.0
title: Gearbox
summary: Made up for tests.
places: []
phases: [ { id: close, title: Close } ]
steps:
  - id: drain
    phase: close
    at: job
    title: Drain
    do: Drain it.
    why: It is old.
    ask:
      - { key: drained, kind: quantity, quantity: volume, unit: L, kept_in: mL, label: Old oil, limits: [0, 50000] }
      - { key: plug, kind: choice-from-table, label: Plug, table: plugs }
  - part: oil-away
`,
  );
  writeFileSync(
    join(folder, 'parts', 'oil-away.yaml'),
    `part: oil-away
version: 1.0.0
title: Oil away
needs:
  - { phase: close }
steps:
  - { id: away, phase: close, at: job, title: Away, do: "Pour the {drained} away.", why: It is slippery. }
`,
  );
  const run = (file: string) => ranIn(root, ['check', join(folder, file)]);

  it('finds the tables that lie beside it', async () => {
    const said = await run('gearbox.yaml');
    expect(said.err).toContain('1 mistake.');
    expect(said.err).not.toContain('no table');
  });

  it('of a part is told its needs as the procedure beside it has them, ready to paste', async () => {
    const said = await run('parts/oil-away.yaml');
    expect(said.err).toContain('To paste under “needs:”');
    expect(said.err).toContain('  - { key: drained, at: job, quantity: volume }');
  });
});

it('says nothing of a part that only a file with mistakes names', async () => {
  const shop = mkdtempSync(join(tmpdir(), 'beside-'));
  mkdirSync(join(shop, 'parts'));
  writeFileSync(
    join(shop, 'parts', 'away.yaml'),
    'part: away\nversion: 1.0.0\ntitle: Away\nneeds:\n  - { phase: close }\nsteps:\n  - { id: away, phase: close, at: job, title: Away, do: Pour., why: Slippery. }\n',
  );
  writeFileSync(join(shop, 'oil.yaml'), 'procedure: oil\nsteps:\n  - part: away\n  - { id: a, do: "x }\n');
  const said = await ranIn(root, ['check', shop]);
  rmSync(shop, { recursive: true, force: true });
  expect(said.code).toBe(1);
  expect(said.err).not.toContain('No procedure here uses');
});
