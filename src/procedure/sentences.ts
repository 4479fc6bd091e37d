/** Sentences and the instructions in them, by the verbs of the word list: no grammar beyond what these texts need. */

/** Where a text breaks into sentences; a figure in braces counts as a word. */
export function sentencesOf(text: string): readonly { readonly text: string; readonly at: number }[] {
  const out: { text: string; at: number }[] = [];
  const add = (begin: number, end: number): void => {
    const part = text.slice(begin, end);
    out.push({ text: part.trim(), at: begin + part.length - part.trimStart().length });
  };
  const ends = /[.!?]["”)]?(?=\s|$)/g;
  let from = 0;
  for (let m = ends.exec(text); m; m = ends.exec(text)) {
    const end = m.index + m[0].length;
    // "e.g. x" goes on; so does a figure's point.
    if (end < text.length && !/^\s+["“(]?[A-Z{0-9]/.test(text.slice(end))) continue;
    add(from, end);
    from = end;
  }
  if (text.slice(from).trim()) add(from, text.length);
  return out;
}

export const wordCount = (sentence: string): number =>
  sentence
    .replace(/\{[^}]*\}/g, 'x')
    .split(/\s+/)
    .filter((w) => /[\p{L}\p{N}]/u.test(w)).length;

/** What may stand before the verb of an instruction. */
const leadIn =
  /^(?:(?:DANGER|WARNING|CAUTION|NOTICE)\b[:\s]*)?(?:(?:then|now|first|and|or|always|slowly|gently|again|please|only)\s+)*/i;
/** Begins a part that is a condition, a time, a place or a means, and ends with a comma. */
const circumstance =
  /^(?:if|when|where|while|once|before|after|as|until|unless|with|without|from|at|on|in|every|for|behind|beneath|under|by)\b/i;
/** What follows a verb in an instruction, and not a noun: "and dry it", but "film and dry cloth". */
const object =
  /^(?:the|a|an|it|its|them|this|that|these|each|every|all|any|your|one|two|three|four|both|on|off|out|up|down|in|into|with|for|to|until|by|over|under|round|through|at|from|away|again|back|what|how|whether|where|which|when|if|slowly|no|not|only|aloud|just)\b|^(?:\{|\d|$|[.,;:])/i;

export function instructionsIn(sentence: string, verbs: ReadonlySet<string>): readonly string[] {
  const found: string[] = [];
  const starts = (part: string, first: boolean): void => {
    const text = part.replace(leadIn, '').trim();
    const m = /^(?:(?:never|do not|don't)\s+)?([a-z-]+)\b\s*/i.exec(text);
    const verb = m?.[1]?.toLowerCase();
    if (!m || !verb) return;
    if (/^(?:never|do not)\b/i.test(text)) found.push(verb);
    else if (!verbs.has(verb)) return;
    else if (first || object.test(text.slice(m[0].length))) found.push(verb);
  };
  // A condition at the head belongs to the instruction after its comma.
  // What is quoted is written on something, and instructs nobody here.
  let text = sentence.replace(/"[^"]*"|“[^”]*”/g, 'it').replace(leadIn, '');
  while (circumstance.test(text.replace(leadIn, '')) && text.includes(','))
    text = text.slice(text.indexOf(',') + 1).trim();
  // An alternative is no second instruction.
  const parts = text.split(/([,;:])\s+|\s+-\s+|\s+(?=(?:and|or|then)\s)/);
  for (let i = 0; i < parts.length; i += 2) {
    const part = parts[i] ?? '';
    // After a colon a sentence of its own begins: what hurts, then what to do.
    const opens = i === 0 || parts[i - 1] === ':';
    if (opens || !/^or\s/i.test(part)) starts(part.replace(/^(?:and|or|then)\s+/i, ''), opens);
  }
  if (found.length === 0 && circumstance.test(sentence.replace(leadIn, ''))) {
    const rest = sentence.split(/\s+/).slice(1);
    rest.some((word) => {
      if (!verbs.has(word.toLowerCase())) return false;
      return found.push(word.toLowerCase()) > 0;
    });
  }
  return found;
}
