/** What is refused, each in its sentence; and at the limit of it what is recorded. On the invented pump. */
import { describe, expect, it } from 'vitest';
import type { Action } from '../../src/engine/actions/propose.js';
import { alikeAt } from '../../src/engine/actions/propose.js';
import { Bench, built, finished, measured, modelFrom, prepared, pumpText, readyToFill } from './pump.js';

const screwed = (): Bench => {
  const bench = readyToFill();
  for (const h of ['a', 'b']) bench.done('fill', h).answer('screws', h, { screws: 4 });
  return bench;
};
const worn = (): Bench =>
  built()
    .correct('valve-look', 'a.inlet', 'seat', 'worn')
    .answer('valve-look', 'a.inlet', { wear: '2' })
    .done('lap', 'a.inlet');
const logging = (bench = new Bench()): Bench =>
  built(bench)
    .answer('witness', 'job', { looks: 'yes' })
    .do({ do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' });
const one = (): Bench => prepared(new Bench(), 'one');
const overrule = { do: 'overrule', reason: 'no spare', initials: 'AP' } as const;
const fresh = (): Bench => new Bench();

describe('refused', () => {
  it.each<[string, () => Bench, Action, string]>([
    ['nothing done yet', fresh, { do: 'undo' }, 'There is nothing left to undo; correct an earlier reading instead.'],
    [
      'another person since',
      () => fresh().answer('start', 'job', { heads: 'one' }).do({ do: 'operator', initials: 'QQ' }),
      { do: 'undo' },
      'There is nothing left to undo; correct an earlier reading instead.',
    ],
    [
      'another procedure since',
      () =>
        fresh().answer('start', 'job', { heads: 'one' }).add({ kind: 'procedure', version: '2', hash: 'h', by: 'AP' }),
      { do: 'undo' },
      'There is nothing left to undo; correct an earlier reading instead.',
    ],
    ['the same pace', fresh, { do: 'pace', pace: 'learning' }, 'The pace is learning already.'],
    ['no note', fresh, { do: 'note', place: 'job', text: ' ' }, 'The note is empty; write a word or leave with Esc.'],
    [
      'a long handover',
      fresh,
      { do: 'handover', text: 'x'.repeat(2001) },
      'The note is too long; shorten it to 2000 characters.',
    ],
    ['no name', fresh, { do: 'name', of: 'AP', name: ' ' }, 'The name is empty; type it or leave with Esc.'],
    [
      'a long name',
      fresh,
      { do: 'name', of: 'AP', name: 'x'.repeat(121) },
      'The name is too long; shorten it to 120 characters.',
    ],
    [
      'strange initials',
      fresh,
      { do: 'operator', initials: '1' },
      'Initials are one to eight Latin letters or digits, a letter first, such as AP.',
    ],
    [
      'a picture of no step',
      fresh,
      { do: 'picture', step: 'boor', place: 'a', file: 'f', sha256: 's', bytes: 1, name: 'n' },
      'There is no step “boor” in this procedure; did you mean “bore”?',
    ],
    [
      'an unknown branch',
      fresh,
      { do: 'raise', branch: 'ring-droped', place: 'a' },
      'There is no branch “ring-droped” in this procedure; did you mean “ring-dropped”?',
    ],
    [
      'a branch of a head for the job',
      fresh,
      { do: 'raise', branch: 'ring-dropped', place: 'job' },
      '“A ring fell” is recorded at a head; name which one.',
    ],
    [
      'a branch where nothing is',
      one,
      { do: 'raise', branch: 'ring-dropped', place: 'b' },
      'Right head takes no part in this job; nothing can be recorded there.',
    ],
    [
      'a step elsewhere',
      screwed,
      { do: 'done', step: 'glue', place: 'job' },
      'Step “glue” is done at a or b, not at “job”.',
    ],
    [
      'a step of a branch that was not raised',
      fresh,
      { do: 'done', step: 'pick-up', place: 'a' },
      'Step “pick-up” is not part of this job.',
    ],
    [
      'settling what has not changed',
      screwed,
      { do: 'settle', step: 'fill', place: 'a', reason: 'x' },
      'Nothing under “Fill with oil” has changed; there is nothing to settle.',
    ],
    [
      'a gate while it waits',
      () => screwed().done('glue', 'a'),
      { ...overrule, step: 'glue', place: 'a', gate: 'other' },
      '“Glue the badge” at Left head is waiting: glue setting, 30 min left.',
    ],
    [
      'not to wait where nothing waits',
      screwed,
      { ...overrule, step: 'glue', place: 'a', gate: 'wait' },
      'No gate “wait” is holding “Glue the badge”.',
    ],
    [
      'a step that is done',
      () => measured(one(), 'a'),
      { do: 'done', step: 'bore', place: 'a' },
      '“Measure the cylinder” at Left head is done already; correct a reading instead, with a reason.',
    ],
    [
      'a step of the job that is done',
      one,
      { do: 'done', step: 'pressure', place: 'job' },
      '“Let the pressure off” is done already; correct a reading instead, with a reason.',
    ],
    [
      'a step that is not needed',
      () => measured(one(), 'a'),
      { do: 'done', step: 'lap', place: 'a.inlet' },
      '“Lap the seat” at Left head, inlet valve does not apply to this job as it stands.',
    ],
    [
      'an answer before the gate',
      worn,
      { do: 'answer', step: 'witness', place: 'job', key: 'looks', text: 'yes' },
      'A worn seat is too deep.',
    ],
    ['a caution before the gate', worn, { do: 'caution', step: 'witness', place: 'job' }, 'A worn seat is too deep.'],
    [
      'a signature before the gate',
      worn,
      { do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' },
      'A worn seat is too deep.',
    ],
    [
      'done before the answer',
      () => one().answer('outlet-there', 'a', { has_outlet: 'no' }),
      { do: 'done', step: 'bore', place: 'a' },
      '“Measure the cylinder” still asks something: Bore.',
    ],
    [
      'done before the signature',
      () => built().answer('witness', 'job', { looks: 'yes' }),
      { do: 'done', step: 'witness', place: 'job' },
      '“Second pair of eyes” still asks something: sign.',
    ],
    [
      'a signature before the answer',
      built,
      { do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' },
      '“Second pair of eyes” is not ready to be signed.',
    ],
    [
      'to refuse it before the answer',
      built,
      { do: 'refuse', step: 'witness', place: 'job', initials: 'ZZ', reason: 'too dark' },
      '“Second pair of eyes” is not ready to be signed, so nothing is refused.',
    ],
    [
      'to refuse it in two letters',
      () => built().answer('witness', 'job', { looks: 'yes' }),
      { do: 'refuse', step: 'witness', place: 'job', initials: 'ZZ', reason: ' no ' },
      'Say in a word or two what is not right yet, for the record.',
    ],
    [
      'to refuse it by nobody',
      () => built().answer('witness', 'job', { looks: 'yes' }),
      { do: 'refuse', step: 'witness', place: 'job', initials: '1', reason: 'too dark' },
      'Initials are one to eight Latin letters or digits, a letter first, such as AP.',
    ],
    [
      'a reason of two letters',
      worn,
      { ...overrule, reason: ' no ', step: 'witness', place: 'job', gate: 'seats-good' },
      'An overrule needs its reason in words; type it, then your initials.',
    ],
    [
      'to correct what was not read',
      () => one().answer('outlet-there', 'a', { has_outlet: 'no' }).answer('bore', 'a', { bore: '40' }),
      { do: 'correct', step: 'bore', place: 'a', key: 'stroke', text: '50', reason: 'read wrongly' },
      '“Stroke” has no reading yet; answer it instead of correcting it.',
    ],
    [
      'to correct an entry that is none of its',
      () => measured(one(), 'a'),
      { do: 'correct', step: 'bore', place: 'a', key: 'bore', of: 2, text: '50', reason: 'read wrongly' },
      '“Bore” has no reading yet; answer it instead of correcting it.',
    ],
    [
      'to correct it for two letters',
      () => measured(one(), 'a'),
      { do: 'correct', step: 'bore', place: 'a', key: 'bore', text: '50', reason: ' no ' },
      'A correction needs its reason in words, for the record.',
    ],
    [
      'an answer to a step that asks nothing',
      readyToFill,
      { do: 'answer', step: 'fill', place: 'a', key: 'oil', text: 'thin' },
      'Step “fill” asks nothing, so “oil” has no place in it.',
    ],
    [
      'an answer under a name far too long',
      () => one().answer('outlet-there', 'a', { has_outlet: 'no' }),
      { do: 'answer', step: 'bore', place: 'a', key: `bor${'e'.repeat(70)}`, text: '40' },
      `Step “bore” asks no “bor${'e'.repeat(57)}”; did you mean “bore”?`,
    ],
    [
      'the same to a step that asks nothing',
      readyToFill,
      { do: 'answer', step: 'fill', place: 'a', key: 'o'.repeat(70), text: 'thin' },
      `Step “fill” asks nothing, so “${'o'.repeat(60)}” has no place in it.`,
    ],
    [
      'to expect something under such a name',
      screwed,
      { do: 'predict', step: 'glue', place: 'a', key: 'o'.repeat(70), text: '30' },
      `Nothing is to be predicted for “${'o'.repeat(60)}” here.`,
    ],
    [
      'to overrule a gate of such a name',
      screwed,
      { ...overrule, step: 'glue', place: 'a', gate: 'g'.repeat(70) },
      `No gate “${'g'.repeat(60)}” is holding “Glue the badge”.`,
    ],
    [
      'a figure twice in a row of a log',
      () => logging().answer('run', 'job', { leak: '2' }),
      { do: 'answer', step: 'run', place: 'job', key: 'leak', text: '3' },
      '“Leak” is answered already; correct it instead, with a reason.',
    ],
    [
      'the same in a later row',
      () => logging().answer('run', 'job', { leak: '2', noise: 'no' }).answer('run', 'job', { leak: '1' }),
      { do: 'answer', step: 'run', place: 'job', key: 'leak', text: '3' },
      '“Leak” is answered already; correct it instead, with a reason.',
    ],
    [
      'to expect where nothing is expected',
      screwed,
      { do: 'predict', step: 'glue', place: 'a', key: 'oil_due', text: '30' },
      'Nothing is to be predicted for “oil_due” here.',
    ],
    [
      'what is looked at anew at each place',
      () => measured(prepared(), 'a'),
      { do: 'alike', step: 'outlet-there', place: 'b', as: 'a' },
      '“Outlet valve” is looked at anew at each place; answer it here.',
    ],
  ])('%s', (_, bench, action, sentence) => {
    expect(bench().try(action)).toBe(sentence);
  });
});

describe('recorded', () => {
  const last = (bench: Bench, action: Action) => bench.do(action).entries.at(-1);
  it('up to the limit, tidied', () => {
    const long = 'x'.repeat(2000);
    expect(last(fresh(), { do: 'note', place: 'a', text: ` ${long} ` })).toMatchObject({ place: 'a', text: long });
    expect(last(fresh(), { do: 'name', of: 'AP', name: ` Ann \t Poe ` })).toMatchObject({ of: 'AP', name: 'Ann Poe' });
    expect(last(fresh(), { do: 'name', of: 'AP', name: 'x'.repeat(120) })).toMatchObject({ name: 'x'.repeat(120) });
    expect(last(fresh(), { do: 'operator', initials: ' QQ ' })).toMatchObject({ initials: 'QQ', by: 'QQ' });
    const picture = { do: 'picture', step: 'bore', place: 'a', file: 'f', sha256: 's', bytes: 1 } as const;
    const named = last(fresh(), { ...picture, name: 'n'.repeat(201), shows: ` ${'s'.repeat(121)}` });
    expect(named).toMatchObject({ kind: 'picture', name: 'n'.repeat(200), shows: 's'.repeat(120), place: 'a' });
    expect(last(fresh(), { ...picture, name: 'n', shows: ' ' })).not.toHaveProperty('shows');
    const filled = readyToFill().done('fill', 'a').correct('bore', 'a', 'bore', '36');
    const settled = last(filled, { do: 'settle', step: 'fill', place: 'a', reason: ' took 6 mL out ' });
    expect(settled).toMatchObject({ reason: 'took 6 mL out', figures: { oil_due: expect.closeTo(25.4469, 4) } });
    const passed = last(worn(), { ...overrule, reason: ' yes ', step: 'witness', place: 'job', gate: 'seats-good' });
    expect(passed).toMatchObject({ reason: 'yes', initials: 'AP' });
    const looked = built().answer('witness', 'job', { looks: 'yes' });
    const refused = { do: 'refuse', step: 'witness', place: 'job', initials: 'ZZ', reason: ' wet ' } as const;
    expect(last(looked, refused)).toMatchObject({ kind: 'refuse', reason: 'wet', initials: 'ZZ' });
    expect(looked.state.view('witness', 'job')?.wants).toBe('sign');
    expect(last(looked, { ...refused, reason: 'w'.repeat(2001) })).toMatchObject({ reason: 'w'.repeat(2000) });
    expect(last(measured(one(), 'a'), { do: 'raise', branch: 'ring-dropped', place: 'a.inlet' })).toMatchObject({
      place: 'a',
    });
  });

  it('a correction of any row of a log, by its entry or by the first of it', () => {
    const bench = finished();
    const first = bench.entries.find((e) => e.kind === 'answer' && e.key === 'leak')!.seq;
    const again = { do: 'correct', step: 'run', place: 'job', key: 'leak', reason: 'wet' } as const;
    expect(last(bench, { ...again, of: first, text: '3' })).toMatchObject({ of: first, value: 3, reason: 'wet' });
    expect(last(bench, { ...again, of: first, text: '3', reason: ' so wet ' })).toMatchObject({ reason: 'so wet' });
    const second = bench.entries.at(-1)!.seq;
    expect(last(bench, { ...again, of: second, text: '4' })).toMatchObject({ of: second });
    expect(last(bench, { ...again, of: first, text: '5' })).toMatchObject({ of: bench.entries.at(-2)!.seq });
    expect(bench.value('all_leak', 'job')).toEqual([5, 1, 0.5]);
  });
});

it('a log takes no more rows than it has, unless its rows are whole and a gate holds them', () => {
  const gate =
    '    gates: [ { id: dry, must: last(all_leak) < 0.6, say: It still leaks., overrule: never } ]\n    mark: Ran';
  const model = modelFrom(pumpText.replace('most: 50', 'most: 3').replace('    mark: Ran', gate));
  const ran = (...leaks: string[]): Bench => {
    const bench = logging(new Bench(model));
    for (const leak of leaks) bench.answer('run', 'job', { leak, noise: 'no' });
    return bench;
  };
  const more = { do: 'answer', step: 'run', place: 'job', key: 'leak', text: '0.5' } as const;
  expect(ran('2', '1', '1').try(more)).toBe('“Run and log” has its 3 rows and is not complete; stop and find out why.');
  const held = ran('2', '1', '0.8');
  expect([held.status('run', 'job'), held.try(more)]).toEqual(['stopped', undefined]);
});

it('there is no branch where the procedure has none', () => {
  const text = pumpText.slice(0, pumpText.indexOf('branches:')).replace(/ {2}- id: pick-up[\s\S]*?(?=facts:)/, '');
  const model = modelFrom(text.replace('any: event_ring_dropped', 'any: has_outlet'));
  const bench = new Bench(model);
  expect(bench.try({ do: 'raise', branch: 'x'.repeat(70), place: 'a' })).toBe(
    `There is no branch “${'x'.repeat(60)}” in this procedure.`,
  );
  expect(bench.state.branches('a')).toEqual([]);
});

it('a branch is raised only where its condition may hold', () => {
  const model = modelFrom(pumpText.replace('title: A ring fell,', 'title: A ring fell, when: has_outlet,'));
  const raise = { do: 'raise', branch: 'ring-dropped', place: 'a' } as const;
  const offered = (b: Bench, place: string) => b.state.branches(place).map((x) => x.id);
  const open = prepared(new Bench(model), 'one');
  expect([offered(open, 'a'), offered(open, 'job'), offered(open, 'b')]).toEqual([['ring-dropped'], [], []]);
  const without = prepared(new Bench(model), 'one').answer('outlet-there', 'a', { has_outlet: 'no' });
  expect(without.try(raise)).toBe('“A ring fell” can’t happen here as the answers stand.');
  expect(offered(without, 'a')).toEqual([]);
  expect(open.answer('outlet-there', 'a', { has_outlet: 'yes' }).try(raise)).toBeUndefined();
});

describe('signed', () => {
  const looked = (): Bench => {
    const bench = new Bench(undefined, { apprentice: 'AP', mentor: 'MN' });
    readyToFill(bench);
    for (const h of ['a', 'b']) {
      bench.do({ do: 'predict', step: 'fill', place: h, key: 'oil_due', text: '30' });
      bench.done('fill', h).answer('screws', h, { screws: 4 });
    }
    for (const h of ['a', 'b']) bench.done('glue', h).done('polish', h);
    bench.wait(31);
    for (const h of ['a', 'b']) bench.answer('badge', h, { letters: 'x,y' });
    return bench.answer('witness', 'job', { looks: 'yes' });
  };
  const sign = { do: 'sign', step: 'witness', place: 'job' } as const;

  it('by the mentor who was named, with what was found', () => {
    expect(
      looked()
        .do({ ...sign, initials: 'MN', own: ` ${'o'.repeat(130)}` })
        .entries.at(-1),
    ).toMatchObject({
      role: 'mentor',
      initials: 'MN',
      own: 'o'.repeat(120),
    });
    expect(
      looked()
        .do({ ...sign, initials: 'MN', own: ' ' })
        .entries.at(-1),
    ).not.toHaveProperty('own');
  });

  it('not by one who did the work, nor refused by that one', () => {
    const bench = looked();
    const refuse = { do: 'refuse', step: 'witness', place: 'job', reason: 'too dark' } as const;
    expect(bench.try({ ...sign, initials: 'ap' })).toBe('ap did the work; another person, the mentor, signs here.');
    expect(bench.try({ ...refuse, initials: 'ap' })).toBe('ap did the work; another person, the mentor, refuses here.');
    expect(bench.try({ ...sign, initials: '1' })).toMatch(/^Initials are/);
    expect(bench.try({ ...refuse, initials: 'QQ' })).toBeUndefined();
  });
});

describe('the same at another place', () => {
  const model = modelFrom(
    pumpText
      .replace('    title: Outlet valve', '    alike: true\n    title: Outlet valve')
      .replace('    title: Measure the cylinder', '    alike: true\n    title: Measure the cylinder')
      .replace('instances:\n      - { id: a,', 'instances:\n      - { id: c, label: Third head }\n      - { id: a,'),
  );
  const at = (bench: Bench, place: string) => alikeAt(bench.state, bench.state.view('outlet-there', place)!);

  it('is offered from the latest, and taken over by one key', () => {
    const bench = prepared(new Bench(model));
    expect(at(bench, 'b')).toBeUndefined();
    bench.answer('outlet-there', 'c', { has_outlet: 'yes' }).answer('outlet-there', 'a', { has_outlet: 'no' });
    expect([at(bench, 'b'), at(bench, 'a')]).toEqual(['a', undefined]);
    const [plain, stopped] = [bench.state.view('outlet-there', 'b')!, { wants: 'gate' } as const];
    expect(alikeAt(bench.state, { ...plain, ...stopped })).toBeUndefined();
    expect(alikeAt(bench.state, { ...plain, step: { ...plain.step, alike: false } })).toBeUndefined();
    const alike = { do: 'alike', step: 'outlet-there', place: 'b' } as const;
    expect(bench.try({ ...alike, as: 'b' })).toBe('“Outlet valve” is not done at b; answer it here.');
    bench.do({ ...alike, as: 'a' });
    expect(bench.value('has_outlet', 'b')).toBe(false);
    expect(bench.try({ ...alike, as: 'a' })).toBe(
      '“Outlet valve” at Right head is done already; correct a reading instead, with a reason.',
    );
  });

  it('is offered and taken over from where it still waits, and from no place that there is not', () => {
    const text = pumpText.replace(
      '    title: Outlet valve',
      '    alike: true\n    wait: { minutes: "30.0", label: drying }\n    title: Outlet valve',
    );
    const bench = prepared(new Bench(modelFrom(text))).answer('outlet-there', 'a', { has_outlet: 'yes' });
    expect([bench.status('outlet-there', 'a'), at(bench, 'b')]).toEqual(['waiting', 'a']);
    const alike = { do: 'alike', step: 'outlet-there', place: 'b' } as const;
    expect(bench.try({ ...alike, as: 'x'.repeat(70) })).toBe(
      `“Outlet valve” is not done at ${'x'.repeat(60)}; answer it here.`,
    );
    expect(bench.do({ ...alike, as: 'a' }).value('has_outlet', 'b')).toBe(true);
  });

  it('is not offered once something was answered here', () => {
    const bench = prepared(new Bench(model));
    measured(bench, 'a').answer('outlet-there', 'b', { has_outlet: 'no' });
    const bore = () => alikeAt(bench.state, bench.state.view('bore', 'b')!);
    expect(bore()).toBe('a');
    bench.answer('bore', 'b', { bore: '30' });
    expect(bore()).toBeUndefined();
    // What is taken over then begins with the question that is next.
    bench.do({ do: 'alike', step: 'bore', place: 'b', as: 'a' });
    expect([bench.value('bore', 'b'), bench.value('stroke', 'b'), bench.value('lid', 'b')]).toEqual([30, 50, [80, 60]]);
    expect(bench.entries.slice(-2).map((e) => e.joined)).toEqual([undefined, true]);
  });
});
