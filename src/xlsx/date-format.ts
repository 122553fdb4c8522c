/** Number formats that show dates. */

/** Whether a format shows a number as a date: it has a day, a year, or a month that is not one of minutes. Clock times alone do not count. */
export function countsDays(format: string): boolean {
  const letters = format
    .replace(/"[^"]*"|\\.|_.|\*.|\[(?!(?:h+|m+|s+)\])[^\]]*\]|AM\/PM|A\/P|General/gi, "")
    .toLowerCase();
  return /[dy]/.test(letters) || (/m/.test(letters) && !/[hs]/.test(letters));
}
