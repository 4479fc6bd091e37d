/** The run-in of a rotor that can't be driven freely has an honest end too, and the sheet says which. */
import { describe, expect, it } from 'vitest';
import type { ReplayItem } from '../../src/engine/replay/replay-file.js';
import { correctable } from '../../src/engine/state/correctable.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { finished, Job, model, refused } from './good-job.js';

type Row = Record<string, string>;
const rowsOf = (job: Job): Row[] => job.step('run-in-log').rows as unknown as Row[];
const sheet = (job: Job): string => toMarkdown(sheetOf(job.run().state)).replaceAll('\\', '');
const never = /can’t be overruled/;

/** The good log up to a stage, and so many readings more at it, ten minutes apart. */
function upTo(job: Job, stage: number, more: number): Row[] {
  const of = rowsOf(job).filter((r) => Number(r.log_stage) <= stage);
  return [...of, ...Array.from({ length: more }, () => ({ ...of.at(-1)!, after: '10 min' }))];
}
/** The job with as many readings as it takes, which is neither none nor many. */
function enough(make: (more: number) => Job): Job {
  const jobs = [2, 3, 4, 5].map(make);
  return jobs.find((job) => finished(job.run()) === true) ?? jobs[0]!;
}

describe('a limited run-in', () => {
  it('that was chosen before ends at its stage, and the sheet says the speed and what is left', () => {
    const job = enough((more) => {
      const limited = new Job().answer('run-in-plan', 'job', { drive_way: 'limited', run_to_stage: '5' });
      limited.step('run-in-log').rows = upTo(limited, 5, more) as never;
      return limited;
    });
    expect(finished(job.run())).toBe(true);
    expect(sheet(job)).toMatch(/limited, to less than top speed/);
    expect(sheet(job)).toMatch(/Never above the speed it was run in to/);
  });
  it('to a bearing that heads over the limit is the way on, and the stages already done stand', () => {
    // The drive end leaps at half speed; nobody goes on there.
    const cut = (): Job => {
      const job = new Job();
      const rows = rowsOf(job).filter((r) => Number(r.log_stage) <= 5);
      rows[rows.length - 1] = { ...rows.at(-1)!, temp_a: '67 C', temp_b: '60 C' };
      job.step('run-in-log').rows = rows as never;
      return job;
    };
    expect(finished(cut().run())).not.toBe(true);
    const three = rowsOf(new Job()).findLast((r) => r.log_stage === '3')!;
    const job = enough((more) => {
      // It cools, then goes straight to stage 3.
      const cold = { ...three, after: '90 min', log_stage: '0', temp_a: '23 C', temp_b: '23 C' };
      const on = [cold, ...Array.from({ length: more }, () => ({ ...three, after: '15 min' }))];
      return cut().after(
        'run-in-log',
        'job',
        { raise: 'limited-run-in', at: 'job' },
        { step: 'limit-run-in', answers: { limited_to: '3', limited_why: 'Runs hot from half speed on.' } },
        { step: 'run-in-log', rows: on } as never,
      );
    });
    expect(finished(job.run())).toBe(true);
    expect(sheet(job)).toMatch(/Run-in limited to stage 3: Runs hot from half speed on/);
  });
});

