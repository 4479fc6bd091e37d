/** An issue of the schema as what is wrong and how to mend it. */
import { isList, isRecord } from '../guards/guards.js';
import { near } from './near.js';
import { type Code, listed, type Path, quoted } from './problem.js';

export interface Issue {
  readonly code?: string;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly keys?: readonly string[];
  readonly expected?: string;
  readonly values?: readonly unknown[];
  readonly errors?: readonly (readonly Issue[])[];
  readonly issues?: readonly Issue[];
  readonly options?: readonly unknown[];
  readonly origin?: string;
  /** The bound itself is allowed. */
  readonly inclusive?: boolean;
  readonly minimum?: number | bigint;
  readonly maximum?: number | bigint;
}

export interface IssueWords {
  readonly code: Code;
  readonly message: string;
  readonly cure: string;
  /** Name inside the path at which it should be shown. */
  readonly key?: string;
}

const typeWords: Record<string, string> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'a block of “name: value” lines',
  record: 'a block of “name: value” lines',
  tuple: 'two numbers such as [1, 10]',
};

const containers: Record<string, string> = {
  steps: 'step',
  ask: 'question',
  gates: 'gate',
  options: 'choice',
  facts: 'fact',
  calcs: 'calculation',
  branches: 'branch',
  phases: 'phase',
  places: 'kind of place',
  instances: 'place',
  rows: 'row',
  columns: 'column',
  reads: 'value read from the earlier job',
  needs: 'need',
};

/** “ in the step “clean””: the innermost part of the file that has a name, or ''. */
function partOf(root: unknown, path: Path): string {
  let found = '';
  let value = root;
  for (const [n, step] of path.entries()) {
    if (isRecord(value)) value = value[step];
    else if (isList(value)) value = value[Number(step)];
    else break;
    const word = containers[String(path[n - 1] ?? '')];
    if (!word || typeof value !== 'object' || value === null) continue;
    const { id, key, value: own, calc }: Readonly<Record<string, unknown>> = isRecord(value) ? value : {};
    const name = typeof step === 'string' ? step : (id ?? key ?? own ?? calc);
    found =
      typeof name === 'string' || typeof name === 'number'
        ? ` in the ${word} “${quoted(name)}”`
        : ` in ${word} number ${Number(step) + 1}`;
  }
  return found;
}

/** What a schema found wrong. */
export const issuesOf = ({ issues }: { readonly issues: readonly unknown[] }): Issue[] =>
  (issues as readonly Issue[]).flatMap(flatten);

/** Of a union the branch that comes closest speaks. */
function flatten(issue: Issue): Issue[] {
  if (issue.code !== 'invalid_union' || !issue.errors?.length) return [issue];
  const best = [...issue.errors].sort((a, b) => weight(a) - weight(b))[0] ?? [];
  return best.flatMap((i) => flatten({ ...i, path: [...issue.path, ...i.path] }));
}
const weight = (issues: readonly Issue[]): number =>
  issues.reduce(
    (n, i) => n + (i.code === 'unrecognized_keys' ? (i.keys?.length ?? 1) * 2 : 1) - i.path.length * 0.1,
    0,
  );

/** `value` is what stands at the path, `allowed` the names that may stand in that block. */
export function explain(issue: Issue, root: unknown, value: unknown, allowed: readonly string[]): IssueWords[] {
  return inWords(issue, root, value, allowed).map((s) => ({ ...s, code: codeOf(issue, value) }));
}

function codeOf(issue: Issue, value: unknown): Code {
  if (issue.code === 'unrecognized_keys') return 'name-not-known';
  if (value === undefined && issue.code !== 'invalid_key') return 'missing';
  if (issue.code === 'invalid_type') return value === null ? 'missing' : 'kind-of-value';
  return issue.code === 'too_small' || issue.code === 'too_big' ? 'out-of-bounds' : 'value-not-allowed';
}

