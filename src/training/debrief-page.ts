/** A debrief, of one or of a class, as a page: Markdown or HTML. Pure. */
import { escapeHtml, escapeMarkdown } from '../text/safe-text.js';
import type { DebriefLine } from './debrief-lines.js';
import { printed } from './progress-html.js';

const signs = { good: '+ ', bad: '! ', plain: '', more: '', head: '' } as const;

export function debriefMarkdown(title: string, lines: readonly DebriefLine[]): string {
  const md = lines.map(({ text, as }) => {
    const words = escapeMarkdown(text);
    if (as === 'head') return `\n## ${words}\n`;
    if (as === 'more') return `  - ${words}`;
    return `- ${as === 'plain' ? words : `**${signs[as]}${words}**`}`;
  });
  return [`# ${escapeMarkdown(title)}`, '', ...md, ''].join('\n');
}

export function debriefHtml(title: string, lines: readonly DebriefLine[]): string {
  const body: string[] = [];
  let open = false;
  const close = (): void => {
    if (open) body.push('</ul>');
    open = false;
  };
  for (const { text, as } of lines) {
    if (as === 'head') {
      close();
      body.push(`<h2>${escapeHtml(text)}</h2>`);
      continue;
    }
    if (!open) body.push('<ul>');
    open = true;
    const words = escapeHtml(`${signs[as]}${text}`);
    body.push(
      `<li${as === 'more' ? ' class="more"' : ''}>${as === 'good' || as === 'bad' ? `<strong>${words}</strong>` : words}</li>`,
    );
  }
  close();
  return printed(title, body);
}
