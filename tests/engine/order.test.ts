/** Order, lanes, gates, holds, waits, groups: what may be done when. */
import { describe, expect, it } from 'vitest';
import { Bench, built, finished, measured, modelFrom, prepared, pumpText, readyToFill } from './pump.js';

describe('order', () => {
  it('offers the first step alone at the beginning', () => {
    const { state } = new Bench();
    expect(state.available().map((v) => v.step.id)).toEqual(['start']);
    expect(state.finished).toBe(false);
  });

  it('refuses a later step and says what comes first', () => {
    const bench = new Bench();
    expect(bench.try({ do: 'answer', step: 'bore', place: 'a', key: 'bore', text: '40' })).toMatch(
      /“Measure the cylinder” at Left head is not next: “.*” comes first/,
    );
  });

  it('lets the two heads go on independently', () => {
    const bench = measured(prepared(), 'a');
    expect(bench.status('outlet-there', 'b')).toBe('open');
    expect(bench.status('decide', 'a')).toBe('done');
    expect(bench.status('oil-kind', 'job')).toBe('later');
    measured(bench, 'b');
    expect(bench.status('oil-kind', 'job')).toBe('open');
  });

  it('a step of a head waits for the valves of that head only', () => {
    const bench = prepared();
    bench.answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' });
    expect(bench.status('decide', 'a')).toBe('later');
    bench.answer('valve-look', 'a.inlet', { seat: 'good' });
    expect(bench.status('decide', 'a')).toBe('open');
  });

  it('finishes', () => {
    const bench = finished();
    expect(bench.state.finished).toBe(true);
    expect(bench.state.progress.done).toBe(bench.state.progress.total);
    expect(bench.state.available()).toEqual([]);
  });

  it('not_after lets a step go on while an earlier one waits', () => {
    const bench = readyToFill();
    for (const h of ['a', 'b']) bench.done('fill', h).answer('screws', h, { screws: 4 });
    bench.done('glue', 'a');
    expect(bench.status('glue', 'a')).toBe('waiting');
    expect(bench.status('polish', 'a')).toBe('open');
    expect(bench.status('badge', 'a')).toBe('later');
    expect(bench.status('glue', 'b')).toBe('open');
  });

  it('puts the current place first among what can be done', () => {
    const bench = prepared();
    expect(bench.state.available('b').map((v) => v.place)).toEqual(['b', 'a']);
    expect(bench.state.available('a').map((v) => v.place)).toEqual(['a', 'b']);
  });
});

describe('steps that come and go', () => {
  it('does not need what does not apply', () => {
    const bench = measured(prepared(), 'a');
    expect(bench.status('lap', 'a.inlet')).toBe('not-needed');
  });

  it('waits with a step whose condition is not known yet', () => {
    const bench = prepared();
    bench.answer('outlet-there', 'a', { has_outlet: 'no' });
    expect(bench.status('lap', 'a.inlet')).toBe('hidden');
    expect(bench.try({ do: 'done', step: 'lap', place: 'a.inlet' })).toMatch(/is not next/);
  });

  it('leaves out a place that takes no part', () => {
    const bench = measured(prepared(new Bench(), 'one'), 'a');
    expect(bench.state.views.filter((v) => v.place === 'b').every((v) => v.status === 'not-needed')).toBe(true);
    expect(bench.status('oil-kind', 'job')).toBe('open');
    expect(bench.try({ do: 'answer', step: 'bore', place: 'b', key: 'bore', text: '40' })).toMatch(/does not apply/);
  });

  it('brings a place back when the answer is corrected', () => {
    const bench = measured(prepared(new Bench(), 'one'), 'a').correct('start', 'job', 'heads', 'two');
    expect(bench.status('outlet-there', 'b')).toBe('open');
    expect(bench.status('oil-kind', 'job')).toBe('later');
  });
});