function inWords(issue: Issue, root: unknown, value: unknown, allowed: readonly string[]): Omit<IssueWords, 'code'>[] {
  const path = issue.path.filter((p): p is string | number => typeof p !== 'symbol');
  const last = path.at(-1);
  const index = typeof last === 'number';
  const name = index ? quoted(path.at(-2) ?? 'the list') : quoted(last ?? 'the file');
  const here = index ? `Item ${Number(last) + 1} of “${name}”` : `“${name}”`;
  const inPart = partOf(root, path.slice(0, -1));
  switch (issue.code) {
    case 'unrecognized_keys': {
      const within = partOf(root, path);
      return (issue.keys ?? []).map((key) => ({
        key,
        message: `“${quoted(key)}” is not a name that is known${within || ' here'}.`,
        cure:
          strayCure(key, path) ??
          (near(key, allowed) || (cutOff(value, key) ? commaCure : `Use one of: ${listed(allowed)}.`)),
      }));
    }
    case 'invalid_type': {
      const expected = typeWords[issue.expected ?? ''] ?? 'another value';
      if (value === undefined)
        return [
          { message: `“${name}” is missing${inPart}.`, cure: `Add “${name}:” with ${expected}${noneCure(path)}.` },
        ];
      if (value === null)
        return [{ message: `${here} is empty${inPart}.`, cure: `Give it ${expected}, or take the line out.` }];
      return [
        {
          message: `${here} should be ${expected}${inPart}.`,
          cure: expectedText(issue, last, value) ?? mendType(issue.expected, value, allowed),
        },
      ];
    }
    case 'invalid_value':
    case 'invalid_union': {
      const choices = (issue.values ?? issue.options ?? []).map(String);
      if (value === undefined)
        return [{ message: `“${name}” is missing${inPart}.`, cure: `Add “${name}:” with one of: ${listed(choices)}.` }];
      return [
        {
          message: `${here} can’t be “${quoted(value)}”${inPart}.`,
          cure: (typeof value === 'string' && near(value, choices)) || `Use one of: ${listed(choices)}.`,
        },
      ];
    }
    case 'too_small':
      return [
        {
          message: `${here} ${small(issue)}${inPart}.`,
          cure: cureOfSmall(issue),
        },
      ];
    case 'too_big':
      return [
        {
          message: `${here} ${big(issue)}${inPart}.`,
          cure: isList(value) && value.every((v) => typeof v === 'number') ? pointCure : cureOfBig(issue),
        },
      ];
    case 'invalid_key':
      return [
        {
          key: '',
          message: `The name “${name}” has a form that is not allowed${inPart}.`,
          cure: `Use ${issue.issues?.[0]?.message ?? 'another name'}.`,
        },
      ];
    case 'invalid_format':
      return [{ message: `${here} has a form that is not allowed${inPart}.`, cure: `Use ${issue.message}.` }];
    default:
      return [
        { message: `${here} has a value that is not allowed${inPart}.`, cure: 'Compare it with a shipped procedure.' },
      ];
  }
}

/** Text with a comma between { and } falls apart there: the rest stands as a name without a value. */
const noneCure = (path: Path): string =>
  path.length === 1 && path[0] === 'places' ? ', or “places: []” where all is done at the whole job' : '';

const cutOff = (block: unknown, key: string): boolean => / /.test(key) && isRecord(block) && block[key] === null;
const pointCure = 'Write a decimal with a point, such as 0.5: a comma parts two values.';
/** What stands where it can't be meant, and where it belongs. */
function strayCure(key: string, path: Path): string | undefined {
  if (/^\d+$/.test(key)) return pointCure;
  if (path.at(-2) !== 'branches') return undefined;
  if (key === 'steps' || key === 'do')
    return 'Its steps stand under “steps:” of the file, each with “branch:” and its id.';
  return key === 'branch' ? 'Write “id:” here; “branch:” stands in each of its steps.' : undefined;
}
const commaCure = 'Between { and } a comma ends a value: put text with a comma in double quotes.';

/** A bare number where a text of a certain form is wanted: in quotes alone it would be refused once more. */
function expectedText({ expected }: Issue, name: unknown, value: unknown): string | undefined {
  if (expected !== 'string' || typeof value !== 'number') return undefined;
  if (name === 'version')
    return `Write three numbers such as ${[...`${value}`.split('.'), '0', '0'].slice(0, 3).join('.')}.`;
  // An expression wants a point.
  return name === 'minutes' && Number.isInteger(value) ? `Put it in quotes, with a point: "${value}.0".` : undefined;
}

function mendType(expected: string | undefined, value: unknown, allowed: readonly string[]): string {
  if (expected === 'string' && (typeof value === 'number' || typeof value === 'boolean'))
    return `Put it in quotes: "${String(value)}".`;
  if (expected === 'string') return 'Write one text; put it in quotes when it begins with [ or {.';
  if (expected === 'boolean') return 'Write true or false.';
  if (expected === 'int' && typeof value === 'number') return 'Write it without a point.';
  if ((expected === 'number' || expected === 'int') && typeof value === 'string')
    return 'Write digits with a point and no unit.';
  if (expected === 'array') return 'Write each item on a line of its own that begins with “- ”.';
  if (expected === 'tuple') return 'Write two numbers such as [1, 10].';
  return allowed.length
    ? `Write its parts: ${listed(allowed.map((n) => `${n}:`))}.`
    : 'Write its parts as “name: value”.';
}

const items = (n: unknown): string => (Number(n) === 1 ? 'one item' : `${n} items`);
function small(issue: Issue): string {
  if (issue.origin === 'string') return 'is empty';
  if (issue.origin === 'array') return `needs at least ${items(issue.minimum)}`;
  return issue.inclusive ? `can’t be less than ${issue.minimum}` : `has to be more than ${issue.minimum}`;
}
function cureOfSmall({ origin, inclusive, minimum }: Issue): string {
  if (origin === 'array') return 'Add what is missing.';
  if (origin === 'string') return 'Write it out.';
  return inclusive ? `Write ${minimum} or more.` : `Write more than ${minimum}.`;
}
function big(issue: Issue): string {
  if (issue.origin === 'array') return `can have at most ${items(issue.maximum)}`;
  return issue.origin === 'string' ? 'is too long' : `can be at most ${issue.maximum}`;
}
function cureOfBig({ origin, maximum }: Issue): string {
  if (origin === 'array') return 'Take some out.';
  return origin === 'string' ? `Shorten it to ${maximum} characters.` : `Write ${maximum} or less.`;
}
