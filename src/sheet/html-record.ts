/** The parts of the page that tell what happened. */
import { escapeHtml as esc } from '../text/safe-text.js';
import { list, overruleBadge, raw, section, signatureBadge, table } from './html-parts.js';
import type { Sheet } from './sheet-data.js';
import {
  cautionsByStep,
  eventText,
  headings,
  placeName,
  type Show,
  standsWords,
  undoneText,
  waitText,
  whoWhen,
} from './words.js';

/** What people signed, overruled, corrected, met and noted. */
export function happened(sheet: Sheet, show: Show): string {
  const when = (x: { at: string; by: string }) => ({ text: whoWhen(x, show), of: 'when' });
  return [
    section(
      'signatures',
      headings.signatures,
      table(
        [
          ['What', 18],
          ['Place', 13],
          ['Signature', 24],
          ['Says', 30],
          ['When', 17],
        ],
        sheet.signatures.map((s) => [
          s.title,
          placeName(s.where),
          raw(`${signatureBadge(s).markup} ${esc(standsWords(s))}`),
          s.says,
          { text: show(s.at), of: 'when' },
        ]),
      ),
    ),
    section(
      'overruled',
      headings.overruled,
      table(
        [
          ['Step', 16],
          ['Place', 13],
          ['The check said', 24],
          ['Overruled', 26],
          ['Reason', 18],
          ['When', 17],
        ],
        sheet.overruled.map((o) => [
          o.title,
          placeName(o.where),
          o.says,
          overruleBadge(o),
          o.reason,
          { text: show(o.at), of: 'when' },
        ]),
      ),
    ),
    section(
      'corrections',
      headings.corrections,
      table(
        [
          ['What', 18],
          ['Place', 13],
          ['Was', 14],
          ['Is', 14],
          ['Reason', 18],
          ['By, when', 19],
        ],
        sheet.corrections.map((c) => [c.label, placeName(c.where), c.old, c.now, c.reason, when(c)]),
      ),
    ),
    section(
      'events',
      headings.events,
      table(
        [
          ['What', 18],
          ['Place', 13],
          ['By, when', 19],
        ],
        sheet.events.map((e) => [eventText(e), placeName(e.where), when(e)]),
      ),
    ),
    section(
      'notes',
      headings.notes,
      table(
        [
          ['Kind', 10],
          ['Place', 13],
          ['Text', 40],
          ['By, when', 19],
        ],
        sheet.notes.map((n) => [n.kind, placeName(n.where), n.text, when(n)]),
      ),
    ),
  ].join('');
}

/** The rest of the journal, for whoever wants to go through it. */
export function record(sheet: Sheet, show: Show): string {
  const when = (x: { at: string; by: string }) => ({ text: whoWhen(x, show), of: 'when' });
  const jumps = sheet.clockJumps.map(
    (j) => `The clock of the computer ran backwards: ${show(j.before)}, then ${show(j.after)}.`,
  );
  return [
    section(
      'cautions',
      headings.cautions,
      table(
        [
          ['Step', 16],
          ['Caution', 46],
          ['Acknowledged', 30],
        ],
        cautionsByStep(sheet.cautions).map((same) => [
          same[0]?.title ?? '',
          (same[0]?.cautions ?? []).join('\n'),
          { text: same.map((c) => `${c.where ? `${c.where}: ` : ''}${whoWhen(c, show)}`).join('\n'), of: 'when' },
        ]),
      ),
    ),
    section(
      'waits',
      headings.waits,
      table(
        [
          ['Step', 16],
          ['Place', 13],
          ['For', 16],
          ['From', 16],
          ['Until', 16],
          ['State', 20],
        ],
        sheet.waits.map((w) => [
          w.title,
          placeName(w.where),
          w.label,
          show(w.from),
          w.until ? show(w.until) : 'not known yet',
          waitText(w),
        ]),
      ),
    ),
    section(
      'predictions',
      headings.predictions,
      table(
        [
          ['Figure', 26],
          ['Place', 13],
          ['Predicted', 18],
          ['The guide', 20],
          ['By, when', 19],
        ],
        sheet.predictions.map((p) => [p.label, placeName(p.where), p.predicted, p.actual, when(p)]),
      ),
    ),
    section(
      'set-aside',
      headings.setAside,
      table(
        [
          ['What', 18],
          ['Place', 13],
          ['Reading', 18],
          ['Because', 20],
          ['By, when', 19],
        ],
        sheet.setAside.map((s) => [s.label, placeName(s.where), s.text, s.because, when(s)]),
      ),
    ),
    section(
      'taken-back',
      headings.takenBack,
      table(
        [
          ['Step', 15],
          ['Place', 11],
          ['What', 18],
          ['Value', 20],
          ['By, when', 18],
          ['Taken back', 18],
        ],
        sheet.takenBack.map((t) => [t.title, placeName(t.where), t.what, t.text, when(t), when(t.back)]),
      ),
    ),
    section(
      'record',
      headings.record,
      list([undoneText(sheet), ...jumps, `This record holds ${sheet.entries} entries.`]) +
        (sheet.notice ? `<p>${esc(sheet.notice)}</p>` : ''),
    ),
  ].join('');
}