describe('gates', () => {
  it('holds a step that is not allowed to end, tells the value, takes a new answer', () => {
    const bench = new Bench().answer('start', 'job', { heads: 'one', name_a: '' });
    bench.do({ do: 'caution', step: 'pressure', place: 'job' }).answer('pressure', 'job', { gauge: 12 });
    expect(bench.status('pressure', 'job')).toBe('stopped');
    const overrule = {
      do: 'overrule',
      step: 'pressure',
      place: 'job',
      gate: 'no-pressure',
      reason: 'in a hurry',
      initials: 'AP',
    } as const;
    expect(bench.try(overrule)).toBe('The gauge shows 12. Bleed on. This can’t be overruled.');
    bench.answer('pressure', 'job', { gauge: 0 });
    // Hazardous: the answer alone does not end it.
    expect(bench.state.view('pressure', 'job')?.wants).toBe('confirm');
    bench.done('pressure', 'job');
    expect(bench.status('pressure', 'job')).toBe('done');
  });

  it('an overrule that stands in a journal against the procedure opens nothing', () => {
    const bench = new Bench().answer('start', 'job', { heads: 'one', name_a: '' });
    bench.do({ do: 'caution', step: 'pressure', place: 'job' }).answer('pressure', 'job', { gauge: 12 });
    const at = { step: 'pressure', place: 'job', by: 'AP' };
    bench.add({ kind: 'overrule', gate: 'no-pressure', reason: 'slipped in', initials: 'AP', ...at });
    expect(bench.status('pressure', 'job')).toBe('stopped');
  });

  it('holds only while its condition does not say otherwise', () => {
    const only = modelFrom(pumpText.replace('id: no-pressure, must', `id: no-pressure, when: "heads == 'two'", must`));
    for (const [heads, status] of [
      ['one', 'open'],
      ['two', 'stopped'],
    ]) {
      const bench = new Bench(only).answer('start', 'job', { heads, name_a: '' });
      bench.do({ do: 'caution', step: 'pressure', place: 'job' }).answer('pressure', 'job', { gauge: 12 });
      expect(bench.status('pressure', 'job')).toBe(status);
    }
  });

  it('stops again when the reading is corrected afterwards', () => {
    const bench = prepared().correct('pressure', 'job', 'gauge', 5);
    expect(bench.status('pressure', 'job')).toBe('stopped');
    expect(bench.status('outlet-there', 'a')).toBe('later');
  });

  it('the caution comes before the question', () => {
    const bench = new Bench().answer('start', 'job', { heads: 'one', name_a: '' });
    expect(bench.try({ do: 'answer', step: 'pressure', place: 'job', key: 'gauge', text: 0 })).toMatch(/caution/);
  });

  const wide = () => {
    const bench = prepared(new Bench(), 'one');
    bench.answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '60', stroke: '50', lid: '80x60' });
    bench.answer('valve-look', 'a.inlet', { seat: 'good' });
    return bench.answer('decide', 'a', { keep: 'keep' });
  };
  const pass = { do: 'overrule', step: 'decide', place: 'a', gate: 'too-wide', initials: 'AP' } as const;

  it('is overruled with a reason and initials only', () => {
    const bench = wide();
    expect(bench.status('decide', 'a')).toBe('stopped');
    expect(bench.try({ ...pass, reason: ' ' })).toMatch(/reason in words/);
    expect(bench.try({ ...pass, reason: 'no spare', initials: '1' })).toMatch(/Initials/);
    expect(bench.try({ ...pass, gate: 'other', reason: 'no spare' })).toMatch(/No gate “other”/);
    bench.do({ ...pass, reason: 'no spare' });
    expect(bench.status('decide', 'a')).toBe('done');
    expect(bench.state.view('decide', 'a')?.overruled).toHaveLength(1);
  });

  it('the overrule falls when the readings change, and holds when others do', () => {
    const bench = wide().do({ ...pass, reason: 'no spare' });
    bench.correct('bore', 'a', 'lid', '90x60');
    expect(bench.status('decide', 'a')).toBe('done');
    bench.correct('bore', 'a', 'bore', '65');
    expect(bench.state.board.own(bench.model.steps.get('decide')!, 'a').gates.map((g) => g.gate.id)).toEqual([
      'too-wide',
    ]);
  });

  it('an overrule of an unknown value falls when the value comes', () => {
    const bench = built();
    // The seat was never judged deep: the gate is open, so there is nothing to overrule.
    expect(
      bench.try({
        do: 'overrule',
        step: 'witness',
        place: 'job',
        gate: 'seats-good',
        reason: 'why not',
        initials: 'AP',
      }),
    ).toMatch(/No gate/);
    bench.correct('valve-look', 'a.inlet', 'seat', 'worn');
    // The seat is worn now, but how deep is open: lapping and depth come first.
    expect(bench.status('witness', 'job')).not.toBe('done');
  });

  it('an enter gate holds before anything is asked', () => {
    const bench = built();
    bench.correct('valve-look', 'a.inlet', 'seat', 'worn').answer('valve-look', 'a.inlet', { wear: '2' });
    bench.done('lap', 'a.inlet');
    expect(bench.status('witness', 'job')).toBe('stopped');
    expect(bench.state.view('witness', 'job')?.wants).toBe('gate');
    expect(bench.try({ do: 'done', step: 'witness', place: 'job' })).toMatch(/A worn seat is too deep/);
    bench.do({
      do: 'overrule',
      step: 'witness',
      place: 'job',
      gate: 'seats-good',
      reason: 'spare ordered',
      initials: 'AP',
    });
    expect(bench.state.view('witness', 'job')?.wants).toBe('question');
  });
});

