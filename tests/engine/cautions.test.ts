/** When a danger counts as confirmed already, and who may not vouch: each condition by itself. */
import { describe, expect, it } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import { impact } from '../../src/engine/state/impact.js';
import { cautionWords, confirmedBefore, lapsed, sameDangerAt } from '../../src/engine/steps/cautions.js';
import type { StepView } from '../../src/engine/steps/step-view.js';
import type { Values } from '../../src/engine/values/values.js';
import type { Caution } from '../../src/procedure/schema.js';
import { Bench, modelFrom, pump } from './pump.js';

const burns = { kind: 'vapour', say: 'It burns.' } as Caution;
const cuts = { kind: 'edge', say: 'It cuts.' } as Caution;

describe('a danger was confirmed before', () => {
  interface World {
    /** Cautions of the step in which it was confirmed. */
    of?: Caution[];
    /** Kind of place of that step. */
    at?: string;
    given?: { place?: string; seq?: number; known?: true; also?: string[] };
    raised?: { seq: number; place: string }[];
    holds?: boolean | undefined;
  }
  const values = ({ of = [burns], at = 'seal', given = {}, raised = [], ...more }: World): Values => {
    const { place = 'a.front', ...caution } = { seq: 10, ...given };
    const step = { id: 'wash', at, caution: of };
    return {
      model: {
        procedure: { steps: [{ id: 'none', at: 'seal' }, step] },
        places: [
          { id: 'job', kind: 'job' },
          { id: 'a', kind: 'bearing' },
          { id: 'a.front', kind: 'seal' },
          { id: 'b.front', kind: 'seal' },
        ],
      },
      ledger: { raised },
      step: (slot: string) => (slot === `wash@${place}` ? { caution } : undefined),
      holds: () => ('holds' in more ? more.holds : true),
    } as unknown as Values;
  };
  const confirmed = (world: World, cautions: Caution[] = [burns], place = 'a.back', from = 5): boolean =>
    confirmedBefore(values(world), cautions, place, from);

  it('at the same bearing, in the same sitting, of the same kind', () => {
    expect(confirmed({})).toBe(true);
    expect(confirmed({}, [burns], 'a')).toBe(true);
    expect(confirmed({}, [burns], 'b.front')).toBe(false);
    expect(confirmed({}, [cuts])).toBe(false);
    expect(confirmed({}, [burns, cuts])).toBe(false);
    expect(confirmed({ of: [burns, cuts] }, [burns, cuts])).toBe(true);
    expect(confirmed({ given: { place: 'nowhere' } })).toBe(false);
  });
  it('for the whole job, so at each bearing; at one bearing not for the whole job', () => {
    for (const place of ['job', 'a', 'b.front'])
      expect(confirmed({ at: 'job', given: { place: 'job' } }, [burns], place), place).toBe(true);
    expect(confirmed({}, [burns], 'job')).toBe(false);
    expect(confirmed({ at: 'job', given: { place: 'job', seq: 4 } }, [burns], 'a')).toBe(false);
  });
  it('from the first entry of the sitting on', () => {
    expect(confirmed({ given: { seq: 5 } })).toBe(true);
    expect(confirmed({ given: { seq: 4 } })).toBe(false);
  });
  it('not where it was itself taken as confirmed before', () => {
    expect(confirmed({ given: { known: true } })).toBe(false);
  });
  it('for other positions that stood on the screen with it', () => {
    expect(confirmed({ given: { also: ['b'] } }, [burns], 'b.front')).toBe(true);
    expect(confirmed({ given: { also: ['c'] } }, [burns], 'b.front')).toBe(false);
  });
  it('only if it stood there: its condition held, or was not known', () => {
    const may = [{ ...(burns as object), when: 'wet' } as Caution];
    expect(confirmed({ of: may, holds: true })).toBe(true);
    expect(confirmed({ of: may, holds: undefined })).toBe(true);
    expect(confirmed({ of: may, holds: false })).toBe(false);
    expect(confirmed({ of: [...may, cuts], holds: false })).toBe(false);
    expect(confirmed({ of: [cuts, ...may], holds: true })).toBe(true);
  });
  it('and nothing unforeseen since, at either position', () => {
    for (const place of ['a', 'a.front', 'job']) expect(confirmed({ raised: [{ seq: 11, place }] }), place).toBe(false);
    expect(confirmed({ raised: [{ seq: 11, place: 'b' }] })).toBe(true);
    expect(confirmed({ raised: [{ seq: 10, place: 'a' }] })).toBe(true);
    expect(confirmed({ raised: [{ seq: 9, place: 'a' }] })).toBe(true);
    const wide = { given: { also: ['b'] } };
    expect(confirmed({ ...wide, raised: [{ seq: 11, place: 'a.front' }] }, [burns], 'b.front')).toBe(false);
    expect(confirmed({ ...wide, raised: [{ seq: 11, place: 'b.front' }] }, [burns], 'b.front')).toBe(false);
    expect(confirmed({ ...wide, raised: [{ seq: 11, place: 'c' }] }, [burns], 'b.front')).toBe(true);
  });
  it('and is asked again, for which there is a reason where each of them was', () => {
    const why = (world: World, ...cautions: Caution[]) => lapsed(values(world), cautions, 'a.back', 5);
    const event = { raised: [{ seq: 11, place: 'a' }] };
    const sitting = { given: { seq: 4 } };
    expect([why({}, burns), why(event, burns), why(sitting, burns)]).toEqual([undefined, 'event', 'sitting']);
    // What was confirmed in another sitting lapsed with it, whatever came since.
    expect(why({ ...sitting, ...event }, burns)).toBe('sitting');
    expect([why(event, cuts), why(event, burns, cuts), why(sitting, cuts, burns)]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
    expect(why({ ...event, of: [burns, cuts] }, burns, cuts)).toBe('event');
    expect(why({ ...event, given: { known: true } }, burns)).toBeUndefined();
  });
  it('by the best of several confirmations, and for the graver of two reasons', () => {
    // The washing confirmed at one seal in an earlier sitting, the rinsing, another danger, at the other since.
    const at: Record<string, { seq: number }> = { 'wash@a.front': { seq: 4 }, 'rinse@a.front': { seq: 10 } };
    const world = (more: typeof at, raised: { seq: number; place: string }[] = []): Values => {
      const plain = values({ raised });
      const steps = [
        { id: 'wash', at: 'seal', caution: [burns] },
        { id: 'rinse', at: 'seal', caution: [cuts] },
        { id: 'dry', at: 'seal', caution: [burns] },
      ];
      const model = { ...plain.model, procedure: { steps } };
      const step = (slot: string) => ({ ...at, ...more })[slot] && { caution: { ...at, ...more }[slot] };
      return { ...plain, model, step } as unknown as Values;
    };
    const event = [{ seq: 11, place: 'a' }];
    expect(lapsed(world({}, event), [burns, cuts], 'a.back', 5)).toBe('event');
    expect(lapsed(world({}), [burns, cuts], 'a.back', 5)).toBe('sitting');
    expect(lapsed(world({ 'dry@a.front': { seq: 9 } }), [burns], 'a.back', 5)).toBeUndefined();
    expect(lapsed(world({ 'dry@a.front': { seq: 9 } }, event), [burns], 'a.back', 5)).toBe('event');
    expect(confirmedBefore(world({ 'dry@a.front': { seq: 12 } }, event), [burns], 'a.back', 5)).toBe(true);
  });
});

describe('positions at which the very danger is still to come', () => {
  const wash = { id: 'wash' };
  const view = (place: string, more: object = {}): StepView =>
    ({ step: wash, place, status: 'open', cautions: [burns], ledger: undefined, ...more }) as unknown as StepView;
  const at = (...views: StepView[]) => sameDangerAt([view('a.front'), ...views], view('a.front'));
  it('of the same step, elsewhere, with the same cautions, not begun', () => {
    expect(at()).toEqual([]);
    expect(at(view('a.back'))).toEqual([]);
    expect(at(view('b.front'), view('b.back'), view('c.front'))).toEqual(['b', 'c']);
    expect(at(view('b.front', { step: { id: 'rinse' } }))).toEqual([]);
    for (const status of ['done', 'waiting', 'not-needed']) expect(at(view('b.front', { status })), status).toEqual([]);
    for (const status of ['open', 'blocked', 'stopped']) expect(at(view('b.front', { status })), status).toEqual(['b']);
    expect(at(view('b.front', { ledger: { caution: { seq: 1 } } }))).toEqual([]);
    expect(at(view('b.front', { ledger: {} }))).toEqual(['b']);
    expect(at(view('b.front', { cautions: [cuts] }))).toEqual([]);
    expect(at(view('b.front', { cautions: [burns, cuts] }))).toEqual([]);
  });
});

describe('what is signed', () => {
  const model = modelFrom(`
procedure: held
version: 1.0.0
title: Held
summary: Invented.
places: [ { id: side, name: Side, instances: [ { id: a, label: Left }, { id: b, label: Right } ] } ]
phases: [ { id: work, title: Work } ]
steps:
  - id: check
    phase: work
    at: side
    title: Check
    do: Look.
    why: So.
    ask: [ { key: fine, kind: yes-no, label: Fine } ]
    hold: { say: The mentor looks too., self_check: I looked twice. }
`);
  const sign = (initials: string) => ({ do: 'sign', step: 'check', place: 'a', initials }) as const;
  const correct = (reason: string) =>
    ({ do: 'correct', step: 'check', place: 'a', key: 'fine', text: 'no', reason }) as const;
  const signed = (): Bench => {
    const b = new Bench(model, { mentor: 'MN' });
    b.by = 'AP';
    b.answer('check', 'a', { fine: 'yes' }).do(sign('MN'));
    b.do({ do: 'operator', initials: 'ZZ' });
    b.by = 'ZZ';
    return b;
  };
  it('is not vouched for by whoever gave its first answer, even before the last signature', () => {
    const b = signed();
    b.do(correct('read wrongly'));
    expect(b.state.view('check', 'a')?.wants).toBe('sign');
    expect(b.try(sign('AP'))).toMatch(/did the work/);
    expect(b.try(sign('ZZ'))).toMatch(/did the work/);
    expect(b.try(sign('MN'))).toBeUndefined();
  });
  it('is told to be signed again when a correction reaches it', () => {
    const b = signed();
    const p = propose(b.state, correct('read wrongly'), 'ZZ');
    expect(p.ok && impact(b.state, p.drafts).steps).toMatchObject([{ step: 'check', place: 'a', what: 'sign again' }]);
  });
  it('is corrected with a reason of three letters at the least', () => {
    const b = signed();
    expect(b.try(correct('ab'))).toMatch(/reason in words/);
    expect(b.try(correct(' ab '))).toMatch(/reason in words/);
    expect(b.try(correct('abc'))).toBeUndefined();
  });
});

it('the words of a danger are those of its step', () => {
  const words = (step: string, place: string) => cautionWords(new Bench().state.values, pump.steps.get(step)!, place);
  expect([words('pressure', 'job'), words('glue', 'a')]).toEqual([['Oil under pressure goes through skin.'], []]);
});
