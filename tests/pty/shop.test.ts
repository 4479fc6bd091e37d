/** A shop's own procedure and table rows: marked as the shop's on every page and on the sheet. */
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { replay } from '../../src/engine/replay/replay.js';
import { tablesOf } from '../../src/library/library.js';
import { readFolder } from '../../src/library/read-folder.js';
import { modelOf } from '../../src/procedure/model.js';
import { newContent } from '../../src/store/job-file.js';
import { writeTransfer } from '../../src/store/transfer-job.js';
import { practiceFile, readReplay } from './drive.js';
import { closeTerminals } from './harness.js';
import { cli, newProgram, type Program, root } from './program.js';

const shopFolder = mkdtempSync(join(tmpdir(), 'shop-'));
let program: Program;
const file = readReplay(practiceFile);

/** A size of the shop's own that has the invented rotor's dimensions. */
const sizes = `table: iso15-sizes
title: Sizes that we meet
columns:
  bore: { type: number, unit: mm, label: Bore }
  outside: { type: number, unit: mm, label: Outside diameter }
  width: { type: number, unit: mm, label: Width }
  mass: { type: number, unit: g, label: Mass of the all-steel bearing }
  mass_plus_minus: { type: number, unit: g, label: Half width of the mass }
  balls: { type: number, label: "Balls, usual number" }
  ball: { type: number, unit: mm, label: "Ball diameter, usual" }
  note: { type: text, label: Size }
rows:
  - { id: bench-30, bore: 30, outside: 62, width: 16, mass: 200, mass_plus_minus: 10, balls: 9, ball: 9.525, note: "30 x 62 x 16 mm", tag: shop, source: "weighed 2026-02-02 on the scale of the invented shop" }
`;

/** The practice job up to the free volume of its first bearing, its first bearing of the shop's own size. */
async function job(): Promise<void> {
  const built = (name: string) => JSON.parse(readFileSync(join(dirname(cli), `${name}.json`), 'utf8'));
  const own = readFolder(shopFolder, { ...built('shipped'), parts: built('parts') });
  const found = own.procedures.find((p) => p.procedure.procedure === file.procedure);
  if (!found) throw new Error('no procedure');
  const end = file.steps.findIndex((s) => 'step' in s && s.step === 'volume-known' && s.at === 'a');
  const steps = file.steps
    .slice(0, end)
    .map((s) =>
      'step' in s && s.step === 'size' && s.at === 'a' ? { ...s, answers: { bearing_size: 'bench-30' } } : s,
    );
  const made = replay(modelOf(found.procedure, found.hash, tablesOf(own.tables), calculators, true), {
    ...file,
    invented: false,
    steps,
  });
  if (!made.ok) throw new Error(made.message);
  const transfer = join(shopFolder, 'job.json');
  writeTransfer(newContent('made-for-a-test', file.name, [...made.state.entries]), transfer);
  expect(await program.run('import', transfer, '--procedures', shopFolder)).toMatchObject({ code: 0 });
  rmSync(transfer);
  program.stand(new Date(Date.parse(made.state.entries.at(-1)?.at ?? '') + 60_000).toISOString());
}

beforeAll(async () => {
  mkdirSync(join(shopFolder, 'tables'));
  writeFileSync(join(shopFolder, 'tables', 'iso15-sizes.yaml'), sizes);
  copyFileSync(join(root, 'procedures', 'regrease-in-place.yaml'), join(shopFolder, 'regrease-in-place.yaml'));
  program = newProgram();
  await job();
});
afterEach(() => closeTerminals());
afterAll(() => {
  program.remove();
  rmSync(shopFolder, { recursive: true, force: true });
});

const sheet = async (format: string): Promise<string> => {
  const done = await program.run('sheet', file.name, '--format', format, '--full', '--procedures', shopFolder);
  expect(done).toMatchObject({ code: 0, err: '' });
  return done.out;
};

test('every page is marked, and a figure that rests on the shop’s row says so', async () => {
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
});

test('the sheet says it in all its forms', async () => {
  const md = await sheet('md');
  expect(md).toMatch(/\| Procedure \| .*, the shop’s own, check number/);
  // The other bearing has a size that came with the program.
  expect(md).toMatch(/\| n dm \| [^|]*rests on the shop’s own row\) \| (?![^|]*shop’s own row)/);
  expect(md).toContain('the shop’s own figure: weighed 2026-02-02');
  expect(md).toMatch(/bench-30 .*\(the shop’s own\)/);
  const html = await sheet('html');
  expect(html).toMatch(/>Procedure<\/th><td>[^<]*, the shop’s own, check number/);
  expect(html).toMatch(/\(rests on the shop’s own row\)/);
  const json = JSON.parse(await sheet('json'));
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

test('a new job says which procedure is the shop’s own', async () => {
  const term = program.open(['--procedures', shopFolder]);
  await term.waitFor('Start a job');
  term.write('2');
  await term.waitFor('Which procedure?');
  expect(term.screen().replace(/\s+/g, ' ')).toMatch(/regrease.* \(\d+\.\d+\.\d+, the shop’s own\)/i);
});
