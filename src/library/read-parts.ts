/** Parts of a folder: `parts/*.yaml` beside its procedures, read and checked each by itself. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Surroundings } from '../procedure/check.js';
import { loadPart } from '../procedure/check-part.js';
import type { PartFile, Parts } from '../procedure/parts.js';
import type { Code, Path, Problem } from '../procedure/problem.js';
import { readText } from './read-text.js';

/** A part file that lies somewhere else, such as a shipped one. */
export interface PartText {
  readonly file: string;
  readonly text: string;
}

export interface FolderParts {
  /** Those of the folder over those that lie under it, by id. */
  readonly parts: Parts;
  readonly own: readonly PartFile[];
  readonly texts: readonly PartText[];
  /** Files that could not be read, and what is wrong between several parts. */
  readonly problems: readonly Problem[];
}

/** Parts of these texts, each read when it is first asked for; of several with one id the first. */
export function readWhenNamed(texts: readonly PartText[], around: Surroundings): Parts {
  const byId = new Map<string, PartText>();
  const read = new Map<string, PartFile>();
  for (const t of texts) {
    let id = /^part:[ \t]*(["']?)([\w-]+)\1[ \t]*\r?$/m.exec(t.text)?.[2];
    if (id === undefined) {
      const part = loadPart(t.text, t.file, around);
      id = part.id;
      if (!byId.has(id)) read.set(id, part);
    }
    if (id !== '' && !byId.has(id)) byId.set(id, t);
  }
  const get = (id: string): PartFile | undefined => {
    const text = byId.get(id);
    if (!text) return undefined;
    const part = read.get(id) ?? loadPart(text.text, text.file, around);
    read.set(id, part);
    // What is no YAML has no id.
    return part.id === id ? part : undefined;
  };
  return { get, keys: () => [...byId.keys()].filter(get) };
}

/** `under`: parts that the folder's own lie over. */
export function readParts(folder: string, around: Surroundings, under: readonly PartText[] = []): FolderParts {
  const { texts, problems } = partTexts(folder);
  const own = texts.map((t) => loadPart(t.text, t.file, around));
  const beneath = readWhenNamed(under, around);
  const seen = new Map<string, PartFile>();
  const steps = new Map<string, PartFile>();
  for (const part of own) {
    const complain = (code: Code, path: Path, message: string, cure: string): void => {
      problems.push({ file: part.source.file, ...part.source.spot(path), code, message, cure });
    };
    if (part.id === '') continue;
    const same = seen.get(part.id);
    if (same)
      complain(
        'name-twice',
        ['part'],
        `The part “${part.id}” stands in ${same.source.file} too.`,
        'Give one another name.',
      );
    else seen.set(part.id, part);
    (part.part?.steps ?? []).forEach((s, i) => {
      const other = steps.get(s.id);
      // Practice rotors and readings name steps by their id alone.
      if (other && other !== part)
        complain(
          'name-twice',
          ['steps', i, 'id'],
          `The step “${s.id}” stands in the part “${other.id}” too.`,
          'Give one another name: no procedure could use both.',
        );
      steps.set(s.id, part);
    });
  }
  const parts: Parts = {
    get: (id) => seen.get(id) ?? beneath.get(id),
    keys: () => new Set([...beneath.keys(), ...seen.keys()]),
  };
  return { parts, own: [...seen.values(), ...own.filter((p) => p.id === '')], texts, problems };
}

/** Part files of a folder as they are, and those that can't be read. */
export function partTexts(folder: string): { texts: PartText[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const texts: PartText[] = [];
  for (const file of partFiles(folder)) {
    const read = readText(file);
    if ('problem' in read)
      problems.push({ file, line: 1, column: 1, code: 'file-unreadable', message: read.problem, cure: '' });
    else texts.push({ file, text: read.text });
  }
  return { texts, problems };
}

function partFiles(folder: string): string[] {
  try {
    return readdirSync(join(folder, 'parts'))
      .filter((f) => /\.ya?ml$/.test(f) && !f.startsWith('.'))
      .sort()
      .map((f) => join(folder, 'parts', f));
  } catch {
    return [];
  }
}
