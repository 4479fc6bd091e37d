/** Where the two probes of the meter go, and what was heard. */
import { type DrawingSize, type PictureValues, pictureWords, wordOf } from './picture.js';

const heard = (answer: string | undefined): string =>
  answer === 'beep' ? 'beeps' : answer === 'open' ? 'silent' : answer === undefined ? '' : answer;

export function textProbes(values: PictureValues, room: DrawingSize): string[] {
  const show = wordOf(values, 'show');
  const ball = room.ascii ? 'O' : '●';
  const ring = room.ascii ? '#' : '▓';
  const no = room.ascii ? 'X' : '✗';
  const say = (line: string, answer: string | undefined): string => (answer ? `${line}   ${heard(answer)}` : line);
  const lines: string[] = [];
  if (!show || show === 'leads')
    lines.push('1  probe to probe:', say('      +>-----<+          must beep', wordOf(values, 'leads')));
  if (!show || show === 'ring')
    lines.push(
      '2  both on one bare ring:',
      '      +\\      /-',
      say(`   ${ring.repeat(14)}    must beep`, wordOf(values, 'ring')),
    );
  if (!show || show === 'balls') {
    lines.push('3  both on one bare ball:', `      +>${ball}<-           silent: ceramic, beep: steel`);
    const balls = pictureWords(values, 'balls');
    if (balls.length) lines.push(`   ${balls.map((b, i) => `${i + 1} ${heard(b)}`).join('   ')}`);
    lines.push(`${no}  ring to ring proves nothing: seal, shaft and housing conduct`);
  }
  return lines;
}
