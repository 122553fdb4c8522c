/** In place of the package franc-min, by which the grid library guesses the language of long texts to hyphenate them. Cells are not hyphenated. */

/** "Undetermined", as ISO 639-3 has it. */
export const franc = () => "und";
