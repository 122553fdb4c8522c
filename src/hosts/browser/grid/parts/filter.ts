import { UniverSheetsFilterPlugin } from "@univerjs/sheets-filter";
import words from "@univerjs/sheets-filter/locale/en-US";
import { UniverSheetsFilterUIPlugin } from "@univerjs/sheets-filter-ui";
import wordsOfLists from "@univerjs/sheets-filter-ui/locale/en-US";
import "@univerjs/sheets-filter-ui/lib/index.css";
import type { Part } from "../parts";

export { RemoveSheetFilterCommand, SetSheetFilterRangeCommand, SheetsFilterService } from "@univerjs/sheets-filter";

export const part: Part = { plugins: [UniverSheetsFilterPlugin, UniverSheetsFilterUIPlugin], locales: [words, wordsOfLists] };
