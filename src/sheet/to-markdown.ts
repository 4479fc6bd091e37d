/** The job sheet as Markdown (CommonMark with tables). Everything that somebody typed is escaped here. */
import { textDrawing } from '../drawing/text-drawing.js';
import { escapeMarkdown as esc } from '../text/safe-text.js';
import { type Cell, cellText, parts, type SheetBlock, type SheetRow, type TableBlock } from './section.js';
import { told } from './sections.js';
import type { Sheet } from './sheet-data.js';
import type { SheetOptions } from './when.js';

const PICTURE = { width: 72, height: 20, ascii: false };

const cell = (c: Cell): string => esc(cellText(c)) || ' ';

function rowText(row: SheetRow, columns: number): string {
  const cells = row.group ? [row.cells[0] ?? '', ...Array<Cell>(columns - 1).fill('')] : row.cells;
  const text = cells.map((c, i) => {
    if (i === 0 && row.again) return ' ';
    if (i === 0 && row.group) return `**${cell(c)}**`;
    return i === 0 && row.depth ? `${'– '.repeat(row.depth)}${cell(c)}` : cell(c);
  });
  return `| ${text.join(' | ')} |`;
}

function tableText(t: TableBlock): string[] {
  return [
    ...(t.caption ? [`### ${esc(t.caption)}`, ''] : []),
    `| ${t.columns.map(([h]) => esc(h)).join(' | ')} |`,
    `| ${t.columns.map(() => '---').join(' | ')} |`,
    ...t.rows.map((r) => rowText(r, t.columns.length)),
    '',
  ];
}

/** A cell of a list, its strong parts strong. */
const item = (c: Cell): string =>
  parts(c)
    .map((p) => (p.as === 'strong' || p.as === 'value' ? `**${esc(p.text)}**` : esc(p.text)))
    .filter((t) => t !== '' && t !== '****')
    .join(' ');

function block(b: SheetBlock): string[] {
  switch (b.is) {
    case 'table':
      return tableText(b);
    case 'heading':
      return [`### ${esc(b.text)}`, ''];
    case 'list':
      return [...b.items.map((i) => `- ${item(i)}`), ''];
    case 'worked':
      return [...b.lines.map((l) => `- ${esc(l)}`), ''];
    case 'words':
      return [`${b.as === 'formula' ? 'Formula: ' : b.as === 'warning' ? 'Mind: ' : ''}${item(b.text)}`, ''];
    case 'drawing': {
      const lines = textDrawing(b.picture, b.values, PICTURE);
      return lines.length ? [`### ${esc(b.title)}`, '', ...lines.map((l) => `    ${l}`), ''] : [];
    }
    case 'strip':
      return [
        esc(b.strip.say),
        '',
        ...tableText({
          is: 'table',
          columns: [
            ['Mark', 50],
            ['From the start line, doses added up', 50],
          ],
          rows: b.strip.marks.map((m) => ({ cells: [m.name, `${m.mm.toFixed(1)} mm`] })),
        }),
      ];
    case 'photos':
      return [...b.photos.map((p) => `- ${esc(`${p.says}, file ${p.file}`)}`), ''];
    case 'tag':
      return [...b.tag.lines.map((l) => `- **${esc(`${l.label}:`)}** ${esc(l.text)}`), ''];
    case 'ink':
      return [...b.lines.map((l) => `- ${esc(l)}: \\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_`), ''];
  }
}

export function toMarkdown(sheet: Sheet, options: SheetOptions = {}): string {
  const all = told(sheet, options);
  const lines = [
    ...(all.practice ? [`# ${all.practice.big}`, '', `**${esc(all.practice.small)}**`, ''] : []),
    `# ${esc(all.title)}`,
    '',
    `**${esc(all.verdict)}**`,
    '',
    ...all.sections.flatMap((s) => [`## ${esc(s.title)}`, '', ...s.blocks.flatMap(block), '']),
  ];
  return `${lines
    .join('\n')
    .replace(/\n{3,}/g, '\n\n')
    .trim()}\n`;
}
