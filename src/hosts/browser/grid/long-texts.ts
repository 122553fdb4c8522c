/**
 * Texts that the library would lay out for seconds, or minutes, whenever their cell is selected: its editors get the beginning only. So that
 * nothing of the text is lost, such a cell can be replaced and emptied, but not be edited in place.
 */
import { CanceledError, type ICellDataForSheetInterceptor, type Injector, type Nullable } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { BEFORE_CELL_EDIT, SheetInterceptorService } from "@univerjs/sheets";
import { SetCellEditVisibleOperation, type IEditorBridgeServiceVisibleParam } from "@univerjs/sheets-ui";
import { KeyCode } from "@univerjs/ui";

/** Characters that are laid out within a tenth of a second or so. */
const longestEdited = 4_000;
/** Of a longer text so many are shown in the editors. */
const shownOfLonger = 200;

/** `tell` gets a sentence for the person. */
export function keepLongTextsOutOfEditors(api: FUniver, injector: Injector, tell: (words: string) => void): void {
  injector.get(SheetInterceptorService).writeCellInterceptor.intercept(BEFORE_CELL_EDIT, {
    id: "long-texts",
    handler: (cell, _location, next) => next(shortened(cell)),
  });
  api.onBeforeCommandExecute((command) => {
    if (command.id !== SetCellEditVisibleOperation.id) return;
    const { visible, keycode } = command.params as IEditorBridgeServiceVisibleParam;
    // A key that is typed begins with an empty editor.
    const replaces = keycode !== undefined && keycode !== KeyCode.F2;
    if (!visible || replaces) return;
    const range = api.getActiveWorkbook()?.getActiveSheet().getActiveRange();
    const text = range && longText(range.getRawValue());
    if (!text) return;
    tell(`This text has ${text.length.toLocaleString("en")} characters, and texts of up to ${longestEdited.toLocaleString("en")} are edited here. It stays as it is; what you type replaces it.`);
    throw new CanceledError();
  });
}

function shortened(cell: Nullable<ICellDataForSheetInterceptor>): Nullable<ICellDataForSheetInterceptor> {
  const text = cell?.f || cell?.si ? undefined : longText(cell?.v);
  return text === undefined ? cell : { ...cell, v: `${text.slice(0, shownOfLonger)} …`, p: null };
}

function longText(value: unknown): string | undefined {
  return typeof value === "string" && value.length > longestEdited ? value : undefined;
}
