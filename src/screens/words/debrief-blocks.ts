/** The lines of a debrief as blocks of a page. */
import type { ShownDebriefLine } from '../app-contract.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Room } from '../look/line.js';
import { heading, paragraph, spans } from './blocks.js';

export function debriefBlock(line: ShownDebriefLine, room: Room): Block {
  const g = glyphs(room.ascii);
  switch (line.as) {
    case 'head':
      return heading(line.text);
    case 'good':
      return spans(
        [
          { text: `${g.done} `, tone: 'good' },
          { text: line.text, tone: 'strong' },
        ],
        { gap: true, indent: 2 },
      );
    case 'bad':
      return spans(
        [
          { text: `${g.warn} `, tone: 'alert' },
          { text: line.text, tone: 'strong' },
        ],
        { gap: true, indent: 2 },
      );
    case 'more':
      return {
        rank: 1,
        lines: (width) =>
          paragraph(line.text)
            .lines?.(width - 2)
            .map((l) => [{ text: '  ' }, ...l]) ?? [],
      };
    default:
      return paragraph(line.text);
  }
}