describe('hold points', () => {
  it('wants a signature, and takes a self-check where there is no mentor', () => {
    const bench = built().answer('witness', 'job', { looks: 'yes' });
    expect(bench.state.view('witness', 'job')?.wants).toBe('sign');
    expect(bench.status('run', 'job')).toBe('later');
    bench.do({ do: 'sign', step: 'witness', place: 'job', initials: 'AP' });
    expect(bench.state.view('witness', 'job')?.signed?.role).toBe('self');
    expect(bench.status('run', 'job')).toBe('open');
  });

  it('the apprentice can’t sign as mentor, in whatever letters', () => {
    const bench = new Bench(undefined, { apprentice: 'AP', mentor: 'MN' });
    const predicted = (b: Bench) => {
      readyToFill(b);
      for (const head of ['a', 'b']) {
        b.do({ do: 'predict', step: 'fill', place: head, key: 'oil_due', text: '30' });
        b.done('fill', head).answer('screws', head, { screws: 4 });
      }
      for (const head of ['a', 'b']) b.done('glue', head).done('polish', head);
      b.wait(31);
      for (const head of ['a', 'b']) b.answer('badge', head, { letters: 'x,y' });
      return b.answer('witness', 'job', { looks: 'yes' });
    };
    predicted(bench);
    const sign = (initials: string) => bench.try({ do: 'sign', step: 'witness', place: 'job', initials });
    expect(sign('AP')).toMatch(/did the work/);
    expect(sign('ap')).toMatch(/did the work/);
    // Nor whoever is at the keyboard now, nor anybody who answered in this step.
    bench.by = 'QQ';
    bench.do({ do: 'operator', initials: 'QQ' });
    expect(sign('QQ')).toMatch(/did the work/);
    expect(sign('AP')).toMatch(/did the work/);
    expect(sign('MN')).toBeUndefined();
    expect(bench.state.view('witness', 'job')?.signed?.role).toBe('mentor');
  });

  it('can’t be signed before the work is done', () => {
    const bench = built();
    expect(bench.try({ do: 'sign', step: 'witness', place: 'job', initials: 'MN' })).toMatch(/not ready to be signed/);
  });
});

describe('predictions', () => {
  const asking = modelFrom(pumpText.replace('    rests_on: [swept]', '    rests_on: [swept]\n    predict: [swept]'));
  const upTo = (bench: Bench) => {
    prepared(bench, 'one').answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' });
    return bench.answer('valve-look', 'a.inlet', { seat: 'good' });
  };
  const keep = { do: 'answer', step: 'decide', place: 'a', key: 'keep', text: 'keep' } as const;

  it('come before the answer in training', () => {
    const bench = upTo(new Bench(asking, { apprentice: 'AP' }));
    expect(bench.state.view('decide', 'a')?.wants).toBe('predict');
    expect(bench.try(keep)).toMatch(/wants to know first what you expect/);
    const predict = { do: 'predict', step: 'decide', place: 'a', key: 'swept' } as const;
    expect(bench.try({ ...predict, text: ' ' })).toMatch(/a guess is allowed/);
    expect(bench.try({ ...predict, key: 'bore', text: '1' })).toMatch(/Nothing is to be predicted/);
    bench.do({ ...predict, text: '60 mL' }).do(keep);
    expect(bench.status('decide', 'a')).toBe('done');
  });

  it('are refused while a gate holds the answer, in its words', () => {
    const bench = prepared(new Bench(asking, { apprentice: 'AP' }), 'one').answer('outlet-there', 'a', {
      has_outlet: 'no',
    });
    // pi/4 x 60^2 x 50 mm3 = 141.4 mL.
    bench.answer('bore', 'a', { bore: '60', stroke: '50', lid: '80x60' });
    bench.answer('valve-look', 'a.inlet', { seat: 'good' });
    const predict = { do: 'predict', step: 'decide', place: 'a', key: 'swept', text: '60 mL' } as const;
    bench.do(predict).do(keep);
    expect(bench.status('decide', 'a')).toBe('stopped');
    expect(bench.try(predict)).toBe('141.4 mL is too much.');
    expect(bench.try({ ...keep, text: 'replace' })).toBeUndefined();
  });

  it('are not asked for outside it', () => {
    expect(upTo(new Bench(asking)).try(keep)).toBeUndefined();
  });
});

