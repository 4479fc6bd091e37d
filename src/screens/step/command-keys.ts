/** Keys of the page of a step that are letters of a text while one is typed. */
export const commandKeys: readonly string[] = ['w', 'd', 'n', '?', 'm', 'o', 'u', 'r', '*', 'y', '/'];

/** What to say where one of them, alone, would become the answer to a text; undefined where it is none. */
export function loneKey(text: string): string | undefined {
  const typed = text.trim().toLowerCase();
  if (!commandKeys.includes(typed)) return undefined;
  return `“${text.trim()}” is a key of the guide, and here it is only a letter. For the key press Esc, then ${typed}.`;
}
