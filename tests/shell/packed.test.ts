/** What is handed on as a package: the program and its content, none of the tests. */
import { execFileSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { root } from '../pty/program.js';

it('holds no tests and no sources', () => {
  const said = execFileSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
    cwd: root,
    encoding: 'utf8',
  });
  const [packed] = JSON.parse(said) as [{ files: { path: string }[] }];
  const paths = packed.files.map((f) => f.path);
  expect(paths).toContain('dist/cli.js');
  expect(paths.filter((p) => /^(tests|src|node_modules|\.)/.test(p))).toEqual([]);
});
