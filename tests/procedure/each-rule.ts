/** One row for each rule of the check that no other test breaks: what is changed, and all that is said then, word for word. */
import { describe, expect, it } from 'vitest';
import { changed, says, sound } from './sound.js';

type Change = readonly [find: string, replace: string];
/** What is said of the sound procedure with these changes, each with the word at which it points. */
const after = (changes: readonly Change[]): string[] => {
  const text = changes.reduce((all, [find, replace]) => changed(find, replace, all), sound);
  return says(text).map((told) => {
    const [, line, column, words] = /^(\d+):(\d+): (.*)$/s.exec(told) ?? [];
    const there = text.split('\n')[Number(line) - 1]?.slice(Number(column) - 1) ?? '';
    return `${/^[^\s\w]*[\w.-]+|^\S+/.exec(there)?.[0]} | ${words}`;
  });
};
type Row = readonly [name: string, changes: readonly Change[], ...said: string[]];
const rows = (all: readonly Row[]): void => {
  it.each(all.map(([name, changes, ...said]) => [name, changes, said] as const))('%s', (_, changes, said) => {
    expect(after(changes)).toEqual(said);
  });
};

const shaft: Change = ['phases:\n', '  - { id: shaft, name: Shaft, instances: [ { id: s, label: S } ] }\nphases:\n'];
const branch = (more: string): Change => ['branches:\n', `branches:\n  - { ${more} }\n`];
const ask = (question: string): Change => ['      - { key: series,', `      - { ${question} }\n      - { key: series,`];
const step = (id: string, more: string): string =>
  `  - id: ${id}\n    phase: work\n    title: T\n    do: D\n    why: W\n    ${more}\n`;
const ahead = (text: string): Change => ['  - id: fill\n', `${text}  - id: fill\n`];
const fact = (more: string): Change => ['facts:\n', `facts:\n  - { ${more} }\n`];
const gate = (more: string): Change => ['overrule: never', `overrule: never\n        ${more}`];
const atFill = (more: string): Change => ['    wait: {', `    ${more}\n    wait: {`];
const atOpen = (more: string): Change => ['hazard: true', `hazard: true\n    ${more}`];

