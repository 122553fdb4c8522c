/** What is put into cells, by typing, pasting or filling, where a file could not hold it or it is likely meant otherwise. */
import { CellValueType, type ICellData, type Injector, type Nullable } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { AFTER_CELL_EDIT, SetRangeValuesMutation, SheetInterceptorService, type ISetRangeValuesMutationParams } from "@univerjs/sheets";
import { address } from "../../../sheet/references";
import { inWords, longestFormula, longestText } from "../../../xlsx/limits";
import { countsDays } from "../../../xlsx/date-format";
import { hasDecimalComma, numberWithComma, withCommas } from "../typed-entry";

/** 31 December 9999, the last date that a cell can show, as cells count days. */
const lastDay = 2_958_465;

/** `tell` gets a sentence for the person; `language` is the one that they type in. */
export function checkEntries(api: FUniver, injector: Injector, tell: (words: string) => void, language: string): void {
  const decimalComma = hasDecimalComma(language);
  let said = false;
  const sayOnce = (words: string) => {
    if (!said) tell(words);
    said = true;
  };
  if (decimalComma) readPercentagesWithComma(injector, sayOnce);
  api.onBeforeCommandExecute((command) => {
    if (command.id !== SetRangeValuesMutation.id) return;
    const { unitId, subUnitId, cellValue } = command.params as ISetRangeValuesMutationParams;
    const sheet = api.getWorkbook(unitId)?.getSheetBySheetId(subUnitId);
    if (!sheet) return;
    for (const [row, line] of Object.entries(cellValue ?? {})) {
      const cells = line as Record<string, Nullable<ICellData>>;
      for (const [column, change] of Object.entries(cells)) {
        if (!change) continue;
        const at = address(Number(row), Number(column));
        if (change.f) change.f = withCommas(change.f);
        const format = () => sheet.getRange(Number(row), Number(column)).getCellStyleData()?.n?.pattern ?? "";
        const words = decimalComma && readWithComma(change, format);
        if (words) sayOnce(words);
        const refusal = refusalOf(change, at);
        if (refusal !== undefined) {
          Reflect.deleteProperty(cells, column);
          tell(refusal);
        } else if (typeof change.v === "number" && change.v > lastDay) {
          const date = readAsDate(change, at, format);
          if (date !== undefined) tell(date);
        }
      }
    }
  });
}

/** In a percentage the library takes a comma for one between thousands: it would read 9,4 % as 94 %. What is typed is given to it with a point. */
function readPercentagesWithComma(injector: Injector, say: (words: string) => void): void {
  injector.get(SheetInterceptorService).writeCellInterceptor.intercept(AFTER_CELL_EDIT, {
    // Before the library's own reading of numbers.
    priority: 100,
    handler: (value, _, next) => {
      const typed = value?.p?.body?.dataStream?.replace(/\r\n$/, "") ?? value?.v;
      const read = typeof typed === "string" ? numberWithComma(typed) : undefined;
      if (!value || !read?.percent || value.t === CellValueType.FORCE_STRING) return next(value);
      say(readInWords(String(typed), read));
      return next({ ...value, p: undefined, v: `${hundredfold(read.value)}%` });
    },
  });
}

function hundredfold(value: number): number {
  return Number((value * 100).toPrecision(12));
}

function readInWords(typed: string, { value, percent }: NonNullable<ReturnType<typeof numberWithComma>>): string {
  const read = percent ? `${hundredfold(value)} %` : value;
  return `“${typed.trim()}” was read as ${read}: the language of this browser writes decimals with a comma. Undo takes it back.`;
}

/** A number typed with a decimal comma, which the library takes for a text. Answers how it was read. */
function readWithComma(change: ICellData, formatOfCell: () => string): string | undefined {
  if (typeof change.v !== "string" || change.f || change.t === CellValueType.FORCE_STRING || formatOfCell() === "@") return undefined;
  const read = numberWithComma(change.v);
  if (!read) return undefined;
  const typed = change.v;
  change.v = read.value;
  change.t = CellValueType.NUMBER;
  return readInWords(typed, read);
}

/** Why a cell stays as it was. */
function refusalOf({ v, f, p }: ICellData, at: string): string | undefined {
  const text = typeof v === "string" ? v : (p?.body?.dataStream ?? "");
  if (text.length > longestText) {
    return `The text for ${at} has ${inWords(text.length)} characters, and a cell holds up to ${inWords(longestText)}. ${at} stays as it was.`;
  }
  if (f && f.length > longestFormula + 1) {
    return `The formula for ${at} has ${inWords(f.length - 1)} characters, and a formula has up to ${inWords(longestFormula)}. ${at} stays as it was.`;
  }
  return undefined;
}

/** A date typed without its signs, in a cell that shows dates; the number itself would be a day tens of thousands of years away. */
function readAsDate(change: ICellData, at: string, formatOfCell: () => string): string | undefined {
  if (!countsDays(formatOfCell())) return undefined;
  const [, year, month, day] = /^(\d{4})(\d\d)(\d\d)$/.exec(String(change.v)) ?? [];
  const time = Date.UTC(Number(year), Number(month) - 1, Number(day));
  const iso = `${year}-${month}-${day}`;
  if (year === undefined || Number(year) < 1900 || !new Date(time).toISOString().startsWith(iso)) {
    return `${at} shows dates, and ${change.v} is none: the last is 9999-12-31, day ${inWords(lastDay)}. Type it as in 2026-11-27.`;
  }
  change.v = time / 86_400_000 + dayOf1970;
  return `${at} shows dates, so ${year}${month}${day} was read as ${iso}. Undo takes it back.`;
}

/** Cells count days from the end of 1899. */
const dayOf1970 = 25_569;