describe('a machine that can only be switched on and off', () => {
  const burst = (temp: string): Row => ({ after: '3 min', burst_a: temp, burst_b: temp, burst_sound: 'smooth' });
  const bursts = (...temps: string[]): Job =>
    new Job()
      .answer('run-in-plan', 'job', { drive_way: 'bursts' })
      .before('run-in-log', 'job', { step: 'run-in-bursts', rows: temps.map(burst) } as never)
      .drop((x) => x.step === 'run-in-log');
  it('P: is run in by bursts until it settles, eight at least', () => {
    const rising = ['22 C', '24 C', '26 C', '27 C', '28 C', '28.5 C', '28.6 C', '28.7 C', '28.8 C'];
    expect(finished(bursts(...rising).run())).toBe(true);
    expect(sheet(bursts(...rising))).toMatch(/by short runs at top speed, steady running not proven/);
    expect(refused(bursts(...rising.slice(0, 6)).run())).not.toBe('');
    const more = (n: number) =>
      bursts(...rising.slice(0, n))
        .run()
        .state.values.get('burst_more', 'job');
    expect(more(6)).toMatchObject({ value: 2 });
    expect(model.steps.get('run-in-bursts')!.do).toContain('{rows_run_in_bursts} done');
    // From 26 to 28.7 in the last five: more than 1 K.
    expect(more(8)).toMatchObject({ value: 1 });
  });
  it('stops where one run warms a bearing by 10 K: from the room, from the run before, and from the room again after a spike', () => {
    const rose = /Leave it off\. Drive end rose 10(?:\.0)? K in one run, and 10 K is the most\..*can’t be overruled/;
    // The room is at 21 °C.
    expect(refused(bursts('31 C', '31 C').run())).toMatch(rose);
    expect(refused(bursts('30.9 C', '40.8 C', '41 C').run())).not.toMatch(/rose/);
    expect(refused(bursts('24 C', '34 C', '34 C').run())).toMatch(rose);
  });
  it('asks for a reason where two runs were entered less than the pause apart', () => {
    const hasty = (minutes: string): string => {
      const job = bursts('22 C', '24 C', '26 C');
      (job.step('run-in-bursts').rows as unknown as Row[])[1]!.after = minutes;
      return refused(job.run());
    };
    // From entry to entry lie the pause of 2.5 min and the run of 30 s.
    expect(hasty('2.9 min')).toMatch(
      /to this one 2\.9\d? min went by, this run of 30 s included\. If it was off for 2\.5 min between the two, give/,
    );
    expect(hasty('2.9 min')).not.toMatch(never);
    expect(hasty('3 min')).not.toMatch(/Was it off/);
  });
  describe('after a temperature spike', () => {
    const cooled = (temp: string): ReplayItem =>
      ({ step: 'spike-cooled', after: '45 min', answers: { cooled_a: temp, cooled_b: temp } }) as ReplayItem;
    const spike = (spike_cause: string, more: object = {}, held?: string): ReplayItem[] =>
      [
        { raise: 'temperature-spike', at: 'job' },
        { step: 'spike', answers: { spike_temp: '36 C', spike_cause, ...more }, ...(held ? { held } : {}) },
      ] as ReplayItem[];
    const runs = (...temps: string[]): ReplayItem => ({ step: 'run-in-bursts', rows: temps.map(burst) }) as never;
    const ran = (...items: ReplayItem[]) =>
      bursts('24 C', '34.5 C')
        .after('run-in-bursts', 'job', ...items)
        .run();
    const hot = (...items: ReplayItem[]): string => refused(ran(...items));
    /** What holds the step once the bearing was reported to be opened. */
    const opened = (...items: ReplayItem[]): readonly string[] =>
      ran(...items, { raise: 'run-in-noise', at: 'a' })
        .state.view('spike', 'job')!
        .gates.map((g) => g.gate.id);
    it('too much grease is taken out, locked out and proven dead, before it runs again', () => {
      const said = hot(...spike('overfilled'));
      expect(said).toMatch(
        /Too much grease does not go by running\. Report "Noise or heat in the run-in".*proven dead/,
      );
      expect(said).toMatch(never);
      expect(opened(...spike('overfilled', {}, 'too-much-out'))).toEqual([]);
      expect(opened(...spike('unknown', {}, 'cause-found'))).toEqual([]);
    });
    it('what rubs is opened too, and nobody asks whether it is cool once it was', () => {
      expect(hot(...spike('rubbing'))).toMatch(/What rubs does not stop by running\. Report "Noise or heat/);
      expect(opened(...spike('rubbing', {}, 'rubs'))).toEqual([]);
      const { state } = ran(...spike('rubbing', {}, 'rubs'), { raise: 'run-in-noise', at: 'a' });
      const { when } = model.steps.get('spike-cooled')!;
      expect(when).toMatch(/&& !opened_since_heat$/);
      expect(state.values.holds('opened_since_heat', 'job')).toBe(true);
    });
    it('nobody is asked which end was hot before where the log tells it', () => {
      const again = model.steps.get('spike')!.ask!.find((q) => q.key === 'spike_again')!;
      expect(again).toMatchObject({ otherwise: true });
      // The end that is hotter now was over the limit of 70 °C before.
      const row = (a: string, b: string): Row => ({ ...burst(a), burst_b: b });
      const twice = (first: Row, second: Row) => {
        const job = bursts('24 C');
        job.step('run-in-bursts').rows?.push(first as never);
        job.after(
          'run-in-bursts',
          'job',
          ...spike('churning', { spike_temp: '72 C' }),
          cooled('24 C'),
          {
            step: 'run-in-bursts',
            rows: [second],
          } as never,
          ...spike('churning', { spike_temp: '72 C' }),
        );
        const { state } = job.run();
        const view = state.view('spike', 'job')!;
        return view.question?.key ?? view.gates.map((g) => g.gate.id).join();
      };
      expect(twice(row('72 C', '40 C'), row('48 C', '30 C'))).toBe('hot-again');
      expect(twice(row('40 C', '72 C'), row('30 C', '48 C'))).toBe('hot-again');
      expect(twice(row('72 C', '40 C'), row('30 C', '48 C'))).toBe('spike_again');
    });
    it('two heats of an end count over both ways of driving, and how it is driven is no way on', () => {
      const row = (a: string, b: string): Row => ({ ...burst(a), burst_b: b });
      const job = bursts('24 C');
      job.step('run-in-bursts').rows?.push(row('72 C', '40 C') as never);
      const hotter = { step: 'run-in-bursts', rows: [row('48 C', '30 C')] } as never;
      const full = { correct: { step: 'run-in-plan', key: 'drive_way', value: 'full', reason: 'can' } } as never;
      const again = spike('churning', { spike_temp: '48 C' }, 'hot-again');
      const first = spike('churning', { spike_temp: '72 C' });
      job.after('run-in-bursts', 'job', ...first, cooled('24 C'), hotter, ...again, full);
      const { state } = job.run();
      const gate = state.view('spike', 'job')!.gates[0]!.gate;
      expect(gate.id).toBe('hot-again');
      const { readings, chosen } = correctable(state, gate, 'job', model.steps.get('spike')!);
      expect(chosen).toBeDefined();
      expect(readings.slice(0, chosen).map((r) => r.question.key)).not.toContain('drive_way');
    });
    it('no temperature under what the log has is taken for the highest', () => {
      const told = (spike_temp: string): string => {
        const items = spike('churning', { spike_temp });
        const job = bursts('24 C', '71 C');
        return refused(job.after('run-in-bursts', 'job', ...items).run());
      };
      expect(told('9 C')).toMatch(/The log has 71 °C already\. Answer again with the highest/);
      expect(told('71 C')).not.toMatch(/The log has/);
      expect(model.steps.get('spike')!.ask![0]).toMatchObject({ suggest: 'spike_offered' });
    });
    it('is no reason to put up by one key the limit that stopped it', () => {
      for (const [step, row] of [
        ['run-in-bursts', burst('71 C')],
        ['run-in-log', { after: '3 min', log_stage: '1', temp_a: '71 C', temp_b: '31 C', sound: 'smooth' }],
      ] as const) {
        const job = step === 'run-in-log' ? new Job() : bursts('24 C');
        const log = job.step(step);
        log.rows = [row] as never;
        job.items.length = job.items.indexOf(log) + 1;
        const { state } = job.run();
        const { gate } = state.view(step, 'job')!.gates[0]!;
        const { readings, chosen } = correctable(state, gate, 'job');
        const keys = readings.slice(0, chosen).map((r) => r.question.key);
        expect(keys.join()).toMatch(/^(burst|temp)_[ab],(burst|temp)_[ab]$/);
      }
    });
    it('a run after it is reckoned from what each end had cooled to', () => {
      const rose = (temp: string): string => hot(...spike('churning'), cooled('25 C'), runs(temp, temp));
      expect(rose('34.9 C')).not.toMatch(/rose/);
      expect(rose('35 C')).toMatch(/rose 10(?:\.0)? K in one run/);
    });
    it('heat before the first reading after a bearing was opened is heat all the same', () => {
      const { state } = bursts('24 C')
        .after('run-in-bursts', 'job', { raise: 'run-in-noise', at: 'a' }, { raise: 'temperature-spike', at: 'job' })
        .run();
      expect(state.values.holds('opened_since_heat', 'job')).toBe(false);
    });
    it('of one bearing nobody speaks as of two', () => {
      const { values } = ran(...spike('churning')).state;
      expect(values.evaluate('each_shows', 'job')).toMatchObject({ value: 'both show' });
      const lead = model.procedure.facts!.find((f) => f.key === 'run_in_lead')!;
      expect(lead).toMatchObject({ is: expect.stringMatching(/work_a && work_b \? 'both are' : 'it is'/) });
    });
    it('both ends are read once before it goes on, and grease that churned gets longer pauses', () => {
      // The room is at 21 °C.
      expect(hot(...spike('churning'), cooled('26.1 C'))).toMatch(/until both show 26 °C or less/);
      expect(hot(...spike('churning'), runs('24 C'))).toMatch(/is not next/);
      expect(hot(...spike('churning'), cooled('26 C'), runs('24 C', '24 C', '24 C'))).toMatch(
        /If it was off for 5 min between the two/,
      );
    });
    it('an end that is hot a second time is opened, whatever is thought of it', () => {
      const twice = (spike_again: string, held?: string): ReplayItem[] => [
        ...[...spike('churning'), cooled('24 C'), runs('33 C')],
        ...spike('churning', { spike_again }, held),
      ];
      expect(hot(...twice('yes'))).toMatch(/got hot twice gets hot again\. Report "Noise or heat.*can’t be overruled/);
      expect(opened(...twice('yes', 'hot-again'))).toEqual([]);
      expect(hot(...twice('no'))).not.toMatch(/a second time/);
    });
  });
  it('stops at the limit and on grinding', () => {
    const hot = bursts('22 C', '71 C', '30 C');
    expect(refused(hot.run())).toMatch(/at or over the limit of 70 °C.*can’t be overruled/);
    const loud = bursts('22 C', '24 C', '26 C');
    (loud.step('run-in-bursts').rows as unknown as Row[])[1]!.burst_sound = 'grinding';
    expect(refused(loud.run())).toMatch(never);
  });
});

it('what was not accepted is reported before the answer to it is changed, and both looks are written on the machine', () => {
  const gate = model.steps.get('run-in-accept')!.gates!.find((g) => g.id === 'accepted')!;
  expect(gate).toMatchObject({ raise: 'run-in-noise', answer_stands: true });
  const look = model.steps.get('next-inspection')!;
  expect(look.do).toMatch(/second look.*\{look_by_hand\} hours by hand and ear, then that/);
  expect(model.keys.get('inspect_after')!.label).toMatch(/^Hours /);
  expect(model.steps.get('run-in-bursts')!.do).toMatch(/^.{0,60}done\)\. At .{0,60}Leave it off for \{burst_rest\}\.$/);
});

describe('a run-in that nobody watched', () => {
  const gap = (after: string, stage = '1'): readonly string[] => {
    const job = new Job();
    const log = job.step('run-in-log');
    const row = { log_stage: stage, temp_a: '22 C', temp_b: '22 C', sound: 'smooth' };
    log.rows = [
      { ...row, log_stage: '1', after: '1 min' },
      { ...row, after },
    ] as never;
    job.items.length = job.items.indexOf(log) + 1;
    const { state } = job.run();
    return state.view('run-in-log', 'job')!.gates.map(({ gate }) => `${gate.id} ${gate.overrule}`);
  };
  it('for more than an hour is asked about: whether it stood, or who watched', () => {
    expect(gap('61 min')).toEqual(['watched with-reason']);
    expect(gap('55 min')).toEqual([]);
    expect(gap('61 min', '0')).toEqual([]);
  });
});

describe('three coast-down times', () => {
  const timed = (third: string): string => {
    const job = new Job().answer('standstill', 'job', {
      coast_timed: 'timed',
      coast_from: '1400',
      coast_1: '14.2 s',
      coast_2: '13.9 s',
      coast_3: third,
      coast_before: '',
    });
    const outcome = job.run();
    return outcome.ok ? '' : outcome.message;
  };
  it('that are too far apart are doubted: one that stops sooner each time drags', () => {
    // 13.9 s times 1.5 is 20.85 s; 14.2 s over 1.5 is 9.47 s.
    expect(timed('5.1 s')).toMatch(/too far apart\. A bearing that stops sooner each time drags/);
    expect(timed('9.4 s')).toMatch(/too far apart/);
    expect(timed('9.5 s')).not.toMatch(/too far apart/);
    expect(timed('20.9 s')).toMatch(/too far apart/);
    expect(timed('20.8 s')).not.toMatch(/too far apart/);
  });
});

describe('a machine that is only turned by hand', () => {
  it('ends honestly: not run in, and its first run is its run-in', () => {
    const job = new Job()
      .answer('run-in-plan', 'job', { drive_way: 'by-hand' })
      .drop((x) => x.step === 'run-in-log' || x.step === 'standstill');
    delete (job.step('run-in-plan').answers as Record<string, unknown>).fit_to_drive;
    expect(finished(job.run())).toBe(true);
    expect(sheet(job)).toMatch(/turned by hand only, not run in/);
    expect(sheet(job)).toMatch(/Its first run is its run-in/);
  });
});

describe('what the plan asks', () => {
  it('stops where steady running is above the stop, unless with a reason', () => {
    const job = new Job().answer('duty', 'job', { run_temp: '75 C' });
    const said = refused(job.run());
    expect(said).toMatch(/Steady running is 75 °C, and you stop at 70 °C/);
    expect(said).not.toMatch(never);
  });
  it('takes the room of the run-in, not of the first day', () => {
    const warm = new Job().answer('run-in-plan', 'job', { room_run_in: '27 C' });
    expect(refused(warm.run())).toMatch(/more than 5 K colder than the room/);
  });
});

describe('coast-down', () => {
  it('three times from one speed stand on the sheet as their mean', () => {
    const job = new Job().answer('standstill', 'job', {
      coast_timed: 'timed',
      coast_from: '1200 rpm',
      coast_1: '40 s',
      coast_2: '42 s',
      coast_3: '44 s',
    });
    expect(finished(job.run())).toBe(true);
    expect(sheet(job)).toMatch(/Coast-down time \| .*42 s/);
  });
});
