/** A shop's own procedure and table rows: marked as the shop's on every page and on the sheet. */
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { replay } from '../../src/engine/replay/replay.js';
import type { State } from '../../src/engine/state/state.js';
import { tablesOf } from '../../src/library/library.js';
import { readFolder } from '../../src/library/read-folder.js';
import { modelOf } from '../../src/procedure/model.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toJson } from '../../src/sheet/to-json.js';
import { newContent } from '../../src/store/job-file.js';
import { writeTransfer } from '../../src/store/transfer-job.js';
import { practiceFile, readReplay } from './drive.js';
import { closeTerminals } from './harness.js';
import { cli, newProgram, type Program, root } from './program.js';
import { shipped } from './read-screen.js';

const shopFolder = mkdtempSync(join(tmpdir(), 'shop-'));
let program: Program;
/** The job as its commands see it, who read the folder anew each time. */
let state: State;
const file = readReplay(practiceFile);

/** A size of the shop's own that has the invented rotor's dimensions. */
const sizes = `table: iso15-sizes
title: Sizes that we meet
columns:
  bore: { type: number, unit: mm, label: Bore }
  outside: { type: number, unit: mm, label: Outside diameter }
  width: { type: number, unit: mm, label: Width }
  mass: { type: number, unit: g, label: Mass of the all-steel bearing }
  balls: { type: number, label: "Balls, usual number" }
  ball: { type: number, unit: mm, label: "Ball diameter, usual" }
  note: { type: text, label: Size }
rows:
  - { id: bench-30, bore: 30, outside: 62, width: 16, mass: 200, balls: 9, ball: 9.525, note: "30 x 62 x 16 mm", tag: shop, source: "weighed 2026-02-02 on the scale of the invented shop" }
`;

/** The practice job up to the free volume of its first bearing, its first bearing of the shop's own size. */
async function job(): Promise<void> {
  const { procedure, hash } = shipped(file.procedure);
  const under = JSON.parse(readFileSync(join(dirname(cli), 'shipped.json'), 'utf8'));
  // Its procedure is a copy of the shipped one, and takes seconds to be read.
  const own = readFolder(shopFolder, { ...under, parts: [] });
  copyFileSync(
    join(root, 'procedures', `${procedure.procedure}.yaml`),
    join(shopFolder, `${procedure.procedure}.yaml`),
  );
  const end = file.steps.findIndex((s) => 'step' in s && s.step === 'volume-known' && s.at === 'a');
  const steps = file.steps
    .slice(0, end)
    .map((s) =>
      'step' in s && s.step === 'size' && s.at === 'a'
        ? { ...s, answers: { ...s.answers, bearing_size: 'bench-30' } }
        : s,
    );
  const made = replay(modelOf(procedure, hash, tablesOf(own.tables), calculators, true), {
    ...file,
    invented: false,
    steps,
  });
  if (!made.ok) throw new Error(made.message);
  state = made.state;
  const transfer = join(shopFolder, 'job.json');
  writeTransfer(newContent('made-for-a-test', file.name, [...made.state.entries]), transfer);
  expect(await program.run('import', transfer, '--procedures', shopFolder)).toMatchObject({ code: 0 });
  rmSync(transfer);
  program.stand(new Date(Date.parse(made.state.entries.at(-1)?.at ?? '') + 60_000).toISOString());
}

beforeAll(async () => {
  mkdirSync(join(shopFolder, 'tables'));
  writeFileSync(join(shopFolder, 'tables', 'iso15-sizes.yaml'), sizes);
  program = newProgram();
  await job();
});
afterEach(() => closeTerminals());
afterAll(() => {
  program.remove();
  rmSync(shopFolder, { recursive: true, force: true });
});

test('every page is marked, a figure that rests on the shop’s row and a new job say so', async () => {
  const term = program.open(['resume', '--procedures', shopFolder]);
  await term.waitFor('goes by the shop’s own procedure');
  expect(term.lines()[0]).toMatch(/^ SHOP’S OWN · /);
  await term.rest();
  term.press('enter');
  await term.waitFor('Free volume taken from');
  // This bearing has a size that came with the program.
  expect(term.lines()[0]).toMatch(/^ SHOP’S OWN · Non-drive end/);
  expect(term.screen()).not.toContain('rests on');
  term.press('tab');
  await term.waitFor(/SHOP’S OWN · Drive end/);
  term.write('1');
  await term.waitFor('rests on the shop’s own row');
  expect(term.lines()[0]).toMatch(/^ SHOP’S OWN · Drive end/);
  term.write('n');
  await term.waitFor('Where does it come from');
  expect(term.lines()[0]).toMatch(/^ SHOP’S OWN · /);

  // A new job says which procedure is the shop's own.
  while (!term.screen().includes('leave this job')) {
    await term.rest();
    term.press('escape');
    await term.taken();
  }
  term.write('l');
  await term.waitFor('Start a job');
  await term.rest();
  term.write('2');
  await term.waitFor('Which procedure?');
  expect(term.screen().replace(/\s+/g, ' ')).toMatch(/regrease.* \(\d+\.\d+\.\d+, the shop’s own\)/i);
});

test('the sheet says it in all its forms', async () => {
  const done = await program.run('sheet', file.name, '--format', 'md', '--full', '--procedures', shopFolder);
  expect(done).toMatchObject({ code: 0, err: '' });
  const md = done.out;
  expect(md).toMatch(/^Procedure: .*, the shop’s own, its own check number/m);
  // The other bearing has a size that came with the program.
  expect(md).toMatch(/\| Speed factor n dm [^|]*\| [^|]*rests on the shop’s own row\) \| (?![^|]*shop’s own row)/);
  expect(md).toContain('the shop’s own figure: weighed 2026-02-02');
  expect(md).toMatch(/bench-30 .*\(the shop’s own\)/);
  const made = sheetOf(state);
  const html = toHtml(made);
  expect(html).toMatch(/>Procedure: [^<]*, the shop’s own, its own check number/);
  expect(html).toMatch(/\(rests on the shop’s own row\)/);
  const json = JSON.parse(toJson(made));
  expect(json.head.shop).toBe(true);
  const ndm = json.headline.filter((f: { key: string }) => f.key === 'ndm');
  expect(ndm.map((f: { place: string; shop?: boolean }) => [f.place, f.shop])).toEqual([
    ['a', true],
    ['b', undefined],
  ]);
});

test('a procedure that came with the program is marked nowhere', async () => {
  const plain = newProgram();
  const done = await plain.run('replay', practiceFile.pathname, '--json');
  expect(done.code).toBe(0);
  expect(done.out).not.toMatch(/shop’s own|"shop"/);
  plain.remove();
});
