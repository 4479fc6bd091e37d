/**
 * What a source must name before its row may be called published: a document, its edition, and the place in it, so that
 * an auditor can open it. A numbered standard or manual without a year means its latest edition.
 */
import type { Source } from './types.js';

/** A year, an edition, an issue, the number of a standard or manual, a report, a library's version. */
const edition =
  /\b(?:19|20)\d\d\b|\b\d+(?:st|nd|rd|th) ed\.|\bed\. \d|\bissue \S*\d|\bno\. \d|\bvol\. \d|\b\d\d\/\d\d\b|\b\d+ FR \d|\bonline edition\b|\breport [A-Z]|\b(?:ISO|IEC|ASTM|EN|DIN|ANSI) [A-Z]?\d|\b(?:MIL-[A-Z]+-|TM |FIST )\d|\b\d+\.\d+\.\d+\b/;
const place =
  /\bpp?\. ?[A-Z]?\d|\b[Tt]able (?:\d|[A-Z]\b|of )|\b[Ff]ig(?:\.|ure) ?\d|\b(?:section|clause|chapter|annex|paragraph) \S|\bNote \d|\bentry \S|\barticle [A-Z]|\bequation\b|\bdefinition of \S|\babstract\b|\b\d+ FR \d/;
/** "Bearing catalogue", "data sheets": nobody can open them. */
const nobody = /\b(?:from memory|not noted|no source|data sheets?|[Pp]ublished (?:charts|material|trade))\b/;

/** What is missing in the words of a source that is tagged as published; empty when nothing is. */
export function lacksOfSource(source: Source): readonly string[] {
  if (source.tag !== 'P') return [];
  return [
    ...(nobody.test(source.text) ? ['a document that can be opened'] : []),
    ...(edition.test(source.text) ? [] : ['its edition, year or number']),
    ...(place.test(source.text) ? [] : ['the page, table, section or entry']),
  ];
}
