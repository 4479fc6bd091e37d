/**
 * Splits what a terminal sends into single keys. Pure: bytes in, keys out; it knows no clock.
 *
 * Dropped without a trace: mouse and focus reports, answers of the terminal, function keys, every unknown control
 * sequence and control string, keys with Ctrl (but for Ctrl-C) or Alt, bytes that are not UTF-8, characters that do
 * not print.
 *
 * In a bracketed paste only printable characters count, marked as pasted. Line ends and tabs between them become one
 * space and never confirm anything. A paste is handed on at its end; one that is nothing but the path of a picture is a
 * picture that was dropped on the window, and one key.
 *
 * ESC directly followed by another key cannot be told from Alt with that key: neither acts. ESC ESC is Esc twice. Alt
 * with a key that begins a control string is told from one by what follows: a terminal sends a string in one go.
 * When a sequence breaks off in the middle, the byte that broke it goes with it, so that debris never confirms
 * anything. Ctrl-C passes from everywhere but out of a paste.
 */
import type { Key, KeyName } from './key.js';
import { controlSequences, numberPad, pasteBegins, pasteEnds, singleShiftKeys } from './terminal-codes.js';

/**
 * What the splitter is in the middle of: 'escape' after a lone ESC, 'string' where a control string was begun and nothing
 * of it has come, 'sequence' inside a control sequence, string or character, 'paste' anywhere between paste markers, else
 * 'nothing'.
 */
export type Pending = 'nothing' | 'escape' | 'string' | 'sequence' | 'paste';

type State = 'ground' | 'escape' | 'control' | 'console-function' | 'single-shift' | 'string' | 'mouse';

const ESC = 0x1b;
const CTRL_C = 0x03;
const CR = 0x0d;
const LF = 0x0a;
const TAB = 0x09;
/** Longest parameters that any key of ours has, and some more. */
const parameterLimit = 8;

/** Letters, marks, numbers, punctuation, symbols, spaces, joiners: no controls, no private use, no direction marks. */
const printable = /^[\p{L}\p{M}\p{N}\p{P}\p{S}\p{Zs}\u200c\u200d]$/u;

