/** Practice of all as a page to be printed: people by skills, and of each slips, time and who signed how fast. Pure. */
import { escapeHtml as esc } from '../text/safe-text.js';
import { countRows, type Person, signedWords, skillCell, skillName, slipWords } from './progress-table.js';

const style = `
html{font:15px/1.4 system-ui,sans-serif;color:#1a1a1a;background:#fff}
body{max-width:60rem;margin:1rem auto;padding:0 1rem}
h1{font-size:1.5rem}h2{font-size:1.1rem;margin:1.5rem 0 .3rem}
table{border-collapse:collapse;width:100%;font-size:.9rem}
th,td{text-align:left;vertical-align:top;padding:.3rem .6rem .3rem 0;border-bottom:1px solid #c8c8c8;overflow-wrap:anywhere}
thead th{border-bottom:1.5px solid #1a1a1a}
tr,li{break-inside:avoid}
ul{list-style:none;margin:0;padding:0}li{margin:.15rem 0}.more{margin-left:1.5rem}
@page{size:A4;margin:15mm}`;

const row = (head: string, cells: readonly string[]): string =>
  `<tr><th scope="row">${esc(head)}</th>${cells.map((c) => `<td>${esc(c)}</td>`).join('')}</tr>`;

/** A page by itself, to be printed. `body`: made harmless already. */
export const printed = (title: string, body: readonly string[]): string =>
  [
    '<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">',
    `<title>${esc(title)}</title><style>${style}</style></head><body>`,
    `<h1>${esc(title)}</h1>`,
    ...body,
    '</body></html>',
    '',
  ].join('\n');

/** @param day ISO day on which it is printed */
export function progressHtml(people: readonly Person[], day: string): string {
  const skills = [...new Set(people.flatMap((p) => p.skills.map((s) => s.skill)))].sort();
  const traps = people.flatMap((p) => p.traps.map((t) => ({ ...t, person: p.person })));
  return printed(`Practice on invented rotors, ${day}`, [
    '<p>Traps seen through of those met; * mastered: twice, in different clothes, days apart.</p>',
    `<table><thead><tr><th>Skill</th>${people.map((p) => `<th scope="col">${esc(p.person)}</th>`).join('')}</tr></thead><tbody>`,
    ...skills.map((s) =>
      row(
        skillName(s),
        people.map((p) => skillCell(p.skills.find((x) => x.skill === s))),
      ),
    ),
    row(
      'Again from',
      people.map((p) => p.skills.map((s) => `${skillName(s.skill)} ${s.due}`).join(', ') || '-'),
    ),
    ...countRows(people)
      .slice(1)
      .map(([name, cells]) => row(name, cells)),
    row('Slips', people.map(slipWords)),
    row('Signed by', people.map(signedWords)),
    '</tbody></table>',
    '<h2>Traps that were missed</h2>',
    ...(traps.some((t) => t.missed)
      ? [
          '<table><thead><tr><th>Trap</th><th>Who</th><th>Missed of met</th></tr></thead><tbody>',
          ...traps.filter((t) => t.missed).map((t) => row(t.title, [t.person, `${t.missed} of ${t.met}`])),
          '</tbody></table>',
        ]
      : ['<p>None.</p>']),
    ...(traps.some((t) => t.careless)
      ? [
          '<h2>Careless where no trap was set</h2>',
          '<table><thead><tr><th>It would be</th><th>Who</th><th>Times</th></tr></thead><tbody>',
          ...traps.filter((t) => t.careless).map((t) => row(t.title, [t.person, String(t.careless)])),
          '</tbody></table>',
        ]
      : []),
  ]);
}
