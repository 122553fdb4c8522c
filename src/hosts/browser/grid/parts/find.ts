import { OpenFindDialogOperation, OpenReplaceDialogOperation, UniverFindReplacePlugin } from "@univerjs/find-replace";
import words from "@univerjs/find-replace/locale/en-US";
import { UniverSheetsFindReplacePlugin } from "@univerjs/sheets-find-replace";
import "@univerjs/find-replace/lib/index.css";
import type { Part } from "../parts";

export { OpenFindDialogOperation, OpenReplaceDialogOperation };

/** The last command to be there: without what looks into sheets the dialog stays closed. */
export const lastCommand = "sheet.command.replace";

export const part: Part = { plugins: [UniverFindReplacePlugin, UniverSheetsFindReplacePlugin], locales: [words] };
