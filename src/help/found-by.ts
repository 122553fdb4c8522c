/** The search of the help and of FUNCTIONS(): everything whose text has all the words that are typed. */

/**
 * A word counts whole, one or many ("shot", "shots"). Only one that no text has whole counts as the beginning of a longer one, so that “gri”
 * finds the grinder while it is typed, but “sour” does not find a source.
 */
export function foundBy<T>(typed: string, things: readonly T[], textOf: (thing: T) => string): T[] {
  const texts = things.map((thing) => new Set(wordsOf(textOf(thing))));
  const hasAll = wordsOf(typed).map((word) => {
    const other = word.endsWith("s") ? word.slice(0, -1) : `${word}s`;
    const whole = (text: ReadonlySet<string>): boolean => text.has(word) || text.has(other);
    return texts.some(whole) ? whole : (text: ReadonlySet<string>): boolean => [...text].some((one) => one.startsWith(word));
  });
  return things.filter((_, index) => hasAll.every((has) => has(texts[index]!)));
}

function wordsOf(text: string): string[] {
  return text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
}