describe('waits', () => {
  const glued = () => {
    const bench = readyToFill();
    for (const h of ['a', 'b']) bench.done('fill', h).answer('screws', h, { screws: 4 });
    return bench.done('glue', 'a').done('polish', 'a');
  };

  it('by the wall clock', () => {
    const bench = glued();
    expect(bench.state.waiting.map((v) => v.step.id)).toEqual(['glue']);
    expect(bench.wait(29).status('badge', 'a')).toBe('later');
    expect(bench.wait(1).status('badge', 'a')).toBe('open');
    const waited = () => bench.state.waited.map((v) => `${v.step.id}@${v.place}`);
    expect(waited()).toEqual(['glue@a']);
    bench.answer('badge', 'a', { letters: 'x,y' });
    expect(waited()).toEqual([]);
  });

  it('are told as over until something is recorded there, also by a clock that was set back', () => {
    const waited = (b: Bench) => b.state.waited.map((v) => `${v.step.id}@${v.place}`);
    const bench = readyToFill();
    for (const h of ['a', 'b']) bench.done('fill', h).answer('screws', h, { screws: 4 });
    expect(waited(bench.done('glue', 'a'))).toEqual([]);
    bench.now -= 3 * 3_600_000;
    bench.do({ do: 'note', place: 'job', text: 'clock was wrong' }).wait(31);
    expect(waited(bench)).toEqual(['glue@a']);
    expect(waited(bench.do({ do: 'note', place: 'b', text: 'x' }))).toEqual(['glue@a']);
    expect(waited(bench.do({ do: 'note', place: 'job', text: 'x' }))).toEqual(['glue@a']);
    expect(waited(bench.do({ do: 'note', place: 'a.inlet', text: 'x' }))).toEqual([]);
    const noted = glued().do({ do: 'note', place: 'a', text: 'too early' }).wait(31);
    expect(waited(noted)).toEqual(['glue@a']);
    // At the very moment that it is over, and a thousandth of a second before.
    const at = (early: number) => {
      const b = glued();
      b.now = b.state.view('glue', 'a')!.wait!.until - early - 1000;
      return waited(b.do({ do: 'note', place: 'a', text: 'x' }).wait(1));
    };
    expect([at(0), at(1)]).toEqual([[], ['glue@a']]);
  });

  it('while the other head can be worked on', () => {
    const bench = glued();
    expect(bench.state.available('a').every((v) => v.place === 'b')).toBe(true);
    expect(bench.state.available('a')).not.toEqual([]);
  });

  it('are none where they take no time, and begin whole', () => {
    const bench = readyToFill(
      new Bench(modelFrom(pumpText.replace('minutes: "30.0"', 'minutes: "screws == 4.0 ? 0.0 : 30.0"'))),
    );
    for (const h of ['a', 'b']) bench.done('fill', h).answer('screws', h, { screws: 4 });
    expect(bench.done('glue', 'a').state.view('glue', 'a')).toMatchObject({ status: 'done', wait: undefined });
    const begun = readyToFill();
    for (const h of ['a', 'b']) begun.done('fill', h).answer('screws', h, { screws: 4 });
    expect(begun.done('glue', 'a').state.view('glue', 'a')?.wait).toEqual({
      ...{ label: 'glue setting', from: begun.now, until: begun.now + 30 * 60_000 },
      ...{ left: 30 * 60_000, clockBack: false, since: begun.state.entries.length },
    });
    expect(begun.wait(30).state.view('glue', 'a')?.wait).toMatchObject({ left: 0, clockBack: false });
    begun.now -= 1;
    expect(begun.state.view('glue', 'a')).toMatchObject({ status: 'waiting', wait: { left: 1 } });
  });

  it('leave a signature as it is, also when they are overruled', () => {
    const hold = '    hold: { say: Mentor looks, self_check: Mine. }\n    title: Glue the badge';
    const bench = readyToFill(new Bench(modelFrom(pumpText.replace('    title: Glue the badge', hold))));
    for (const h of ['a', 'b']) bench.done('fill', h).answer('screws', h, { screws: 4 });
    bench.done('glue', 'a');
    expect(bench.state.view('glue', 'a')).toMatchObject({ status: 'open', wants: 'sign' });
    bench.do({ do: 'sign', step: 'glue', place: 'a', initials: 'ZZ' });
    expect(bench.state.view('glue', 'a')).toMatchObject({ status: 'waiting', signed: { initials: 'ZZ' } });
    const over = { do: 'overrule', step: 'glue', place: 'a', gate: 'wait', initials: 'AP', reason: 'hard' } as const;
    expect(bench.do(over).state.view('glue', 'a')).toMatchObject({
      ...{ status: 'done', signed: { initials: 'ZZ' }, wait: { left: 0, skipped: { reason: 'hard' } } },
    });
  });

  it('may be overruled with a reason', () => {
    const bench = glued();
    const now = { do: 'overrule', step: 'glue', place: 'a', gate: 'wait', initials: 'AP' } as const;
    expect(bench.try({ ...now, reason: '' })).toMatch(/reason/);
    bench.do({ ...now, reason: 'fast glue' });
    expect(bench.status('badge', 'a')).toBe('open');
  });

  it('hold while it is not known how long they last, until it is known or overruled', () => {
    const asks = modelFrom(
      pumpText
        .replace(
          'ask:\n      - key: heads',
          'ask:\n      - { key: cure, kind: number, label: Cure, limits: [0, 99], optional: true }\n      - key: heads',
        )
        .replace('minutes: "30.0"', 'minutes: cure'),
    );
    const glue = () => {
      const bench = new Bench(asks).answer('start', 'job', { cure: '' });
      const built = readyToFill(bench);
      for (const h of ['a', 'b']) built.done('fill', h).answer('screws', h, { screws: 4 });
      return built.done('glue', 'a').done('polish', 'a');
    };
    const bench = glue().wait(10_000);
    expect(bench.status('glue', 'a')).toBe('waiting');
    expect(bench.status('badge', 'a')).toBe('later');
    expect(bench.state.view('badge', 'a')?.because).toMatch(/a time that is not known yet/);
    expect(bench.try({ do: 'answer', step: 'badge', place: 'a', key: 'letters', text: 'x,y' })).toMatch(
      /not known yet/,
    );
    expect(bench.correct('start', 'job', 'cure', '20').status('badge', 'a')).toBe('open');
    const over = {
      do: 'overrule',
      step: 'glue',
      place: 'a',
      gate: 'wait',
      initials: 'AP',
      reason: 'it is hard',
    } as const;
    expect(glue().do(over).status('badge', 'a')).toBe('open');
  });

  it('starts whole again for a clock that was set back, and says so', () => {
    const bench = glued();
    bench.now -= 3 * 3_600_000;
    const wait = bench.state.view('glue', 'a')?.wait;
    expect(wait?.clockBack).toBe(true);
    expect(wait?.left).toBe(30 * 60_000);
    bench.do({ do: 'note', place: 'job', text: 'clock was wrong' });
    expect(bench.state.ledger.clockJumps).toHaveLength(1);
  });

  it('does not start again once it was over and a later step there was worked on', () => {
    const bench = glued().wait(30).answer('badge', 'a', { letters: 'x,y' });
    bench.now -= 24 * 3_600_000;
    expect(bench.status('glue', 'a')).toBe('done');
    expect(bench.state.view('glue', 'a')?.wait).toMatchObject({ left: 0, clockBack: false });
  });

  it('lasts one wait once the clock has been set back and work has gone on', () => {
    const bench = glued();
    bench.now -= 3 * 3_600_000;
    bench.do({ do: 'note', place: 'job', text: 'clock was wrong' });
    expect(bench.wait(31).status('badge', 'a')).toBe('open');
  });

  it('is not over because the clock was set back and then put right again', () => {
    const bench = glued().wait(5);
    bench.now -= 3 * 3_600_000;
    bench.do({ do: 'note', place: 'job', text: 'clock was wrong' });
    bench.now += 3 * 3_600_000;
    // Six minutes have passed since it was glued, 24 of 30 are left.
    bench.wait(1);
    expect(bench.state.view('glue', 'a')?.wait).toMatchObject({ left: 24 * 60_000 - 2000, clockBack: false });
    expect(bench.wait(24).status('badge', 'a')).toBe('open');
  });

  it('stays over by a clock that was set back when that comes to the time before', () => {
    const bench = glued();
    bench.now -= 3_600_000;
    bench.do({ do: 'note', place: 'job', text: 'clock was wrong' }).wait(31).answer('badge', 'a', { letters: 'x,y' });
    for (const minutes of [10, 20, 10]) expect(bench.wait(minutes).status('glue', 'a')).toBe('done');
  });

  it('is told as over whatever was recorded there before the clock was set back', () => {
    const bench = glued().wait(20).do({ do: 'note', place: 'a', text: 'x' });
    bench.now -= 3_600_000;
    bench.do({ do: 'note', place: 'job', text: 'clock was wrong' }).wait(31);
    expect(bench.state.waited.map((v) => `${v.step.id}@${v.place}`)).toEqual(['glue@a']);
  });
});

