/** The sources as pages of the guide: first how many stand on what, then a page for each kind of evidence. */
import { type SourcesOf, summaryLines, tagLines } from '../review/sources.js';
import type { SheetPage } from '../screens/app-contract.js';
import type { Line } from '../screens/look/line.js';
import { wrapText } from '../screens/look/wrap.js';

/** A line wrapped under itself, its indent kept. */
function wrapped(text: string, width: number): readonly Line[] {
  const indent = /^ */.exec(text)?.[0] ?? '';
  const lines = wrapText(text.trim(), Math.max(10, width - indent.length));
  return lines.length === 0 ? [[]] : lines.map((line) => [{ text: indent }, ...line]);
}

export function sourcesTold(found: readonly SourcesOf[]): readonly SheetPage[] {
  const page = (title: string, texts: readonly string[]): SheetPage => ({
    title,
    lines: (width) => texts.flatMap((text) => wrapped(text, width)),
  });
  const titles: Record<SourcesOf['tag'], string> = {
    P: 'published',
    M: 'usual, verify',
    CP: 'common practice, no source',
    A: 'arithmetic',
    shop: 'the shop’s own',
  };
  return [
    page('at a glance', summaryLines(found)),
    ...found.filter((s) => s.count > 0).map((s) => page(titles[s.tag], [s.means, '', ...tagLines(s)])),
  ];
}