const named = (name: KeyName): Key => ({ name, char: '' });
const pasted = (char: string): Key => ({ name: 'char', char, pasted: true });
/** A longer paste is no path; it is handed on as it comes. */
const longestPath = 4000;
/** What terminals type for a file that was dropped: a whole path, perhaps quoted or with blanks escaped. */
const pathOfPicture = /^\s*['"]?(?:file:\/\/|~?\/|[a-z]:[\\/]|\\\\)[^\0]*\.(?:jpe?g|png|webp|hei[cf]|avif)['"]?\s*$/i;

export class Splitter {
  #state: State = 'ground';
  #parameters = '';
  #mouseBytesLeft = 0;
  #stringBytes = 0;
  #pasting = false;
  #paste = '';
  #pasteHasText = false;
  #spaceWaits = false;
  #afterReturn = false;
  #altCharacter = false;
  #codePoint = 0;
  #bytesLeft = 0;
  #smallest = 0;
  #keys: Key[] = [];

  /** Takes the next bytes, cut anywhere, and returns the keys that are complete with them. */
  push(bytes: Uint8Array): Key[] {
    for (const byte of bytes) this.#take(byte);
    return this.#takeKeys();
  }

  /** What would be lost or decided if nothing more came. */
  get pending(): Pending {
    if (this.#pasting) return 'paste';
    if (this.#state === 'escape') return 'escape';
    if (this.#state === 'string' && this.#stringBytes === 0) return 'string';
    return this.#state !== 'ground' || this.#bytesLeft > 0 ? 'sequence' : 'nothing';
  }

  /** Bytes so far of the control string that it is in the middle of; undefined outside one. */
  get stringBytes(): number | undefined {
    return this.#state === 'string' ? this.#stringBytes : undefined;
  }

  /**
   * Says that nothing more came for a while: a lone ESC was the Esc key, anything else unfinished is dropped, and a
   * paste whose end was lost is over.
   */
  rest(): Key[] {
    if (this.pending === 'escape') this.#emit(named('esc'));
    this.#state = 'ground';
    this.#bytesLeft = 0;
    this.#altCharacter = false;
    this.#endPaste();
    return this.#takeKeys();
  }

  #takeKeys(): Key[] {
    const keys = this.#keys;
    this.#keys = [];
    return keys;
  }

  #emit(key: Key): void {
    if (!this.#pasting) this.#keys.push(key);
  }

  #text(text: string): void {
    if (!printable.test(text)) return;
    if (this.#pasting) {
      if (this.#spaceWaits && this.#pasteHasText) this.#paste += ' ';
      this.#spaceWaits = false;
      this.#pasteHasText = true;
      this.#paste += text;
      if (this.#paste.length > longestPath) this.#handOnPaste();
    } else this.#keys.push({ name: 'char', char: text });
  }

  #handOnPaste(): void {
    for (const char of this.#paste) this.#keys.push(pasted(char));
    this.#paste = '';
  }

  #endPaste(): void {
    const path = this.#paste;
    if (pathOfPicture.test(path)) {
      this.#keys.push({ name: 'dropped', char: '', pasted: true, path });
      this.#paste = '';
    } else this.#handOnPaste();
    this.#pasting = false;
  }

  #take(byte: number): void {
    const afterReturn = this.#afterReturn;
    this.#afterReturn = false;
    if (this.#state !== 'mouse' && this.#always(byte)) return;
    switch (this.#state) {
      case 'ground':
        // CR LF is one Enter.
        if (!(byte === LF && afterReturn)) this.#ground(byte);
        break;
      case 'escape':
        this.#escape(byte);
        break;
      case 'control':
        this.#control(byte);
        break;
      case 'console-function':
        this.#state = 'ground';
        break;
      case 'single-shift':
        this.#singleShift(byte);
        break;
      case 'mouse':
        if (--this.#mouseBytesLeft === 0) this.#state = 'ground';
        break;
      case 'string':
        // ST ends it as ESC and a backslash, by way of the state 'escape'.
        this.#stringBytes++;
        if (byte === 0x07 || byte === 0x18 || byte === 0x1a) this.#state = 'ground';
        break;
    }
  }

  /** ESC and Ctrl-C mean the same wherever they come. */
  #always(byte: number): boolean {
    if (byte === ESC) {
      if (this.#state === 'escape') this.#emit(named('esc'));
      this.#state = 'escape';
      this.#bytesLeft = 0;
      this.#altCharacter = false;
      return true;
    }
    if (byte === CTRL_C && !this.#pasting) {
      this.#emit(named('interrupt'));
      this.#state = 'ground';
      this.#bytesLeft = 0;
      this.#altCharacter = false;
      return true;
    }
    return false;
  }

  #ground(byte: number): void {
    if (byte >= 0x80) {
      this.#utf8(byte);
      return;
    }
    this.#bytesLeft = 0;
    this.#altCharacter = false;
    if (byte >= 0x20 && byte < 0x7f) this.#text(String.fromCharCode(byte));
    else if (byte === CR || byte === LF || byte === TAB) {
      this.#afterReturn = byte === CR;
      this.#spaceWaits = this.#pasting;
      this.#emit(named(byte === TAB ? 'tab' : 'enter'));
    } else if (byte === 0x7f || byte === 0x08) this.#emit(named('backspace'));
  }

  #escape(byte: number): void {
    this.#state = 'ground';
    this.#parameters = '';
    if (byte === 0x5b) this.#state = 'control';
    else if (byte === 0x4f) this.#state = 'single-shift';
    // DCS, SOS, OSC, PM, APC: a string up to BEL or ST.
    else if (byte === 0x50 || byte === 0x58 || (byte >= 0x5d && byte <= 0x5f)) {
      this.#state = 'string';
      this.#stringBytes = 0;
    } else if (byte >= 0x80) {
      this.#altCharacter = true;
      this.#utf8(byte);
    }
  }

  #control(byte: number): void {
    const first = this.#parameters === '';
    if (byte >= 0x20 && byte <= 0x3f) {
      // One more than any known sequence has, so that a long one matches none.
      if (this.#parameters.length <= parameterLimit) this.#parameters += String.fromCharCode(byte);
      return;
    }
    this.#state = 'ground';
    if (byte < 0x40 || byte > 0x7e) return;
    // The Linux console writes F1 to F5 as ESC [ [ A to E.
    if (byte === 0x5b && first) {
      this.#state = 'console-function';
      return;
    }
    const sequence = this.#parameters + String.fromCharCode(byte);
    if (sequence === pasteBegins && !this.#pasting) {
      this.#pasting = true;
      this.#pasteHasText = false;
      this.#spaceWaits = false;
    } else if (sequence === pasteEnds) this.#endPaste();
    else if (sequence === 'M' && !this.#pasting) {
      // An old mouse report: three bytes of any value follow.
      this.#state = 'mouse';
      this.#mouseBytesLeft = 3;
    } else if (Object.hasOwn(controlSequences, sequence)) this.#emit(named(controlSequences[sequence]!));
  }

  #singleShift(byte: number): void {
    this.#state = 'ground';
    const final = String.fromCharCode(byte);
    if (Object.hasOwn(singleShiftKeys, final)) this.#emit(named(singleShiftKeys[final]!));
    else if (Object.hasOwn(numberPad, final)) this.#emit({ name: 'char', char: numberPad[final]! });
  }

  #utf8(byte: number): void {
    if (this.#bytesLeft > 0 && byte < 0xc0) {
      this.#codePoint = this.#codePoint * 64 + (byte & 0x3f);
      if (--this.#bytesLeft > 0) return;
      const alt = this.#altCharacter;
      this.#altCharacter = false;
      const surrogate = this.#codePoint >= 0xd800 && this.#codePoint <= 0xdfff;
      if (this.#codePoint < this.#smallest || this.#codePoint > 0x10ffff || surrogate || alt) return;
      this.#text(String.fromCodePoint(this.#codePoint));
      return;
    }
    if (this.#bytesLeft > 0) this.#altCharacter = false;
    this.#bytesLeft =
      byte >= 0xc2 && byte < 0xe0 ? 1 : byte >= 0xe0 && byte < 0xf0 ? 2 : byte >= 0xf0 && byte < 0xf5 ? 3 : 0;
    if (this.#bytesLeft === 0) this.#altCharacter = false;
    this.#codePoint = byte & (0x3f >> this.#bytesLeft);
    this.#smallest = [0, 0x80, 0x800, 0x10000][this.#bytesLeft]!;
  }
}
