/** A small invented job on an invented procedure, unlike the shipped one, with everything a sheet can show. */

import { parse } from 'yaml';
import type { Calculator } from '../../src/calc/types.js';
import { replay } from '../../src/engine/replay/replay.js';
import { type ReplayFile, replaySchema } from '../../src/engine/replay/replay-file.js';
import type { State } from '../../src/engine/state/state.js';
import { loadProcedure, loadTable } from '../../src/procedure/load.js';
import { modelOf } from '../../src/procedure/model.js';

const room: Calculator = {
  name: 'room',
  title: 'Room in the coupling',
  inputs: {
    length: { type: 'quantity', kind: 'length', unit: 'mm', label: 'Length of the gap' },
    factor: { type: 'quantity', kind: 'ratio', unit: '', label: 'Shape factor' },
  },
  results: { volume: { label: 'Room', kind: 'volume', unit: 'mL' } },
  formula: 'V = f L / 10',
  source: { tag: 'P', text: 'Invented Handbook of Couplings, table 7' },
  run: (i) => {
    const l = i.length as { value: number; plusMinus?: number };
    const f = i.factor as { value: number };
    return {
      results: {
        volume: { value: (f.value * l.value) / 10, plusMinus: (f.value * (l.plusMinus ?? 0)) / 10, dominant: 'length' },
      },
      warnings: l.value > 40 ? ['The gap is wider than usual.'] : [],
      worked: [`V = ${f.value} x ${l.value} / 10 = ${(f.value * l.value) / 10} mL`],
    };
  },
};
const strokes: Calculator = {
  name: 'strokes',
  title: 'Strokes of the gun',
  inputs: { doses: { type: 'quantities', kind: 'volume', unit: 'mL', label: 'Doses' } },
  results: { marks: { label: 'Marks on the gun', kind: 'length', unit: 'mm', list: true } },
  formula: 'mark = 6 x sum of doses',
  source: { tag: 'M', text: 'SECRET MEMORY SOURCE' },
  run: (i) => {
    let sum = 0;
    const marks = (i.doses as { value: number }[]).map((d) => (sum += d.value * 6));
    return {
      results: { marks: { value: marks, plusMinus: marks.map(() => 0.5) } },
      warnings: [],
      worked: [`marks ${marks.join(', ')}`],
    };
  },
};
export const calculators = { room, strokes };

export const tableText = `
table: shapes
title: Shapes
columns: { factor: { type: number, label: Shape factor } }
rows:
  - { id: toothed, factor: 0.5, tag: CP, source: SECRET COMMON SOURCE }
  - { id: disc, factor: 0.4, tag: P, source: "Invented Standard, 3rd ed., table 12" }
`;