describe('together', () => {
  it('keeps other steps back while a group is begun', () => {
    const bench = readyToFill().done('fill', 'a');
    expect(bench.state.available().map((v) => `${v.step.id}@${v.place}`)).toEqual(['fill@b', 'screws@a']);
    bench.answer('screws', 'a', { screws: 4 });
    expect(bench.status('glue', 'a')).toBe('later');
    bench.done('fill', 'b').answer('screws', 'b', { screws: 4 });
    expect(bench.status('glue', 'a')).toBe('open');
  });

  const glueEarly = (more = '', gate = ''): Bench => {
    const text = pumpText
      .replace('    title: Glue the badge', `    not_after: [screws]\n${more}    title: Glue the badge`)
      .replace('    title: Tighten the lid', `${gate}    title: Tighten the lid`);
    const bench = measured(prepared(new Bench(modelFrom(text)), 'one'), 'a').answer('oil-kind', 'job', { oil: 'thin' });
    return bench.done('fill', 'a');
  };
  const stop = '    gates: [ { id: out, at: enter, must: has_outlet, say: None., overrule: never } ]\n';
  it('keeps back too what waits for none of it, also while a gate stops the rest of the group', () => {
    const because = '“Tighten the lid” must be finished first: it is not to be interrupted.';
    expect(glueEarly().state.view('glue', 'a')).toMatchObject({ status: 'later', because });
    const stopped = glueEarly('', stop);
    expect(stopped.status('screws', 'a')).toBe('stopped');
    expect(stopped.state.view('glue', 'a')).toMatchObject({ status: 'later', because });
  });

  it('is not begun by what was only expected of it', () => {
    const text = pumpText.replace(
      '    title: Glue the badge',
      '    not_after: [fill, screws]\n    title: Glue the badge',
    );
    const bench = new Bench(modelFrom(text), { apprentice: 'AP' });
    measured(prepared(bench, 'one'), 'a').answer('oil-kind', 'job', { oil: 'thin' });
    bench.do({ do: 'predict', step: 'fill', place: 'a', key: 'oil_due', text: '30' });
    expect([bench.status('fill', 'a'), bench.status('glue', 'a')]).toEqual(['open', 'open']);
    bench.done('fill', 'a');
    expect([bench.status('screws', 'a'), bench.status('glue', 'a')]).toEqual(['open', 'later']);
    bench.answer('screws', 'a', { screws: 4 });
    expect(bench.status('glue', 'a')).toBe('open');
  });

  it('what is kept back is not stopped by its own gate', () => {
    const bench = glueEarly(stop);
    expect(bench.status('glue', 'a')).toBe('later');
    expect(bench.state.board.stopped()).toEqual([]);
  });

  it('lets go on what was opened again and what one of the group waits for', () => {
    const hold = '    hold: { say: Mentor looks, self_check: Mine. }\n    title: Keep or replace';
    const held = modelFrom(pumpText.replace('    title: Keep or replace', hold));
    const bench = prepared(new Bench(held));
    for (const head of ['a', 'b'])
      measured(bench, head).do({ do: 'sign', step: 'decide', place: head, initials: 'ZZ' });
    bench.answer('oil-kind', 'job', { oil: 'thin' }).done('fill', 'a').correct('bore', 'a', 'bore', '36');
    bench.answer('decide', 'a', { keep: 'keep' });
    expect(bench.state.view('decide', 'a')).toMatchObject({ status: 'open', wants: 'sign' });
    expect(bench.status('fill', 'b')).toBe('open');
  });
});
