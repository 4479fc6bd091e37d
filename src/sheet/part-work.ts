/** The pages after the first: what was decided and signed, met and noted, and the figures of the work. */
import { groupSections } from './figure-tables.js';
import { lifeBlocks } from './life-section.js';
import { type Cell, drawingOf, type Section, type SheetBlock, type SheetPart, section, tableBlock } from './section.js';
import type { DecisionMade, Overrule, Sheet, Signature } from './sheet-data.js';
import { isToDo } from './verdict.js';
import {
  answerText,
  atPlace,
  eventText,
  handsWords,
  headings,
  overruleNow,
  placeName,
  roleWords,
  type Show,
  standsWords,
  statusWords,
  stopEnd,
  whoWhen,
} from './words.js';

const when = (x: { at: string; by: string }, show: Show): SheetPart => ({ text: whoWhen(x, show), as: 'when' });

/** The two kinds of signature differ in shape, in colour and in words. */
function signed(s: Signature): SheetPart[] {
  const badge: SheetPart = {
    text: roleWords(s),
    as: s.role === 'witnessed' ? 'witnessed' : 'self',
    ...(s.stands ? {} : { void: true }),
  };
  const stands = standsWords(s);
  const hands = handsWords(s);
  return [badge, ...(stands ? [{ text: stands }] : []), ...(hands ? [{ text: hands, as: 'when' as const }] : [])];
}
const overruled = (o: Overrule): SheetPart[] => [
  { text: `OVERRULED by ${o.initials}`, as: 'overruled', ...(o.now === 'in force' ? {} : { void: true }) },
  { text: overruleNow(o) },
];

function decided(d: DecisionMade, show: Show): Cell {
  // What the procedure's own line says already is not said again.
  const rest = d.answers.filter((a) => !d.mark?.toLowerCase().includes(a.text.toLowerCase()));
  const answers = rest.flatMap((a): SheetPart[] => [
    { text: `${a.label}:` },
    { text: answerText(a), as: 'value', figure: { key: a.key, place: d.place } },
  ]);
  const last = d.answers.at(-1) ?? d.confirmed;
  return [
    ...(d.mark ? [{ text: rest.length ? `${d.mark}.` : d.mark, as: 'value' as const }] : []),
    ...answers,
    ...(!answers.length && !d.mark && d.confirmed ? [{ text: 'confirmed', as: 'value' as const }] : []),
    ...(d.reopened ? [{ text: statusWords.reopened, as: 'strong' as const }] : []),
    ...d.overruled.flatMap(overruled),
    ...(last ? [when(last, show)] : []),
  ];
}

/** Each decision and each signature once: those that the procedure names first, then the other hold points. */
function decisions(sheet: Sheet, show: Show): readonly SheetBlock[] {
  const withTime = (s: Signature): SheetPart[] => [...signed(s), { text: show(s.at), as: 'when' }];
  return tableBlock(
    [
      ['What', 18],
      ['Place', 12],
      ['Decided', 34],
      ['Signed', 36],
    ],
    [
      ...sheet.decisions.map((d): readonly Cell[] => [
        d.title,
        placeName(d.where),
        decided(d, show),
        d.signature ? withTime(d.signature) : '',
      ]),
      ...sheet.signatures
        .filter((s) => !sheet.decisions.some((d) => d.signature && same(d.signature, s)))
        .map((s): readonly Cell[] => [s.title, placeName(s.where), `Signed for: ${s.says}`, withTime(s)]),
      ...sheet.refusals.map((r): readonly Cell[] => [
        r.title,
        placeName(r.where),
        r.reason,
        [{ text: `NOT SIGNED by ${r.initials}`, as: 'overruled' }, when(r, show)],
      ]),
    ],
  );
}
const same = (a: Signature, b: Signature): boolean => a.step === b.step && a.place === b.place && a.at === b.at;

