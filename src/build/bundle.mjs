// Bundles the program: cli.js and the quick commands as CommonJS, everything else as parts that are loaded on the way.
import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { build } from 'esbuild';
import { bundleOptions, commonJs, loadSchemasLate } from './options.mjs';

/**
 * Commands that scripts run over and over, one file each, kept compiled: what each exports, and whether optimised code
 * is to wait.
 */
const quick = { calc: { exported: 'calc', late: false }, replay: { exported: 'replayCommand', late: true } };
/** Commands that are small enough to lie in cli.js itself. */
const within = ['version'];
const hashOf = (text) => createHash('sha256').update(text).digest('hex').slice(0, 8).toUpperCase();

/** Modules of ours that a file loads on the way, by their path. */
async function loadedOnTheWay(entry, except = new Set()) {
  const found = new Set();
  await build({
    ...bundleOptions,
    ...commonJs,
    entryPoints: [entry],
    write: false,
    plugins: [
      ...bundleOptions.plugins,
      onTheWay((path) => {
        if (!except.has(path)) found.add(path);
        return { path: 'elsewhere', external: true };
      }),
    ],
  });
  return found;
}

/** Decides about each `import()` of a module of ours. */
const onTheWay = (decide) => ({
  name: 'on-the-way',
  setup(builder) {
    builder.onResolve({ filter: /^\./ }, ({ path, kind, resolveDir }) =>
      kind === 'dynamic-import' ? decide(sourceOf(resolve(resolveDir, path))) : undefined,
    );
  },
});
const sourceOf = (path) => {
  const stem = path.replace(/\.js$/, '');
  return existsSync(`${stem}.tsx`) ? `${stem}.tsx` : `${stem}.ts`;
};

/** The text of a package's licence, and its notice where it has one; what its package.json says where it has neither. */
function noticeOf(folder) {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const texts = readdirSync(folder)
    .filter((f) => /^(licen[cs]e|copying|notice)/i.test(f))
    .sort()
    .map((f) => readFileSync(join(folder, f), 'utf8').trim());
  return [`${name} ${version} (${license})`, ...(texts.length ? texts : [`Its package says: ${license}.`])].join(
    '\n\n',
  );
}

/** The licences of everything of others that lies in these bundles: each wants its notice to go along with the copies. */
function notices(metafiles) {
  const folders = new Set();
  for (const { inputs } of metafiles)
    for (const path of Object.keys(inputs)) {
      const [own] = /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path) ?? [];
      if (own) folders.add(own);
    }
  return `${[...folders]
    .sort()
    .map(noticeOf)
    .join(`\n\n${'-'.repeat(78)}\n\n`)}\n`;
}

/** Gives the names of all files written. */
export async function bundle(dist) {
  const cli = resolve('src/cli.ts');
  const quickSource = new Map(Object.keys(quick).map((name) => [resolve(`src/commands/${name}.ts`), name]));
  const own = new Set([...quickSource.keys(), ...within.map((name) => resolve(`src/commands/${name}.ts`))]);
  const made = new Set(['cli.js', 'package.json', 'NOTICES.txt']);

  const entries = await loadedOnTheWay(cli, own);
  for (const source of quickSource.keys()) for (const path of await loadedOnTheWay(source)) entries.add(path);
  const { metafile } = await build({
    ...bundleOptions,
    entryPoints: [...entries],
    outdir: dist,
    outExtension: { '.js': '.mjs' },
    entryNames: 'part-[name]-[hash]',
    chunkNames: 'part-[hash]',
    splitting: true,
    metafile: true,
  });
  const partOf = new Map();
  for (const [out, { entryPoint }] of Object.entries(metafile.outputs)) {
    made.add(basename(out));
    if (entryPoint) partOf.set(resolve(entryPoint), `./${basename(out)}`);
  }
  const toParts = (path) => ({ path: partOf.get(path), external: true });

  const quickFile = new Map();
  const metafiles = [metafile];
  for (const [source, name] of quickSource) {
    const { outputFiles, metafile: own } = await build({
      ...bundleOptions,
      ...commonJs,
      entryPoints: [source],
      write: false,
      metafile: true,
      plugins: [...bundleOptions.plugins, loadSchemasLate, onTheWay(toParts)],
    });
    metafiles.push(own);
    const text = outputFiles[0].text.replaceAll('import("./part-', '__part("./part-');
    // Named by its content: what was compiled from another text is never taken for this one.
    const file = `part-${name}-${hashOf(text)}.cjs`;
    writeFileSync(`${dist}/${file}`, text);
    quickFile.set(source, file);
    made.add(file).add(`${file}.bin`);
  }

  const stub = {
    name: 'quick-commands',
    setup(builder) {
      builder.onLoad({ filter: /\.ts$/ }, ({ path }) =>
        quickFile.has(path)
          ? {
              contents: [
                "import { loadCompiled } from '../build/load-compiled.mjs';",
                `export const { ${quick[quickSource.get(path)].exported} } = loadCompiled(__dirname, '${quickFile.get(path)}', ${quick[quickSource.get(path)].late});`,
              ].join('\n'),
              resolveDir: dirname(path),
              loader: 'ts',
            }
          : undefined,
      );
    },
  };
  // The folder is CommonJS, which starts sooner; the parts say by their ending that they are not.
  writeFileSync(`${dist}/package.json`, '{"type":"commonjs"}\n');
  const { metafile: started } = await build({
    ...bundleOptions,
    ...commonJs,
    entryPoints: [cli],
    metafile: true,
    outfile: `${dist}/cli.js`,
    plugins: [stub, ...bundleOptions.plugins, onTheWay((path) => (own.has(path) ? undefined : toParts(path)))],
  });
  writeFileSync(`${dist}/NOTICES.txt`, notices([...metafiles, started]));
  return {
    made,
    /** To be called once the compiled content is there, which the commands read. Meanwhile the lock of the folder is kept fresh. */
    async keepQuick() {
      const keep = fileURLToPath(new URL('keep-compiled.mjs', import.meta.url));
      for (const [source, file] of quickFile) {
        const name = quickSource.get(source);
        const late = quick[name].late ? ['late'] : [];
        await promisify(execFile)(process.execPath, [keep, resolve(dist, file), name, ...late]);
      }
    },
  };
}
