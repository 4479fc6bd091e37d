/** The house: which folder may know which, and that files stay small enough to read at one sitting. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bareCode } from './setup/bare-code.js';

const may: Record<string, readonly string[]> = {
  guards: [],
  text: [],
  files: [],
  units: [],
  calc: ['units'],
  procedure: ['calc', 'units', 'text'],
  engine: ['procedure', 'calc', 'units', 'text'],
  simulator: ['calc', 'units'],
  life: ['engine', 'procedure', 'calc', 'units', 'text'],
  training: ['simulator', 'engine', 'procedure', 'calc', 'units', 'text'],
  drawing: ['procedure', 'calc', 'units', 'text'],
  review: ['engine', 'procedure', 'calc', 'units', 'text'],
  sheet: ['drawing', 'life', 'engine', 'procedure', 'calc', 'units', 'text', 'training'],
  library: ['training', 'procedure', 'calc', 'units', 'text', 'files'],
  // The store knows what an entry is and nothing else of the engine.
  store: ['engine', 'procedure', 'text', 'files'],
  keys: [],
  screens: ['life', 'engine', 'procedure', 'calc', 'units', 'text', 'keys'],
  commands: [
    'store',
    'screens',
    'keys',
    'sheet',
    'life',
    'drawing',
    'review',
    'library',
    'training',
    'engine',
    'procedure',
    'calc',
    'units',
    'text',
    'files',
  ],
  build: ['library', 'procedure', 'calc'],
};
/** The floors of the engine, the ground first: each may know its own and those below it. */
const floors = ['journal', 'values', 'steps', 'state', 'actions', 'replay'];
const pure = [
  'guards',
  'units',
  'calc',
  'simulator',
  'procedure',
  'engine',
  'life',
  'training',
  'drawing',
  'sheet',
  'review',
  'text',
];

function files(dir: string): string[] {
  return readdirSync(dir, { withFileTypes: true }).flatMap((e) => {
    const path = join(dir, e.name);
    return e.isDirectory() ? files(path) : /\.tsx?$/.test(e.name) && !e.name.endsWith('.d.ts') ? [path] : [];
  });
}