/** Stands in the file that holds the check, which is read anyway. */
export function eachRule(): void {
  describe('the life of a rotor', () => {
    const life = (more: string): Change => ['sheet:\n', `life:\n  did: Greased\n  ${more}\nsheet:\n`];
    rows([
      ['is sound', [life('rotor: name_a\n  keeps: [ { keys: [grease, name_a], from: name_a }, { keys: [bore] } ]')]],
      [
        'by a value of each bearing',
        [life('rotor: series')],
        'series | “series” belongs to a position and can’t be seen from the whole job. Gather it with a fact that has “at: job” and “over: position”.',
      ],
      [
        'by values that are not there',
        [
          life(
            'rotor: name_a\n  machine: grase\n  hours: sped\n  a_day: spead\n  trend: [ { key: doze, label: Dose } ]\n  found: verdct',
          ),
        ],
        'grase | There is no value “grase”. Did you mean “grease”?',
        'sped | There is no value “sped”. Did you mean “speed”?',
        'spead | There is no value “spead”. Did you mean “speed”?',
        'doze | There is no value “doze”. Did you mean “dose”?',
        'verdct | There is no value “verdct”. Did you mean “verdict”?',
      ],
      [
        'keeps what is no answer',
        [life('rotor: name_a\n  keeps: [ { keys: [greese, fast] }, { keys: [grease], from: verdict } ]')],
        'greese | There is no value “greese”. Did you mean “grease”?',
        'fast | “fast” is no answer that a later job could take over. Name keys of questions outside logs.',
        'verdict | “verdict” is no answer that a later job could take over. Name the key of a question.',
      ],
      [
        'keeps a reading of a log and a part of several lengths',
        [
          life('rotor: name_a\n  keeps: [ { keys: [heat] }, { keys: [lid_a] } ]'),
          ask('key: lid, kind: dimensions, parts: [lid_a, lid_b], unit: mm, label: Lid, limits: [1, 9]'),
          ahead(
            step(
              'warm',
              'at: position\n    repeat: { until: "rows_warm > 1.0", most: 9 }\n    ask: [ { key: heat, kind: number, label: Heat, limits: [0, 9] } ]',
            ),
          ),
        ],
        'heat | “heat” is no answer that a later job could take over. Name keys of questions outside logs.',
        'lid_a | “lid_a” is no answer that a later job could take over. Name keys of questions outside logs.',
      ],
      [
        'keeps values of two kinds of place in one group, from a value that is not there',
        [life('rotor: name_a\n  keeps: [ { keys: [grease, bore], from: name_b, when: runs } ]')],
        'bore | “bore” belongs to position, and the first of its group to job. Make a group for each kind of place.',
        'name_b | There is no value “name_b”. Did you mean “name_a”?',
        'runs | “runs” belongs to a position and can’t be seen from the whole job. Gather it with a fact that has “at: job” and “over: position”.',
      ],
    ]);
  });

  describe('the sheet', () => {
    const sheet = (more: string): Change => ['  headline: [grease]\n', `  headline: [grease]\n  ${more}\n`];
    const front = (more: string): Change => sheet(`front:\n    ${more}`);
    const dozeBelow = 'doze | There is no value “doze”. Did you mean “dose”?';
    const noDoze = 'doze | There is no value “doze”. Use the key of a question, fact or calculation.';
    rows([
      [
        'is sound',
        [
          ['- { key: dose }', '- { key: dose, when: bore > 10.0 }'],
          sheet(
            [
              'next: [speed]',
              'groups: [ { title: T, when: bore > 10.0, keys: [grease, dose] } ]',
              'front:',
              '  ended: [ { event: dropped, when: runs, once: drop, say: "{bore}" } ]',
              '  watch: [ { at: seal, when: "state == \'torn\'", once: open, until: fill, say: "{bore}" } ]',
              '  due: { hours: speed, why: [ { say: "{grease}" } ] }',
              'strip: { title: T, marks: dose, each: position, when: runs, say: Lay it on. }',
            ].join('\n  '),
          ),
        ],
      ],
      [
        'names values that are not there',
        [
          [
            'headline: [grease]',
            'headline: [greese]\n  next: [sped]\n  groups: [ { title: T, keys: [doze, grease] } ]',
          ],
        ],
        'greese | There is no value “greese”. Did you mean “grease”?',
        'sped | There is no value “sped”. Did you mean “speed”?',
        dozeBelow,
      ],
      [
        'has conditions at the place of the figure, of each in a group',
        [
          [
            'headline: [grease]',
            'headline: [grease]\n  groups: [ { title: T, when: runs == false, keys: [grease, dose, state] } ]',
          ],
          ['- { key: dose }', '- { key: dose, when: bore }\n    - { key: grease, when: runs }'],
        ],
        "bore | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
        'runs | “runs” belongs to a position and can’t be seen from the whole job. Gather it with a fact that has “at: job” and “over: position”.',
      ],
      [
        'in a group asks at each kind of place',
        [sheet(`groups: [ { title: T, when: "state == 'torn'", keys: [state, dose] } ]`)],
        '"state | “state” belongs to a seal and can’t be seen from a position. Gather it with a fact that has “at: position” and “over: seal”.',
      ],
      [
        'says of a group once what is wrong at each kind of place',
        [sheet('groups: [ { title: T, when: speed, keys: [state, dose] } ]')],
        "speed | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
      ],
      ...['barred', 'verdict', 'unusual', 'watch'].map(
        (list): Row => [`says under ${list} what is not there`, [front(`${list}: [ { say: "{doze}" } ]`)], noDoze],
      ),
      ...['rows', 'instruments', 'tag'].map(
        (list): Row => [
          `says under ${list} what is not there`,
          [front(`${list}: [ { heading: H, say: "{doze}" } ]`)],
          noDoze,
        ],
      ),
      [
        'has lines at no kind of place, on no step, on what is no condition',
        [
          front(
            'watch:\n      - { at: bearing, say: "{doze}" }\n      - { once: opn, until: fil, when: speed, say: S }\n      - { at: position, say: "{bore} {state}" }',
          ),
        ],
        'bearing | There is no kind of place “bearing”. Known are: job, job, position, seal.',
        'opn | There is no step “opn”. Did you mean “open”?',
        'fil | There is no step “fil”. Did you mean “fill”?',
        "speed | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
        'state | “state” belongs to a seal and can’t be seen from a position. Gather it with a fact that has “at: position” and “over: seal”.',
      ],
      [
        'tells the end of an event',
        [
          front(
            'ended:\n      - { event: droped, once: opn, say: "{doze}" }\n      - { event: dropped, once: opn, when: speed, say: "{doze} {bore}" }',
          ),
        ],
        'droped | There is no branch “droped”. Did you mean “dropped”?',
        'opn | There is no step “opn”. Did you mean “open”?',
        "speed | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
        dozeBelow,
      ],
      [
        'tells when it is due',
        [
          front(
            'known_by: [greese]\n    due: { hours: bore, a_day: sped, first: { hours: spead, say: S }, why: [ { say: "{doze}" } ] }',
          ),
        ],
        'greese | There is no value “greese”. Did you mean “grease”?',
        'bore | “bore” belongs to a position and can’t be seen from the whole job. Gather it with a fact that has “at: job” and “over: position”.',
        'sped | There is no value “sped”. Did you mean “speed”?',
        'spead | There is no value “spead”. Did you mean “speed”?',
        noDoze,
      ],
      [
        'has a strip of marks',
        [sheet('strip: { title: T, marks: doze, each: bearing, when: nothing_here, say: S }')],
        dozeBelow,
        'bearing | There is no kind of place “bearing”. Known are: job, position, seal.',
      ],
      [
        'has a strip for each bearing, and one for the whole job',
        [sheet('strip: { title: T, marks: dose, when: runs, say: S }')],
        'runs | “runs” belongs to a position and can’t be seen from the whole job. Gather it with a fact that has “at: job” and “over: position”.',
      ],
    ]);
  });

  describe('a calculation', () => {
    const calc = (more: string): Change => ['gives: { volume: dose }', `gives: { volume: dose }, ${more}`];
    rows([
      [
        'with an input that is nowhere near',
        [['with: { bore: bore,', 'with: { bore: bore, grade_of_oil: grease,']],
        'grade_of_oil | The calculator “dose” has no input “grade_of_oil”. Its inputs are: bore, speed, wet.',
      ],
      [
        'with a result that is nowhere near',
        [['gives: { volume: dose }', 'gives: { volume: dose, grade_of_oil: grade }']],
        'grade_of_oil | The calculator “dose” has no result “grade_of_oil”. Its results are: volume, band.',
      ],
      [
        'with names for what is no list',
        [calc('names: { volume: grease }')],
        'volume | “volume” is no list that this calculation gives. Name only results of “gives” that are lists.',
        'grease | This gives a word, but a list of words is needed here. Change the expression.',
      ],
      [
        'with an expression of another quantity',
        [['with: { bore: bore,', 'with: { bore: speed * 2.0,']],
        'speed | This gives a speed, but a length is needed here. Give a value of that kind.',
      ],
      [
        'at no kind of place',
        [['{ calc: dose, at: position', '{ calc: dose, at: bearing']],
        'bearing | There is no kind of place “bearing”. Known are: job, position, seal.',
      ],
      [
        'that warns at no step, on no condition',
        [calc('warn_at: fil, when: bore')],
        'fil | There is no step “fil”. Did you mean “fill”?',
        "bore | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
      ],
    ]);
  });

  describe('a step', () => {
    const noBearing = 'bearing | There is no kind of place “bearing”. Known are: job, position, seal.';
    const noDoze = 'doze | There is no value “doze”. Did you mean “dose”?';
    const anew =
      'anew | The step “again” can’t be asked anew. Take “anew” out: it is for questions of the whole job, outside a branch, that are no log, decision, wait, hold or work.';
    const again = (more: string): readonly Change[] => [
      ahead(step('again', `anew: { each: person, after: [open] }\n    ${more}`)),
    ];
    const pick = 'ask: [ { key: k, kind: yes-no, label: L } ]';
    const alike = (id: string): string =>
      `${id} | The step “${id}” can’t be taken over from another place. Take “alike” out: it is for questions of a bearing or a seal that are no log and no decision.`;
    rows([
      [
        'with a remedy and no figures',
        [['do: Pick it up.', 'do: Pick it up.\n    remedy: Lift it.']],
        'drop | The step “drop” has a remedy but rests on no figure. Add “rests_on:” with the keys, or take “remedy” out.',
      ],
      [
        'with a change that needs no remedy, by what is not there',
        [atFill('no_remedy: { when: doze > 1.0, say: "{doze} is right." }')],
        'doze | There is no value “doze”. Did you mean “dose”?',
        'doze | There is no value “doze”. Did you mean “dose”?',
      ],
      [
        'with figures and no work',
        [['    physical: true\n', '']],
        'fill | The step “fill” rests on figures but is neither physical work nor a decision. Add “physical: true” or “decision: true”, or take “rests_on” out.',
      ],
      ['alike that asks nothing', [atFill('alike: true')], alike('fill')],
      ['alike of the whole job', [['title: Start', 'title: Start\n    alike: true']], alike('start')],
      [
        'alike that is a log',
        [['title: Measure', 'title: Measure\n    alike: true\n    repeat: { until: "rows_measure > 1.0", most: 9 }']],
        alike('measure'),
      ],
      [
        'alike that is a decision',
        [['title: Measure', 'title: Measure\n    alike: true\n    decision: true\n    rests_on: [speed]']],
        alike('measure'),
      ],
      ['alike where it can be', [['title: Measure', 'title: Measure\n    alike: true']]],
      [
        'of no short words that asks nothing',
        [atFill('brief: ""')],
        '"" | The step “fill” would say nothing. Say in a few words what to do, or take “brief” out.',
      ],
      ['of no short words that asks', [['title: Measure', 'title: Measure\n    brief: ""']]],
      [
        'that fills in what is not there',
        [
          ['minutes: "10.0", label: settling', 'minutes: "10.0", label: "{doze}"'],
          atFill('hold: { say: "{doze}", self_check: "{doze}", own: "{doze}" }'),
          ['change it by {dose.change}.', 'change it by {dose.new}.'],
          [
            'do: Pick it up.',
            'do: Pick it up.\n    tell: "{doze}"\n    otherwise: "{doze}"\n    mark: "{doze}"\n    picture: "{doze}"\n    brief: "{doze}"',
          ],
        ],
        'dose.new | “{dose.new}” can’t be filled in. Write {key}, {key.old} or {key.change}.',
        noDoze,
        noDoze,
        noDoze,
        noDoze,
        noDoze,
        noDoze,
        noDoze,
        noDoze,
        noDoze,
      ],
      [
        'with a caution on a condition',
        [['- The spring flies.', '- { kind: spring, say: "The spring {doze} flies.", when: bore }']],
        noDoze,
        "bore | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
      ],
      [
        'that shows, predicts and draws what is not there',
        [atOpen('show: [doze]\n    predict: [doze]\n    draw: { picture: syringe, with: { mark: doze } }')],
        noDoze,
        noDoze,
        noDoze,
      ],
      [
        'with a gate twice, and one of a name that is taken',
        [
          [
            'overrule: never',
            'overrule: never\n      - { id: wide-enough, must: runs, say: S, overrule: never }\n      - { id: fresh, must: runs, say: S, overrule: never }',
          ],
        ],
        'wide-enough | The gate “wide-enough” stands here a second time. Give it a name of its own.',
        'fresh | No gate can be called “fresh”. That name stands for the step’s own time.',
      ],
      [
        'with a log that ends on no condition',
        [['title: Measure', 'title: Measure\n    repeat: { until: bore, most: 9 }']],
        "bore | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
      ],
      [
        'to be begun in time after no step',
        [atFill('fresh: { after: opn, minutes: "60.0", say: Late., raise: droped }')],
        'opn | There is no step “opn”. Did you mean “open”?',
        'droped | There is no branch “droped”. Did you mean “dropped”?',
      ],
      [
        'to be begun in time after one elsewhere, in millimetres',
        [atFill('fresh: { after: open, minutes: bore, say: "Late {doze}." }')],
        'open | “open” is done at another kind of place than “fill”. Name a step of the same kind of place.',
        'bore | This gives a length, but a duration is needed here. Give a value of that kind.',
        noDoze,
      ],
      ['asked anew where it can be', again(`at: job\n    ${pick}`)],
      ['asked anew at a bearing', again(`at: position\n    ${pick}`), anew],
      ['asked anew in a branch', again(`at: job\n    branch: dropped\n    ${pick}`), anew],
      ['asked anew and a log', again(`at: job\n    repeat: { until: "rows_again > 1.0", most: 9 }\n    ${pick}`), anew],
      ['asked anew and a wait', again(`at: job\n    wait: { minutes: "5.0", label: L }\n    ${pick}`), anew],
      ['asked anew and a hold', again(`at: job\n    hold: { say: S, self_check: S }\n    ${pick}`), anew],
      ['asked anew and a decision', again(`at: job\n    decision: true\n    rests_on: [speed]\n    ${pick}`), anew],
      ['asked anew and work', again(`at: job\n    physical: true\n    ${pick}`), anew],
      ['asked anew in a group', again(`at: job\n    together: group\n    ${pick}`), anew],
      [
        'at no kind of place with all that it says',
        [['phase: work\n    at: seal', 'phase: work\n    at: bearing']],
        noBearing,
      ],
    ]);
  });

  describe('a gate', () => {
    rows([
      [
        'that raises an event of another place',
        [
          shaft,
          branch('id: bent, at: shaft, title: Bent, mark: M, reopens: [measure]'),
          ahead(step('bend', 'at: shaft\n    branch: bent')),
          gate('raise: bent'),
        ],
        'bent | The branch “bent” belongs to a shaft, and this stop is at a position. Name a branch of this place, of one around it or below it.',
      ],
      [
        'that raises an event of the whole job',
        [
          branch('id: bent, at: job, title: Bent, mark: M, reopens: [measure]'),
          ahead(step('bend', 'at: job\n    branch: bent')),
          gate('raise: bent'),
        ],
      ],
      [
        'that raises an event below',
        [
          branch('id: bent, at: seal, title: Bent, mark: M, reopens: [measure]'),
          ahead(step('bend', 'at: seal\n    branch: bent')),
          gate('raise: bent'),
        ],
      ],
      [
        'that raises none that is known',
        [gate('raise: droped')],
        'droped | There is no branch “droped”. Did you mean “dropped”?',
      ],
      [
        'that takes the answer for right and says nothing to do about it',
        [gate('answer_stands: true')],
        'true | The gate “wide-enough” takes the answer for right and names nothing to do about it. Name a branch in raise or a reading in correct, or take the line out.',
      ],
      ['that offers a reading to be corrected', [gate('correct: [bore, dose]')]],
      [
        'that offers to correct what nobody reads',
        [gate('correct: [event_dropped, which_position, boor]')],
        'event_dropped | “event_dropped” is not read off here and can’t be corrected. Name a reading.',
        'which_position | “which_position” is not read off here and can’t be corrected. Name a reading.',
        'boor | There is no value “boor”. Did you mean “bore”?',
      ],
      [
        'that waits for what is asked later, though it holds at the end',
        [
          ['must: bore > 10.0', 'must: later > 5.0'],
          atFill('ask: [ { key: later, kind: number, label: L, limits: [0, 9] } ]'),
        ],
        'later | The gate “wide-enough” waits for “later”, asked only later: it never opens. Ask it earlier.',
      ],
    ]);
  });

  describe('a question', () => {
    const oil = 'key: oil, kind: quantity, quantity: volume, unit: mL, label: Oil, limits: [1, 100]';
    const dimensions = 'key: lid, kind: dimensions, parts: [lid_a, lid_b], unit: mm, label: Lid, limits: [1, 9]';
    const series = (more: string) =>
      `key: seen, kind: series, label: Seen, options: [ { value: a, label: A }, { value: b, label: B } ], ${more}`;
    rows([
      [
        'to be filled in without a suggestion',
        [ask(`${oil}, filled: true`)],
        'filled | “oil” is to be filled in but suggests nothing. Add “suggest:”.',
      ],
      ['to be filled in', [ask(`${oil}, filled: true, suggest: "5.0"`)]],
      [
        'of several lengths with a suggestion',
        [ask(`${dimensions}, suggest: "5.0"`)],
        'suggest | Nothing can be suggested for a dimensions. Take “suggest” out.',
      ],
      [
        'that counts with a suggestion',
        [ask('key: turns, kind: counter, to: "5.0", unit: turns, label: T, suggest: "5.0"')],
        'suggest | Nothing can be suggested for a counter. Take “suggest” out.',
      ],
      [
        'with a suggestion of another quantity and of another type',
        [ask(`${oil}, suggest: speed`), ask('key: dry, kind: yes-no, label: Dry, suggest: speed')],
        'speed | This gives a speed, but a volume is needed here. Give a value of that kind.',
        "speed | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
      ],
      [
        'held against values of another quantity',
        [ask(`${oil}, no_more_than: speed, wanted: speed, near: speed`)],
        'speed | This gives a speed, but a volume is needed here. Give a value of that kind.',
        'speed | This gives a speed, but a volume is needed here. Give a value of that kind.',
        'speed | This gives a speed, but a volume is needed here. Give a value of that kind.',
      ],
      [
        'that counts to a yes or no',
        [ask('key: turns, kind: counter, to: event_dropped, unit: turns, label: T')],
        'event_dropped | This gives yes or no, but a number is needed here. Change the expression.',
      ],
      [
        'in a unit of a kind that has one alone',
        [ask('key: part, kind: quantity, quantity: share, unit: mm, label: Part, limits: [1, 100]')],
        'mm | “mm” is no unit of share. Use %.',
      ],
      [
        'in a unit of a kind that has none',
        [ask('key: cost, kind: quantity, quantity: money, unit: coins, label: Cost, limits: [1, 100]')],
        'coins | “coins” is no unit of money. Use none at all: unit: "".',
      ],
      [
        'of money without a unit',
        [ask('key: cost, kind: quantity, quantity: money, unit: "", label: Cost, limits: [1, 100]')],
      ],
      [
        'of lengths in a unit of another kind',
        [ask(dimensions.replace('unit: mm', 'unit: rpm'))],
        'rpm | “rpm” is no unit of length. Use one of: mm, cm, m, in, thou, ft, µm.',
      ],
      [
        'of a list that stands in for itself',
        [ask(`${dimensions}, otherwise: 5`), ask(series('least: 1, most: 2, otherwise: a'))],
        'otherwise | “lid” holds a list and can’t have an “otherwise”. Take it out.',
        'otherwise | “seen” holds a list and can’t have an “otherwise”. Take it out.',
      ],
      [
        'with a word for a number, a number for a word',
        [ask(`${oil}, otherwise: none`), ask('key: said, kind: text, label: Said, otherwise: 5')],
        'none | The “otherwise” of “oil” should be a bare number in the canonical unit. Mend the value.',
        '5 | The “otherwise” of “said” should be a word. Mend the value.',
      ],
      [
        'with limits at one figure',
        [ask(oil.replace('[1, 100]', '[5, 5]'))],
        '[5 | The limits of “oil” are in the wrong order. Write the lower one first.',
      ],
      ['with a plausible range as wide as its limits', [ask(`${oil}, plausible: [1, 100]`)]],
      [
        'with a plausible range below its limits',
        [ask(`${oil}, plausible: [0.5, 50]`)],
        '[0.5 | The plausible range of “oil” does not lie inside its limits 1 to 100. Narrow it, lower figure first.',
      ],
      [
        'with a plausible range above its limits',
        [ask(`${oil}, plausible: [5, 101]`)],
        '[5 | The plausible range of “oil” does not lie inside its limits 1 to 100. Narrow it, lower figure first.',
      ],
      [
        'with a plausible range at one figure',
        [ask(`${oil}, plausible: [5, 5]`)],
        '[5 | The plausible range of “oil” does not lie inside its limits 1 to 100. Narrow it, lower figure first.',
      ],
      [
        'of several at least more than at most',
        [ask(series('least: 3, most: 2'))],
        '3 | “seen” asks for at least 3 but at most 2. Turn them round.',
      ],
      ['of several as many as that', [ask(series('least: 2, most: 2'))]],
      [
        'that shows a column that is not there',
        [['table: sizes,', 'table: sizes, show: colour,']],
        'colour | The table “sizes” has no column “colour”. Its columns are: id, width, tag, source.',
      ],
      [
        'that has a row of the same name twice',
        [
          ['{ value: good, label: Good }', '{ value: bad, label: Good }'],
          ['when: "grease == \'good\' || event_dropped"', 'when: event_dropped'],
        ],
        'bad | The choice “bad” stands here a second time. Give it a name of its own.',
      ],
    ]);
  });

  describe('a fact', () => {
    const length = 'key: wide, at: job, label: Wide, quantity: length, is: "5.0"';
    rows([
      [
        'of a publication that nobody can open',
        [fact(`${length}, source: { tag: P, text: Bearing catalogue }`)],
        '{ | The source of “wide” is tagged P but does not name its edition, year or number, nor the page, table, section or entry. Name document, edition and place, or tag it M (from memory) or CP (common practice).',
      ],
      ['of common practice', [fact(`${length}, source: { tag: CP, text: common }`)]],
      ['in a unit of its quantity', [fact(`${length}, unit: in`)]],
      [
        'in a unit of another quantity',
        [fact(`${length}, unit: rpm`)],
        'rpm | “rpm” is no unit of length. Use a unit of the fact’s quantity.',
      ],
      [
        'in a unit without a quantity',
        [fact('key: wide, at: job, label: Wide, type: double, is: "5.0", unit: mm')],
        'mm | “mm” is no unit of nothing. Use a unit of the fact’s quantity.',
      ],
      ['of a quantity and its type', [fact(`${length}, type: double`)]],
      [
        'of a quantity and another type',
        [fact('key: wide, at: job, label: Wide, quantity: length, type: bool, is: "true"')],
        'bool | A length can’t be bool. Take “type” or “quantity” out.',
      ],
      [
        'that counts on no condition, held by no step, at no place',
        [fact(`${length}, when: speed, held_by: fil`), fact('key: far, at: bearing, label: Far, is: "nowhere"')],
        'bearing | There is no kind of place “bearing”. Known are: job, position, seal.',
        "speed | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
        'fil | There is no step “fil”. Did you mean “fill”?',
      ],
      [
        'held by a step of its place',
        [fact('key: wide, at: position, label: Wide, quantity: length, is: bore, held_by: fill')],
      ],
      [
        'gathered over no kind of place',
        [['over: seal,', 'over: seel,']],
        'seel | There is no kind of place “seel”. Did you mean “seal”?',
      ],
      [
        'gathered over the whole job',
        [['over: seal,', 'over: job,']],
        'job | There is no kind of place “job”. Known are: position, seal.',
      ],
      ['gathered over two levels', [fact('key: torn, at: job, label: Torn, over: seal, any: "state == \'torn\'"')]],
      [
        'gathered into a list of another type',
        [fact('key: bores, at: job, label: Bores, over: position, type: list<double>, list: series')],
        'series | This gives a word, but a number is needed here. Change the expression, or write “type: list<string>” in the fact.',
      ],
      [
        'gathered by counting what is no condition',
        [fact('key: bores, at: job, label: Bores, over: position, count: bore')],
        "bore | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
      ],
      [
        'gathered by nothing',
        [['all: "state == \'whole\'" }', 'type: bool }']],
        '{ | The fact “all_whole” needs just one of all, any, count, list. Keep one of them.',
      ],
    ]);
  });

  describe('places and events', () => {
    rows([
      [
        'a place on a condition that is never true',
        [['- { id: b, label: Right }', '- { id: b, label: Right, when: speed > 6000.0 }']],
        'speed | The place “b” never takes part: its condition is never true. Change the condition or take the part out.',
      ],
      [
        'a place on what is no condition, named by nothing',
        [['- { id: b, label: Right }', '- { id: b, label: Right, when: speed, label_from: nam_a }']],
        "speed | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
        'nam_a | There is no value “nam_a”. Did you mean “name_a”?',
      ],
      [
        'a place below on a value of its own',
        [['- { id: front, label: front }', '- { id: front, label: front, when: "state == \'whole\'" }']],
        '"state | “state” belongs to a seal and can’t be seen from a position. Gather it with a fact that has “at: position” and “over: seal”.',
      ],
      [
        'a place below on a value around it',
        [['- { id: front, label: front }', '- { id: front, label: front, when: runs }']],
      ],
      [
        'an event on a condition that is never true',
        [['mark: It was dropped,', 'mark: It was dropped, when: bore > 400.0,']],
        'bore | The branch “dropped” can never be raised: its condition is never true. Change the condition or take the part out.',
      ],
      [
        'an event on what is no condition',
        [['mark: It was dropped,', 'mark: It was dropped, when: bore,']],
        "bore | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
      ],
      [
        'an event at no kind of place',
        [['{ id: dropped, at: position', '{ id: dropped, at: bearing']],
        'bearing | There is no kind of place “bearing”. Known are: job, position, seal.',
      ],
      [
        'an event found by a word of its title, and by the same word twice',
        [['mark: It was dropped,', 'mark: It was dropped, words: [drop, fell, fell],']],
        'drop | “drop” is found by the title “Dropped” already. Take it out.',
        'fell | “fell” stands among these words already. Take it out.',
      ],
      [
        'an event that changes nothing',
        [
          ['mark: It was dropped, reopens: [measure]', 'mark: It was dropped'],
          ['when: "grease == \'good\' || event_dropped"', 'when: "grease == \'good\'"'],
        ],
        'dropped | Raising “dropped” changes nothing: it reopens no step, and nothing reads that it happened or what was answered. Add “reopens:”, or let something read event_dropped.',
      ],
      [
        'a value beside',
        [shaft, ahead(step('look', 'at: shaft\n    when: runs'))],
        'runs | “runs” belongs to a position and can’t be seen from a shaft. Use a value of this place or of one around it.',
      ],
      [
        'the same phase, event, kind of place and place twice',
        [
          ['  - { id: work, title: Work }', '  - { id: work, title: Work }\n  - { id: work, title: Work }'],
          branch('id: dropped, at: position, title: D, mark: M, reopens: [measure]'),
          ['- { id: b, label: Right }', '- { id: a, label: Right }'],
          ['phases:\n', '  - { id: seal, name: Shaft, instances: [ { id: s, label: S } ] }\nphases:\n'],
        ],
        'a | The place “a” stands here a second time. Give it a name of its own.',
        'seal | The kind of place “seal” stands here a second time. Give it a name of its own.',
        'work | The phase “work” stands here a second time. Give it a name of its own.',
        'dropped | The branch “dropped” stands here a second time. Give it a name of its own.',
      ],
      [
        'kinds of place in a circle',
        [['phases:\n', '  - { id: position, within: seal, name: P, instances: [ { id: s, label: S } ] }\nphases:\n']],
        'position | The kind of place “position” stands here a second time. Give it a name of its own.',
      ],
      [
        'a kind of place called job',
        [shaft].map(([find, replace]): Change => [find, replace.replace('id: shaft', 'id: job')]),
        'job | The kind of place “job” stands here a second time. Give it a name of its own.',
      ],
    ]);
  });

  describe('a key that is made already', () => {
    const log = ahead(
      step(
        'warm',
        'at: position\n    repeat: { until: event_dropped, most: 9 }\n    ask: [ { key: heat, kind: number, label: Heat, limits: [0, 9] } ]',
      ),
    );
    const made = (key: string, by: string): Row => [
      key,
      [log, ['key: name_a, kind: text', `key: ${key}, kind: text`], ['label_from: name_a', `label_from: ${key}`]],
      `${key} | The key “${key}” is made by ${by} already. Give it a name of its own.`,
    ];
    rows([
      made('rows_warm', 'the log “warm”'),
      made('elapsed_warm', 'the log “warm”'),
      made('all_heat', 'the log “warm”'),
      made('rows_warm_at_dropped', 'the branch “dropped”'),
      made('again_measure', 'the step “measure”'),
      made('again_drop', 'the step “drop”'),
      made('which_job', 'the job'),
      made('which_seal', 'the kind of place “seal”'),
    ]);
  });

  describe('a condition', () => {
    const must = (text: string): Change => ['must: bore > 10.0', `must: "${text}"`];
    rows([
      [
        'that reads a table by a name that is worked out',
        [must("number_in(series, 'small', 'width') > 1.0")],
        'series | The table of number_in() has to be written out. Write its name in single quotes.',
      ],
      [
        'that reads a column of a table that is nowhere near',
        [must("number_in('sizes', series, 'colour') > 1.0")],
        "'colour | The table “sizes” has no column “colour”. Its columns are: id, width, tag, source.",
      ],
      [
        'that reads no table that is near',
        [must("text_in('greases', series, 'width') == 'a'")],
        "'greases | There is no table “greases”. Known are: sizes.",
      ],
      ['of 2000 signs', [must(`bore > 10.0${' '.repeat(1989)}`)]],
      [
        'of 2001 signs',
        [must(`bore > 10.0${' '.repeat(1990)}`)],
        '"bore | The condition is too long. Break it up into facts.',
      ],
      [
        'of a word that can never be, in a list that is searched',
        [must("['small', 'huge'].exists(x, x == series) && series in ['small', 'tiny']")],
        "'tiny | “series” can never be “tiny”. It can be: small, large.",
      ],
      [
        'in a fact, of another type',
        [fact('key: wide, at: job, label: Wide, type: bool, is: "true", when: speed')],
        "speed | This gives a number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
      ],
      [
        'that compares yes or no with a word',
        [must("runs == 'perhaps'")],
        '"runs | “==” can’t compare yes or no with a word. Compare like with like: words in single quotes, yes-no values on their own or after !.',
      ],
      [
        'that gives a whole number to a function',
        [must('max(bore, 1) > 10.0')],
        '"max | “max” was given what it can’t use. It is used as max(number, number); write numbers with a point.',
      ],
      [
        'that is a whole number',
        [must('1')],
        "\"1 | This gives a whole number, but yes or no is needed here. Compare it with something, such as x > 1.0 or x == 'value'.",
      ],
      [
        'of a figure that can never be below nought',
        [must('bore < -1.0')],
        '"bore | The gate “wide-enough” can never open: what it asks for is never true. Change the condition or take the part out.',
      ],
      [
        'of two figures that are compared with each other, of which nothing is known',
        [
          ask('key: wide, kind: quantity, quantity: length, unit: mm, label: Wide, limits: [3, 300]'),
          must('bore == wide && bore > 100.0 && bore < 200.0'),
        ],
      ],
      [
        'of a figure that is worked with as well as compared, of which nothing is known',
        [must('bore > 400.0 || (bore * 2.0 > 100.0 && bore * 2.0 < 101.0)')],
      ],
      [
        'of one of several lengths, out of their limits',
        [
          ask('key: lid, kind: dimensions, parts: [lid_a, lid_b], unit: mm, label: Lid, limits: [1, 9]'),
          must('lid_a > 9.5'),
        ],
        '"lid_a | The gate “wide-enough” can never open: what it asks for is never true. Change the condition or take the part out.',
      ],
      [
        'of a count that has no limits',
        [ask('key: turns, kind: counter, to: "5.0", unit: turns, label: T'), must('turns > 9.5')],
      ],
      [
        'on what is asked later, in a log too',
        [
          ['title: Measure', 'title: Measure\n    repeat: { until: event_dropped, most: 9 }'],
          ask('key: lid, kind: yes-no, label: Lid, when: later > 5.0'),
          atFill('ask: [ { key: later, kind: number, label: L, limits: [0, 9] } ]'),
        ],
        'later | The condition of “lid” hangs on “later”, asked only after it. Ask that first.',
      ],
      [
        'on what is asked after it in the same step',
        [ask('key: lid, kind: yes-no, label: Lid, when: bore > 10.0')],
        'bore | The condition of “lid” hangs on “bore”, asked only after it. Ask that first.',
      ],
      [
        'on what was asked before it in the same step',
        [
          [
            'kind: yes-no, label: It runs, otherwise: true',
            'kind: yes-no, label: It runs, otherwise: true, when: bore > 10.0',
          ],
        ],
      ],
    ]);
  });
  describe('a question that names values in its words', () => {
    rows([
      [
        'which are not there',
        [ask('key: more, kind: yes-no, label: "More than {dosee}", help: "As in {grase}."')],
        'dosee | There is no value “dosee”. Did you mean “dose”?',
        'grase | There is no value “grase”. Did you mean “grease”?',
      ],
    ]);
  });
}