function remedies(sheet: Sheet, show: Show): readonly SheetBlock[] {
  // Where nothing is to be done “Corrections” tells of the figure.
  const told = sheet.remedies.filter((r) => r.settled || isToDo(r));
  const items = told.map((r): Cell => {
    const state = r.settled
      ? `Settled by ${whoWhen(r.settled, show)}: ${r.settled.reason}`
      : r.changed.map((c) => `${c.label}: ${c.old} → ${c.now}`).join('; ');
    return [
      { text: `${atPlace(r.title, r.where)}:`, as: 'strong' },
      { text: r.text },
      ...(r.settled ? [] : [{ text: 'STILL TO DO.', as: 'strong' as const }]),
      { text: state },
    ];
  });
  return items.length ? [{ is: 'list', items }] : [];
}

function stops(sheet: Sheet, show: Show): readonly SheetBlock[] {
  return tableBlock(
    [
      ['Stopped', 18],
      ['Place', 13],
      ['Why', 35],
      ['Met', 16],
      ['How it ended', 18],
    ],
    sheet.stops.map((s) => [
      s.title,
      placeName(s.where),
      s.says,
      { text: whoWhen(s, show), as: 'when' },
      s.ended ? stopEnd(s, show) : { text: stopEnd(s, show), as: 'strong' },
    ]),
  );
}

export function workSections(sheet: Sheet, show: Show): readonly Section[] {
  const add = (id: string, title: string, blocks: readonly SheetBlock[]) => section('work', id, title, blocks);
  return [
    ...add('decisions', headings.decisions, [
      ...decisions(sheet, show),
      ...(sheet.signatures.some((s) => handsWords(s).includes('typed by'))
        ? [{ is: 'words', text: headings.typedBy, as: 'source' } as const]
        : []),
    ]),
    ...add('stops', headings.stops, stops(sheet, show)),
    ...add('remedies', headings.remedies, remedies(sheet, show)),
    ...add(
      'overruled',
      headings.overruled,
      tableBlock(
        [
          ['Step', 16],
          ['Place', 13],
          ['The check said', 26],
          ['Overruled', 22],
          ['Reason', 18],
          ['When', 13],
        ],
        sheet.overruled.map((o) => [
          o.title,
          placeName(o.where),
          o.says,
          overruled(o),
          o.reason,
          { text: show(o.at), as: 'when' },
        ]),
      ),
    ),
    ...add(
      'corrections',
      headings.corrections,
      tableBlock(
        [
          ['What', 18],
          ['Place', 13],
          ['Was', 14],
          ['Is', 14],
          ['Reason', 18],
          ['By, when', 19],
        ],
        sheet.corrections.map((c) => [c.label, placeName(c.where), c.old, c.now, c.reason, when(c, show)]),
      ),
    ),
    ...add(
      'events',
      headings.events,
      tableBlock(
        [
          ['What', 50],
          ['Place', 20],
          ['By, when', 30],
        ],
        sheet.events.map((e) => [eventText(e), placeName(e.where), when(e, show)]),
      ),
    ),
    ...add(
      'notes',
      headings.notes,
      tableBlock(
        [
          ['Kind', 12],
          ['Place', 14],
          ['Text', 50],
          ['By, when', 24],
        ],
        sheet.notes.map((n) => [n.kind, placeName(n.where), n.text, when(n, show)]),
      ),
    ),
    ...groupSections(sheet, 'work'),
    ...add(
      'instruments',
      headings.instruments,
      tableBlock(
        [
          ['What', 30],
          ['Place', 15],
          ['Which', 55],
        ],
        sheet.front.instruments.map((r) => [r.heading, placeName(r.where), { text: r.text, as: 'value' }]),
      ),
    ),
    ...add(
      'photos',
      headings.photos,
      sheet.photos.length
        ? [
            {
              is: 'photos',
              photos: sheet.photos.map((p) => ({
                says: `${p.shows ?? p.title}, ${placeName(p.where)} (${p.title}; ${whoWhen(p, show)})`,
                file: p.file,
                ...(p.src ? { src: p.src } : {}),
              })),
            },
          ]
        : [],
    ),
    ...add('life', headings.life, lifeBlocks(sheet.life, show)),
    ...add('curve', headings.curve, sheet.pictures.filter((p) => p.picture === 'run-in-curve').map(drawingOf)),
  ];
}
