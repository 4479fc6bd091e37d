/** A captured screen as a picture for the README: text as SVG, so that it can be read, searched and held by a test. */
// @ts-nocheck


const [cell, line, edge] = [8.4, 19, 18];
const escaped = (text: string): string =>
  text.replace(/[&<>]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[c] ?? c);

/** Colours only help: what they mean is said in words as well. */
function colourOf(text: string): string {
  if (/▲/.test(text)) return '#ffb454';
  if (/✓/.test(text)) return '#8fd694';
  if (/^ ┃ {2}\S/.test(text)) return '#ffffff';
  if (/^ [─┃]/.test(text)) return '#7d8590';
  return '#d6dbe1';
}

export function frameSvg(frame: string, title: string): string {
  const rows = frame.replace(/\s+$/, '').split('\n');
  const width = Math.round(80 * cell + 2 * edge);
  const height = rows.length * line + 2 * edge;
  const texts = rows.flatMap((text, i) =>
    text.trim() === ''
      ? []
      : [
          `<text x="${edge}" y="${edge + (i + 0.75) * line}" fill="${colourOf(text)}" textLength="${(text.length * cell).toFixed(1)}" xml:space="preserve">${escaped(text)}</text>`,
        ],
  );
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-label="${escaped(title)}">`,
    `<title>${escaped(title)}</title>`,
    `<rect width="${width}" height="${height}" rx="8" fill="#11151a"/>`,
    '<g font-family="ui-monospace, Menlo, Consolas, DejaVu Sans Mono, monospace" font-size="14">',
    ...texts,
    '</g>',
    '</svg>',
  ].join('\n')}\n`;
}
