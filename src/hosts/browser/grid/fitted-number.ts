/** A number without a format, with as many digits as the width of its cell in pixels has room for, as spreadsheets show it. */
export function fittedNumber(value: number, width: number, fontPoints: number): string {
  // A digit of the grid's fonts is about 0.75 of the point size wide in pixels; the cell keeps a margin.
  const room = Math.max(1, Math.floor((width - 6) / (fontPoints * 0.75)));
  for (let digits = Math.min(15, room); digits > 1; digits--) {
    const text = String(Number(value.toPrecision(digits)));
    if (text.length <= room) return text;
  }
  return String(Number(value.toPrecision(1)));
}
