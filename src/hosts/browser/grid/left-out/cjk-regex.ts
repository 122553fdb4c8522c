/** In place of the package cjk-regex, which carries tables of characters that the language itself knows by now. */

const setOf = (characters: string) => ({ toRegExp: () => new RegExp(`[${characters}]`, "u") });

const lettersOf = ["Han", "Hiragana", "Katakana", "Hangul", "Bopomofo"].map((script) => `\\p{Script=${script}}`).join("");
/** CJK symbols and punctuation, and the punctuation among the half and full width forms. */
const punctuation = "\\u3000-\\u303F\\uFE30-\\uFE4F\\uFF00-\\uFF0F\\uFF1A-\\uFF20\\uFF3B-\\uFF40\\uFF5B-\\uFF65";

export const letters = () => setOf(lettersOf);
export const punctuations = () => setOf(punctuation);
export const all = () => setOf(lettersOf + punctuation);
