/** What a procedure or a job from anywhere says moves no cursor, hides nothing and turns no text round. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newFolder, root, run, storedJob } from './shell.js';

const marks = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u200b-\u200f\u202a-\u202e\u2066-\u2069]/;
const evil = '\u009b31m\u009d0;t\u0007\u202eabc\u2066';

describe('diff', () => {
  it('shows no escape sequence of a procedure', async () => {
    const look = join(root, 'procedures/inspect-after-run.yaml');
    const file = join(newFolder(), 'evil.yaml');
    writeFileSync(
      file,
      readFileSync(look, 'utf8').replace(/^title: .*$/m, 'title: "\\e[31mR\\e]0;t\\aX\\u009bY\\u202eZ"'),
    );
    const { code, out } = await run('diff', file, look);
    expect(code).toBe(1);
    expect(out).toContain('X');
    expect(out).not.toMatch(marks);
  });
});

describe('JSON', () => {
  it.each([
    ['sheet', ['sheet', '--json']],
    ['sheet by its format', ['sheet', '--format', 'json']],
    ['debrief', ['debrief', '--json']],
  ])('%s: the data is the same, nothing of it reaches the terminal raw', async (what, words) => {
    const data = newFolder();
    const said = `loose ${evil}`;
    await storedJob(data, (e) => {
      if (e.kind === 'job' && what === 'debrief') return { ...e, practice: 'college-30kw', name: said };
      return e.kind === 'job' ? { ...e, name: said } : e;
    });
    const { out, err } = await run(...words, '--data', data);
    expect(err).toBe('');
    expect(out).not.toMatch(marks);
    if (what !== 'debrief') expect(JSON.stringify(JSON.parse(out))).toContain(JSON.stringify(said).slice(1, -1));
  });
});

describe('files', () => {
  it('a dash is the standard output, and no file of that name', async () => {
    const data = newFolder();
    await storedJob(data);
    const { code, out } = await run('sheet', '--out', '-', '--data', data);
    expect(code).toBe(0);
    expect(out).toMatch(/^# /);
  });
  it('an import that is not there is named', async () => {
    const { code, err } = await run('import', 'nowhere.json', '--data', newFolder());
    expect({ code, err }).toEqual({
      code: 1,
      err: 'There is no file nowhere.json; name the file that the export command wrote.\n',
    });
  });
  it('an export with a byte order mark, as some editors save it, is taken', async () => {
    const from = newFolder();
    const id = await storedJob(from);
    const file = join(newFolder(), 'job.json');
    await run('export', id, file, '--data', from);
    writeFileSync(file, `\ufeff${readFileSync(file, 'utf8')}`);
    expect((await run('import', file, '--data', newFolder())).code).toBe(0);
  });
});

describe('which job is meant where none is named', () => {
  it('sheet: the real one, although practice was worked on since', async () => {
    const data = newFolder();
    await storedJob(data, (e) => (e.kind === 'job' ? { ...e, name: 'Real rotor', practice: undefined } : e));
    await storedJob(data, (e) => (e.kind === 'job' ? { ...e, name: 'Quiet one' } : e));
    expect((await run('sheet', '--data', data)).out).toContain('Real rotor');
  });
});

describe('the licences of what is bundled', () => {
  it('lie beside the bundle, each with its notice', () => {
    const text = readFileSync(join(root, 'dist/NOTICES.txt'), 'utf8');
    for (const name of ['ink', 'react', 'conf', 'yaml', 'zod', 'proper-lockfile', '@marcbachmann/cel-js'])
      expect(text).toMatch(new RegExp(`^${name} \\d`, 'm'));
    expect(text.match(/Copyright|\(c\)/gi)?.length).toBeGreaterThan(50);
  });
});
