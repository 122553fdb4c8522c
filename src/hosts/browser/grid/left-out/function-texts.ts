/** What the grid's own functions do, in words: loaded once the page stands, see `function-texts.ts` beside this folder. */
export default {};