export const procedureText = `
procedure: fill-coupling
version: 2.1.0
title: Fill a coupling
summary: Invented for tests.
notice: Invented notice.
places:
  - id: half
    name: Half
    instances:
      - { id: l, label: Left half, label_from: name_l }
      - { id: r, label: Right half }
phases:
  - { id: begin, title: Begin }
  - { id: work, title: Work }
steps:
  - id: name
    phase: begin
    at: job
    title: Name it
    do: Name it.
    why: So.
    ask:
      - { key: pump, kind: text, label: Pump }
      - { key: name_l, kind: text, label: Name of the left half }
  - id: look
    phase: begin
    at: half
    title: Look at it
    do: Look.
    why: So.
    hazard: true
    caution: [Fingers out of the coupling.]
    ask:
      - key: shape
        kind: choice-from-table
        table: shapes
        label: Shape
      - { key: gap, kind: quantity, quantity: length, unit: mm, label: Gap, limits: [1, 100], plausible: [5, 60], plus_minus: 0.5 }
      - { key: dirt, kind: yes-no, label: Dirty }
    gates:
      - { id: clean, must: "!dirt", say: Dirty. Clean it first., overrule: with-reason }
    mark: "Gap {gap}"
  - id: decide
    phase: work
    at: half
    title: Decide the dose
    do: Decide.
    why: So.
    decision: true
    rests_on: [room_here]
    predict: [room_here]
    ask:
      - { key: dose, kind: quantity, quantity: volume, unit: mL, label: Dose, limits: [0.1, 20] }
    hold: { say: Mentor works it out., self_check: I worked it out twice. }
    mark: "Dose {dose}"
  - id: put-in
    phase: work
    at: half
    title: Put it in
    do: Put it in.
    why: So.
    physical: true
    rests_on: [dose, marks]
    remedy: "Now {dose}, was {dose.old}: change {dose.change}."
    draw: { picture: syringe, with: { marks: marks, bore: "14.5" } }
    wait: { minutes: "30.0", label: settling }
  - id: run
    phase: work
    at: job
    title: Run it
    do: Run.
    why: So.
    repeat: { until: "rows_run >= 3.0", most: 10 }
    draw: { picture: run-in-curve, with: { minutes: elapsed_run, temp: all_heat, limit: "60.0", name: "'left'" } }
    ask:
      - { key: heat, kind: quantity, quantity: temperature, unit: degC, label: Temperature, limits: [0, 100] }
  - id: recheck
    phase: work
    at: half
    branch: leak
    title: Look for the leak
    do: Look.
    why: So.
    ask:
      - { key: leak_at, kind: text, label: Where it leaks }
facts:
  - { key: factor, at: half, label: Shape factor, quantity: ratio, is: "number_in('shapes', shape, 'factor')" }
  - { key: doses, at: job, label: Doses, over: half, list: dose, type: list<double>, quantity: volume }
calcs:
  - { calc: room, at: half, with: { length: gap, factor: factor }, gives: { volume: room_here } }
  - { calc: strokes, at: job, with: { doses: doses }, gives: { marks: marks } }
branches:
  - { id: leak, at: half, title: It leaks, mark: "Leak: {leak_at}", reopens: [look] }
sheet:
  headline: [pump]
  figures: [{ key: dose, heading: Dose that went in }, { key: marks }]
  decisions: [decide]
  groups: [{ title: Materials, keys: [shape] }]
  next: [name_l]
  strip: { title: Strip for the gun, marks: marks, each: half, say: Lay the start line at the piston. }
`;

export function model(text = procedureText) {
  const { table, problems } = loadTable(tableText, 'shapes.yaml');
  if (!table || problems.length) throw new Error(JSON.stringify(problems));
  const tables = { shapes: table };
  const loaded = loadProcedure(text, 'fill-coupling.yaml', { tables, calculators });
  if (!loaded.procedure) throw new Error(JSON.stringify(loaded.problems, undefined, 1));
  return modelOf(loaded.procedure, 'f00dfeed', tables, calculators);
}

export const jobText = `
replay: 1
invented: true
name: Test pump
procedure: fill-coupling
by: AP
apprentice: AP
mentor: MN
start: 2026-03-02T08:00:00Z
steps:
  - { step: name, answers: { pump: "Pump 7", name_l: "Motor side" } }
  - { step: look, at: l, answers: { shape: toothed, gap: "1 in", dirt: "no" } }
  - { step: look, at: r, answers: { shape: disc, gap: "20 mm", dirt: "yes" }, overrule: { gate: clean, reason: "oil mist only", initials: MN } }
  - { step: decide, at: l, predict: { room_here: "1.5 mL" }, answers: { dose: "1.3 mL" }, sign: MN }
  - { step: decide, at: r, answers: { dose: "0.8" }, sign: MN }
  - { note: "Bench lamp is weak", at: l }
  - { step: put-in, at: l, after: 5 min }
  - { step: put-in, at: r }
  - { step: put-in, at: r, overrule: { gate: wait, reason: "shift ends", initials: MN } }
  - { handover: "Left half still settling" }
  - { correct: { step: decide, at: l, key: dose, value: "1.5 mL", reason: "read the wrong line" }, after: 40 min }
  - { step: decide, at: l, sign: MN }
  - { raise: leak, at: r, text: "at the flange" }
  - { step: recheck, at: r, answers: { leak_at: "lower bolt" } }
  - { step: look, at: r, answers: { shape: disc, gap: "20 mm", dirt: "no" } }
  - { step: run, rows: [ { heat: "25 C" }, { after: 10 min, heat: "77 F" }, { after: 10 min, heat: "40" } ] }
`;

export const jobFile = (text = jobText): ReplayFile => replaySchema.parse(parse(text));

/** The finished state of the invented job, or of another one on the same procedure. */
export function finished(file: ReplayFile = jobFile(), m = model()): State {
  const out = replay(m, file);
  if (!out.ok) throw new Error(`item ${out.item}: ${out.message}`);
  return out.state;
}