const sources = files('src').map((path) => {
  const text = readFileSync(path, 'utf8');
  const found = [...text.matchAll(/(?:from|import\()\s*'([^']+)'/g)].map((m) => m[1] ?? '');
  const inner = found.filter((f) => f.startsWith('.')).map((f) => relative('src', resolve(dirname(path), f)));
  return { path, text, room: relative('src', path).split('/')[0] ?? '', lines: text.split('\n').length, found, inner };
});

describe('the house', () => {
  it('has arrows that run one way between its rooms', () => {
    const wrong = sources.flatMap((s) =>
      s.inner.flatMap((to) => {
        const room = to.split('/')[0] ?? '';
        if (s.room === 'cli.ts' || room === s.room || room === 'guards') return [];
        return may[s.room]?.includes(room) ? [] : [`${s.path} -> ${to}`];
      }),
    );
    expect(wrong).toEqual([]);
  });

  it('stacks the engine: no floor knows one above it', () => {
    const floor = (path: string): number => floors.indexOf(/^engine\/([^/]+)\//.exec(path)?.[1] ?? '');
    const wrong = sources.flatMap((s) => {
      if (s.room !== 'engine') return [];
      const own = floor(relative('src', s.path));
      if (own < 0) return [`${s.path} stands on no floor`];
      return s.inner.filter((to) => to.startsWith('engine/') && floor(to) > own).map((to) => `${s.path} -> ${to}`);
    });
    expect(wrong).toEqual([]);
  });

  it('has no circle of files', () => {
    const all = files('src');
    const known = new Set(all.map((p) => relative('src', p).replace(/\.tsx?$/, '')));
    const leads = new Map(
      sources.map((s) => [
        relative('src', s.path).replace(/\.tsx?$/, ''),
        s.inner.map((to) => to.replace(/\.js$/, '')).filter((to) => known.has(to)),
      ]),
    );
    const done = new Set<string>();
    const circles: string[] = [];
    const walk = (file: string, way: readonly string[]): void => {
      if (way.includes(file)) circles.push([...way.slice(way.indexOf(file)), file].join(' -> '));
      if (done.has(file) || way.includes(file)) return;
      for (const to of leads.get(file) ?? []) walk(to, [...way, file]);
      done.add(file);
    };
    for (const file of known) walk(file, []);
    expect(circles).toEqual([]);
  });

  it('keeps input and output out of the pure rooms', () => {
    const wrong = sources
      .filter((s) => pure.includes(s.room) && s.path !== 'src/calc/command.ts')
      .flatMap((s) => s.found.filter((f) => f.startsWith('node:')).map((f) => `${s.path} imports ${f}`));
    expect(wrong).toEqual([]);
  });

  it('has no name that two files export: each means one thing', () => {
    const by = new Map<string, string[]>();
    for (const { path, text } of sources)
      for (const [, name = ''] of text.matchAll(
        /^export (?:declare )?(?:async )?(?:abstract )?(?:const|let|function\*?|class|interface|type|enum) (\w+)/gm,
      ))
        by.set(name, [...(by.get(name) ?? []), path]);
    expect([...by].filter(([, paths]) => paths.length > 1)).toEqual([]);
  });

  it('tells the compiler what things are by guards, not by casts', () => {
    const casts = sources.flatMap(({ path, text }) =>
      bareCode(text)
        .split('\n')
        .filter((line) => !/^(import|export) .*\bfrom\b|^ {2}(type )?\w+ as \w+,$/.test(line))
        .flatMap((line) => [...line.matchAll(/[\w)\]}>'!] as (?!const\b)/g)].map(() => `${path}: ${line.trim()}`)),
    );
    // A ratchet: those that are left are mostly of libraries and of our own files; fewer is better.
    expect(casts.length, casts.join('\n')).toBeLessThanOrEqual(59);
  });

  it('asks the state which entries count: nobody above it looks up by himself what was taken back', () => {
    const own = ['src/engine/journal/', 'src/engine/state/state.ts'];
    const wrong = sources.filter(({ path }) => !own.some((o) => path.startsWith(o)));
    expect(wrong.filter(({ text }) => /\bundone\.has\(|ledger\.undone\b/.test(text)).map((s) => s.path)).toEqual([]);
  });

  it('has no file too long to read at one sitting', () => {
    expect(sources.filter((s) => s.lines > 350).map((s) => `${s.path}: ${s.lines}`)).toEqual([]);
  });
});

/**
 * What a check against the outside world may know of the code: the calculators as a script meets them, and the units that
 * people type. No formula: what is expected is written out by hand, with its source.
 */
const known = [
  'src/calc/index',
  'src/calc/command',
  'src/calc/types',
  // Words of a source, not a number.
  'src/calc/published',
  'src/units/kinds',
  'src/units/parse',
  'src/units/presets',
  'src/units/show',
  'tests/calc/support',
  'tests/setup/size',
];

describe('checks against the outside world', () => {
  it('take no formula from the code', () => {
    const from = (file: string): string[] =>
      [...readFileSync(file, 'utf8').matchAll(/(?:from|import) ?\(?'(\.[^']+)'/g)].map(([, to = '']) =>
        relative('.', resolve(dirname(file), to)).replace(/\.[jt]s$/, ''),
      );
    const outside = files('tests/outside');
    expect(outside.length).toBeGreaterThan(10);
    const more = [...outside, 'tests/calc/support.ts'].flatMap((file) =>
      from(file)
        .filter((to) => !known.includes(to) && !to.startsWith('tests/outside/'))
        .map((to) => `${file} knows ${to}`),
    );
    expect(more).toEqual([]);
  });
});
