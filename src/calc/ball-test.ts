/**
 * What the continuity meter and a magnet say about the balls: ceramic, steel, or not proven.
 * Proof of ceramic wants: probes together beep, both probes on one cleaned ring beep, and at least three cleaned balls
 * silent with both probes on the ball. Proof of steel: the same two, and every ball tried beeps.
 * A beep from ring to ring proves nothing of the balls, silence alone neither: a film of grease insulates.
 * The magnet is a second witness that can take a proof away, never make one.
 * Source: silicon nitride insulates (1e12 ohm cm and more) and is not magnetic, published.
 */
import { defineCalculator } from './define.js';
import { choice, oneOf, word } from './spec.js';

const contact = ['beep', 'open'] as const;
const leastBalls = 3;

type Verdict = 'ceramic' | 'steel' | 'not proven';

export const ballTest = defineCalculator({
  name: 'ball-test',
  title: 'Ball material by continuity and magnet',
  inputs: {
    leads: choice('Probes held together', contact),
    ring: choice('Both probes on one cleaned ring', contact),
    balls: { type: 'choices', label: 'Both probes on one cleaned ball, for each ball tried', choices: contact },
    magnet: choice('Magnet at a ball', ['attracted', 'not-attracted', 'skipped'], true),
  },
  results: {
    verdict: oneOf('Balls', ['ceramic', 'steel', 'not proven']),
    why: word('Why'),
    tried: { label: 'Balls tried', kind: 'count', unit: '' },
  },
  formula: 'leads, then a ring, then several balls; the magnet as second witness',
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
    const [verdict, why] = judge(given.word('leads'), given.word('ring'), balls, magnet);
    const warnings: string[] = [];
    if (verdict !== 'not proven' && magnet === 'skipped')
      warnings.push('The magnet gave no answer: it is the second witness, and costs a minute.');
    if (verdict === 'steel')
      warnings.push(
        'Steel balls: this is no hybrid. Lower the speed it may run at, and take the mass as that of a steel bearing.',
      );
    return {
      results: { verdict: { value: verdict }, why: { value: why }, tried: { value: balls.length } },
      warnings,
      worked: [
        `leads ${given.word('leads')}, ring ${given.word('ring')}, balls ${balls.join(' ')}, magnet ${magnet} -> ${verdict}`,
      ],
    };
  },
});

function judge(leads: string, ring: string, balls: readonly string[], magnet: string): [Verdict, string] {
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
  return magnet === 'attracted'
    ? [
        'not proven',
        'every ball is silent but the magnet is attracted: the balls may be steel under a film, or the magnet feels the rings; clean and repeat both',
      ]
    : [
        'ceramic',
        `all ${balls.length} balls are silent, on a meter and contact proven first${magnet === 'not-attracted' ? ', and the magnet is not attracted' : ''}`,
      ];
}
