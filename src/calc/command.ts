/** The shell edge of the calculators: `calc NAME key=value… [--json]`. Pure: text in, text and exit code out. */
import { currencyOf } from '../units/currency.js';
import { showQuantity } from '../units/show.js';
import { cite } from './cite.js';
import { calculators } from './index.js';
import { nearest } from './near-miss.js';
import { listAll, listOne, printOutcome } from './print.js';
import { pairsOf, readInput } from './read-arguments.js';
import { jsonOf } from './report.js';
import { CalcRefusal, type Calculator, type InputSpec, type InputValue, type Tables } from './types.js';

export interface CommandOutput {
  readonly stdout: string;
  readonly stderr: string;
  /** 0 done, 2 wrong input. */
  readonly code: number;
}

/** What was typed is echoed: control characters in it must not reach the terminal. */
const failed = (message: string): CommandOutput => ({
  stdout: '',
  stderr: `${message.replace(/[\u0000-\u001f\u007f-\u009f]/g, '?')}\n`,
  code: 2,
});

/** Runs one calculator from words such as `['syringe', 'bore=14.5', 'doses=1ml,1ml', '--json']`. */
export function runCalc(argv: readonly string[], tables: Tables): CommandOutput {
  const json = argv.includes('--json');
  const help = argv.some((word) => word === '--help' || word === '-h');
  const words = argv.filter((word) => !['--json', '--help', '-h'].includes(word));
  const option = words.find((word) => /^--?[a-z]/i.test(word));
  if (option) return failed(`calc has no option ${option}: type key=value pairs, and --json for JSON.`);
  const [name, ...rest] = words;
  if (name === undefined)
    return { stdout: json ? `${JSON.stringify(catalogue(), null, 2)}\n` : listAll(calculators), stderr: '', code: 0 };
  const calculator = Object.hasOwn(calculators, name) ? calculators[name] : undefined;
  if (!calculator) {
    const near = nearest(name, Object.keys(calculators));
    return failed(
      `There is no calculator “${name}”: ${near ? `did you mean ${near}?` : 'type calc alone for the list.'}`,
    );
  }
  if (help) return { stdout: listOne(calculator), stderr: '', code: 0 };
  try {
    return { stdout: run(calculator, rest, tables, json), stderr: '', code: 0 };
  } catch (error) {
    if (error instanceof CalcRefusal) return failed(`${error.key}: ${error.message}`);
    throw error;
  }
}

function run(calculator: Calculator, words: readonly string[], tables: Tables, json: boolean): string {
  const inputs: Record<string, InputValue> = {};
  const currencies = new Set<string>();
  for (const [key, typed] of pairsOf(calculator, words)) {
    const spec = calculator.inputs[key] as InputSpec;
    const read = readInput(key, spec, typed);
    inputs[key] = read.value;
    if (spec.type === 'quantity' && spec.kind === 'money' && read.unit)
      currencies.add(currencyOf(read.unit) ?? read.unit);
    if (currencies.size > 1)
      throw new CalcRefusal(
        key,
        `Amounts are in different currencies (${[...currencies].join(', ')}): type all in one.`,
      );
  }
  const outcome = calculator.run(inputs, tables);
  return json
    ? `${JSON.stringify(jsonOf(calculator, inputs, outcome), null, 2)}\n`
    : printOutcome(calculator, inputs, outcome);
}

/** All calculators with their keys, for scripts. */
function catalogue() {
  return Object.values(calculators).map((calculator) => ({
    name: calculator.name,
    title: calculator.title,
    inputs: Object.fromEntries(
      Object.entries(calculator.inputs).map(([key, spec]) => [
        key,
        {
          label: spec.label,
          type: spec.type,
          optional: spec.optional === true,
          ...('unit' in spec ? { unit: spec.unit } : {}),
          ...('choices' in spec ? { choices: spec.choices } : {}),
          ...(spec.limits && 'kind' in spec ? { limits: spec.limits.map((v) => showQuantity(v, spec.kind)) } : {}),
        },
      ]),
    ),
    results: calculator.results,
    formula: calculator.formula,
    source: cite(calculator.source),
  }));
}
