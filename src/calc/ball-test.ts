/**
 * What the continuity meter and a magnet say about the balls: ceramic, steel, or not proven.
 * Proof of ceramic wants: probes together beep, both probes on one cleaned ring beep, and at least three cleaned balls
 * silent with both probes on the ball, and a second witness, since a film of grease is silent too: a magnet that is not
 * attracted, another range of the meter that is silent as well, or every ball of the bearing tried and silent.
 * Proof of steel: the first two, and every ball tried beeps. A beep from ring to ring proves nothing of the balls.
 * Alumina and zirconia are silent like silicon nitride. Source: silicon nitride insulates and is not magnetic.
 */
import { defineCalculator } from './define.js';
import { choiceInput, figure, oneOf, quantityInput, word } from './spec.js';
import { CalcRefusal } from './types.js';

const contact = ['beep', 'open'] as const;
const leastBalls = 3;

type Verdict = 'ceramic' | 'steel' | 'not proven';
type Witness = 'magnet' | 'another range' | 'every ball' | 'none';

export const ballTest = defineCalculator({
  name: 'ball-test',
  title: 'Ball material by continuity and magnet',
  inputs: {
    leads: choiceInput('Probes held together', contact),
    ring: choiceInput('Both probes on one cleaned ring', contact),
    balls: { type: 'choices', label: 'Both probes on one cleaned ball, for each ball tried', choices: contact },
    magnet: choiceInput('Magnet at a ball', ['attracted', 'not-attracted', 'skipped'], true),
    secondRange: choiceInput('The same balls on another range, such as megohms', ['beep', 'open', 'skipped'], true),
    count: quantityInput('Balls in the bearing', 'count', '', [3, 60], true),
  },
  results: {
    verdict: oneOf('Balls', ['ceramic', 'steel', 'not proven']),
    why: word('Why'),
    tried: { label: 'Balls tried', kind: 'count', unit: '' },
    witness: oneOf('Second test', ['magnet', 'another range', 'every ball', 'none']),
  },
  formula: 'leads, then a ring, then several balls, then a second witness: magnet, another range, or every ball',
  source: {
    tag: 'M',
    text: 'Silicon nitride: resistivity 1e12 ohm cm and more, read on material pages; not magnetic, from memory',
  },
  aliases: {
    beeps: 'beep',
    closed: 'beep',
    silent: 'open',
    silence: 'open',
    pull: 'attracted',
    yes: 'attracted',
    'no-pull': 'not-attracted',
    no: 'not-attracted',
    none: 'skipped',
  },
  run: (given) => {
    const balls = given.words('balls');
    const magnet = given.maybeWord('magnet') ?? 'skipped';
    const range = given.maybeWord('secondRange') ?? 'skipped';
    const count = given.maybe('count')?.value;
    if (count !== undefined && balls.length > count)
      throw new CalcRefusal(
        'balls',
        `${balls.length} balls were tried, but the bearing has ${figure(count)}: count both again.`,
      );
    const witness: Witness =
      magnet === 'not-attracted'
        ? 'magnet'
        : range === 'open'
          ? 'another range'
          : balls.length === count
            ? 'every ball'
            : 'none';
    const [verdict, why] = judge({
      leads: given.word('leads'),
      ring: given.word('ring'),
      balls,
      magnet,
      range,
      witness,
    });
    const warnings: string[] = [];
    if (verdict === 'steel' && magnet === 'skipped')
      warnings.push('The magnet gave no answer: it is the second witness, and costs a minute.');
    if (verdict === 'ceramic')
      warnings.push(
        'Other ceramics, such as alumina and zirconia, are silent too: a scale or the supplier tells which it is.',
      );
    if (verdict === 'steel')
      warnings.push(
        'Steel balls: this is no hybrid. Lower the speed it may run at, and take the mass as that of a steel bearing.',
      );
    return {
      results: {
        verdict: { value: verdict },
        why: { value: why },
        tried: { value: balls.length },
        witness: { value: witness },
      },
      warnings,
      worked: [
        `leads ${given.word('leads')}, ring ${given.word('ring')}, balls ${balls.join(' ')}, magnet ${magnet}, second witness ${witness} -> ${verdict}`,
      ],
    };
  },
});

interface Tested {
  readonly leads: string;
  readonly ring: string;
  readonly balls: readonly string[];
  readonly magnet: string;
  readonly range: string;
  readonly witness: Witness;
}

const witnessed: Readonly<Record<Exclude<Witness, 'none'>, string>> = {
  magnet: 'the magnet is not attracted',
  'another range': 'they are silent on another range too',
  'every ball': 'these are all that it has',
};

function judge({ leads, ring, balls, magnet, range, witness }: Tested): [Verdict, string] {
  if (leads !== 'beep')
    return ['not proven', 'the meter does not beep with its probes together: mend meter or leads, then begin again'];
  if (ring !== 'beep')
    return ['not proven', 'no beep on a bare ring: the probes do not reach metal, clean the ring and try again'];
  const beeps = balls.filter((ball) => ball === 'beep').length;
  if (beeps > 0 && beeps < balls.length)
    return [
      'not proven',
      `${beeps} of ${balls.length} balls beep: clean the silent ones and keep the probes off ring and cage, then try all again; if any still beeps, treat them as steel`,
    ];
  if (balls.length < leastBalls)
    return ['not proven', `only ${balls.length} of the balls tried: try at least ${leastBalls}, each cleaned`];
  if (beeps === balls.length)
    return magnet === 'not-attracted'
      ? [
          'not proven',
          'every ball conducts but none is attracted: the two witnesses disagree, keep the probes off ring and cage and repeat both',
        ]
      : ['steel', `all ${balls.length} balls conduct, on a meter and contact proven first`];
  if (magnet === 'attracted')
    return [
      'not proven',
      'every ball is silent but the magnet is attracted: the balls may be steel under a film, or the magnet feels the rings; clean and repeat both',
    ];
  if (range === 'beep')
    return [
      'not proven',
      'silent on one range, not on the other: the balls may be steel under a film; clean them and try again',
    ];
  if (witness === 'none')
    return [
      'not proven',
      `all ${balls.length} balls are silent, but a film of grease is silent too: hold a magnet to a ball, try another range of the meter, or try every ball`,
    ];
  return [
    'ceramic',
    `all ${balls.length} balls are silent, on a meter and contact proven first, and ${witnessed[witness]}`,
  ];
}
