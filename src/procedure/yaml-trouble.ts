/** What the YAML reader stumbles over, in words that help somebody who writes procedures. */
import type { ErrorCode } from 'yaml';

interface Words {
  readonly message: string;
  readonly cure: string;
}

const words: Partial<Record<ErrorCode, Words>> = {
  BLOCK_AS_IMPLICIT_KEY: {
    message: 'There is a second “name: value” where one was begun already.',
    cure: 'Put text that holds a colon in double quotes, or set the line in as deep as its neighbours.',
  },
  MULTILINE_IMPLICIT_KEY: {
    message: 'A name and its colon do not stand on one line.',
    cure: 'Look at the indent of this line and at the quotes above it.',
  },
  BAD_INDENT: {
    message: 'The indent does not fit, or a bracket above was not closed.',
    cure: 'Set it in as deep as its neighbours, and close each [ and {.',
  },
  TAB_AS_INDENT: { message: 'A tab stands in the indent.', cure: 'Use spaces, two a level.' },
  MISSING_CHAR: {
    message: 'Something is missing here: a closing quote, a bracket or a colon.',
    cure: 'Close what was opened, and put a colon after each name.',
  },
  DUPLICATE_KEY: { message: 'The same name stands twice in one block.', cure: 'Keep one of them.' },
  UNEXPECTED_TOKEN: {
    message: 'There is something here that does not belong.',
    cure: 'Put text that begins with { [ - " or \' in double quotes, and look at the indent.',
  },
  BAD_SCALAR_START: { message: 'Text can’t begin with this character.', cure: 'Put the text in double quotes.' },
  BAD_DQ_ESCAPE: {
    message: 'A backslash in double quotes is followed by a character that it can’t stand before.',
    cure: 'Use single quotes, or write the backslash twice.',
  },
  MULTIPLE_DOCS: { message: 'The file holds more than one document.', cure: 'Take the line “---” out.' },
  BAD_ALIAS: { message: 'A reference (*name) can’t be read.', cure: 'Put text that begins with * in double quotes.' },
  TAG_RESOLVE_FAILED: {
    message: 'A value that begins with “!” is taken for a type mark.',
    cure: 'Put it in double quotes: "!ready".',
  },
  NON_STRING_KEY: { message: 'A name has to be a word.', cure: 'Write a word before the colon.' },
};

const otherwise: Words = {
  message: 'This is not YAML.',
  cure: 'Look at the indents, quotes and colons here.',
};

export const yamlTrouble = (code: ErrorCode): Words => words[code] ?? otherwise;

interface Slip {
  readonly code: ErrorCode;
  readonly pos: readonly [number, number];
}
const MOST_SLIPS = 5;

/** The errors worth telling: one slip makes several, and a tab or a repeated name disturbs all that follows. */
export function tellingSlips<T extends Slip>(errors: readonly T[], lineOf: (offset: number) => number): T[] {
  const tabs = errors.filter((e) => e.code === 'TAB_AS_INDENT');
  const seen = new Set<number>();
  return (tabs.length ? tabs : errors)
    .filter((e) => {
      const line = lineOf(e.pos[0]);
      return !seen.has(line) && seen.add(line);
    })
    .slice(0, MOST_SLIPS);
}

/** Lines around an error among which its cause is looked for. */
const NEAR = 2;

/**
 * The line near an error that is set in by a blank or three more or less than the lines before and after it, which are
 * alike: the cause of all that is told from there on. Line 1-based.
 */
export function unevenLine(text: string, line: number): (Words & { readonly line: number }) | undefined {
  const lines = text.split('\n');
  const indentOf = (n: number): number => /^ */.exec(lines[n] ?? '')?.[0].length ?? 0;
  const written = lines.flatMap((l, n) => (/^\s*(#|$)/.test(l) ? [] : [n]));
  for (const [i, n] of written.entries()) {
    const [before, after] = [written[i - 1], written[i + 1]];
    if (Math.abs(n + 1 - line) > NEAR || before === undefined || after === undefined) continue;
    const own = indentOf(n);
    const theirs = indentOf(before);
    if (indentOf(after) !== theirs || Math.abs(own - theirs) % 2 === 0 || Math.abs(own - theirs) > 3) continue;
    return {
      line: n + 1,
      message: `This line is set in by ${own}, its neighbours by ${theirs}.`,
      cure: `Set it in by ${theirs}.`,
    };
  }
  return undefined;
}

const MOST_CHARACTERS = 1_000_000;
const DEEPEST = 60;

/** Why a text is not even given to the YAML reader, which a bracket storm would exhaust. */
export function unreadable(text: string): (Words & { readonly at: number }) | undefined {
  if (text.length > MOST_CHARACTERS)
    return { at: 0, message: 'The file is too large.', cure: 'A procedure has at most a million characters.' };
  const odd = text.search(/[\0\uFFFD]/);
  if (odd >= 0) return { at: odd, message: 'The file is not text.', cure: 'Give a YAML file in UTF-8.' };
  const blank = /^[ \t]*(?=[\u00a0\u2007\u202f])/m.exec(text);
  if (blank)
    return {
      at: blank.index + blank[0].length,
      message: 'A no-break space stands in the indent.',
      cure: 'Type plain spaces in its place; it came with text that was copied.',
    };
  const deep = tooDeep(text);
  if (deep !== undefined)
    return { at: deep, message: 'The file is nested too deeply.', cure: 'No procedure needs so many levels.' };
  return undefined;
}

/** Offset at which brackets, list dashes or indents go deeper than any procedure. */
function tooDeep(text: string): number | undefined {
  let depth = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 91 || c === 123) {
      if (++depth > DEEPEST) return i;
    } else if ((c === 93 || c === 125) && depth > 0) depth -= 1;
  }
  const dashes = text.search(/^(?:[ \t]*[-?:](?=[ \t])){40}/m);
  if (dashes >= 0) return dashes;
  const indent = text.search(/^ {200}/m);
  return indent >= 0 ? indent : undefined;
}
