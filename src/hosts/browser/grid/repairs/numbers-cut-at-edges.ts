/**
 * What is wrong: a number without a format is drawn with all its digits and cut at the edge of its cell.
 * How it shows: 1/3 reads as 0.3333333 in a wide cell, and a long number ends in the middle of a digit in a narrow one.
 */
import { CellValueType, InterceptorEffectEnum, type Injector } from "@univerjs/core";
import { INTERCEPTOR_POINT, SheetInterceptorService } from "@univerjs/sheets";

export function fitNumbersToWidths(injector: Injector): void {
  injector.get(SheetInterceptorService).intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
    id: "fit-numbers",
    // Before the number formats, which then see a text and leave it alone.
    priority: 9,
    effect: InterceptorEffectEnum.Value,
    handler: (cell, location, next) => {
      if (typeof cell?.v !== "number" || cell.t === CellValueType.BOOLEAN || Number.isInteger(cell.v)) return next(cell);
      const style = cell.s ? location.workbook.getStyles().get(cell.s) : undefined;
      if (style?.n?.pattern && style.n.pattern !== "General") return next(cell);
      const text = fittedNumber(cell.v, location.worksheet.getColumnWidth(location.col), style?.fs ?? 11);
      return next({ ...(cell === location.rawData ? { ...location.rawData } : cell), v: Number(text) });
    },
  });
}

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
