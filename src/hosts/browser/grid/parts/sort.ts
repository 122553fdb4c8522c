import { UniverSheetsSortPlugin } from "@univerjs/sheets-sort";
import type { Part } from "../parts";

export { SheetsSortService, SortRangeCommand, SortType } from "@univerjs/sheets-sort";

export const part: Part = { plugins: [UniverSheetsSortPlugin], locales: [] };
