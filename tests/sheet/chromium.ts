/** Runs a headless Chromium on a page of ours, where one is installed. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const found = (program: string): string | undefined => {
  const { status, stdout } = spawnSync('sh', ['-c', `command -v ${program}`], { encoding: 'utf8' });
  return status === 0 ? stdout.trim() : undefined;
};
const browser = found('chromium') ?? found('chromium-browser');

/** Why the print checks can't run here; undefined when they can. */
export const lacking = !browser
  ? 'no chromium here (Debian: apt-get install chromium)'
  : !found('pdftocairo')
    ? 'no pdftocairo here (Debian: apt-get install poppler-utils)'
    : undefined;

const flags =
  '--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync';

function run(html: string, args: (folder: string) => string[]): { folder: string; out: string } {
  const folder = mkdtempSync(join(tmpdir(), 'sheet-'));
  writeFileSync(join(folder, 'page.html'), html);
  const out = execFileSync(
    browser ?? '',
    [
      ...flags.split(' '),
      `--user-data-dir=${join(folder, 'profile')}`,
      ...args(folder),
      `file://${join(folder, 'page.html')}`,
    ],
    { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'], timeout: 300_000, maxBuffer: 64_000_000 },
  );
  return { folder, out };
}

/** The page after its scripts have run. */
export function dump(html: string): string {
  const { folder, out } = run(html, () => ['--dump-dom']);
  rmSync(folder, { recursive: true, force: true });
  return out;
}

const print = (html: string, paper: 'A4' | 'letter'): string =>
  run(html.replace('</style>', `@page{size:${paper}}</style>`), (f) => [
    '--no-pdf-header-footer',
    `--print-to-pdf=${join(f, 'out.pdf')}`,
  ]).folder;
/** The words of each page; each ends with a form feed. */
const wordsIn = (folder: string): string[] =>
  execFileSync('pdftotext', ['-layout', join(folder, 'out.pdf'), '-'], { encoding: 'utf8' })
    .split('\f')
    .slice(0, -1);

/** Printed as a person prints it: the words of each page. */
export function printedWords(html: string, paper: 'A4' | 'letter'): string[] {
  const folder = print(html, paper);
  const words = wordsIn(folder);
  rmSync(folder, { recursive: true, force: true });
  return words;
}

/** Printed as a person prints it; each page of the PDF that has the word on it as SVG, in points. */
export function printed(html: string, paper: 'A4' | 'letter', word = ''): string[] {
  const folder = print(html, paper);
  const pages = wordsIn(folder).flatMap((words, i) => {
    if (!words.includes(word)) return [];
    const n = String(i + 1);
    const svg = join(folder, `${n}.svg`);
    execFileSync('pdftocairo', ['-svg', '-f', n, '-l', n, join(folder, 'out.pdf'), svg]);
    return [readFileSync(svg, 'utf8')];
  });
  rmSync(folder, { recursive: true, force: true });
  return pages;
}
