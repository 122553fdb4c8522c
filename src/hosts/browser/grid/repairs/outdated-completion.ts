/**
 * What is wrong: the library's list of functions follows the typing only after a pause.
 * How it shows: who types on and presses Enter within that pause gets the function that the list still offers for the first letters, in
 * place of the one that they typed. Here such a list is closed first.
 */
import type { ICommandInfo, Injector } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { IEditorService } from "@univerjs/docs-ui";
import { KeyCode } from "@univerjs/ui";

const listOperation = "sheet.formula-embedding-editor.search_function.";

export function closeOutdatedLists(api: FUniver, injector: Injector): void {
  api.onBeforeCommandExecute((command: Readonly<ICommandInfo>) => {
    const params = command.params as { keyCode: KeyCode } | undefined;
    if (!command.id.startsWith(listOperation) || !params || (params.keyCode !== KeyCode.ENTER && params.keyCode !== KeyCode.TAB)) return;
    const typed = typedName(injector);
    if (typed !== "" && offeredName().startsWith(typed)) return;
    const key = params.keyCode === KeyCode.ENTER ? "Enter" : "Tab";
    const keyCode: number = params.keyCode;
    // The list understands Escape as closing itself; the key then does what it does without a list.
    params.keyCode = KeyCode.ESC;
    const target = document.activeElement;
    setTimeout(() => target?.dispatchEvent(new KeyboardEvent("keydown", { key, code: key, keyCode, bubbles: true, cancelable: true })));
  });
}

/** The name before the caret of the cell that is being edited, in capitals. */
function typedName(injector: Injector): string {
  const editor = injector.get(IEditorService).getFocusEditor();
  const caret = editor?.getSelectionRanges()[0]?.startOffset ?? 0;
  const text = editor?.getDocumentData().body?.dataStream ?? "";
  return /[\p{L}\p{N}_.]*$/u.exec(text.slice(0, caret))![0].toUpperCase();
}

/** The name that the list would take. */
function offeredName(): string {
  return document.querySelector('ul[data-u-comp="sheets-formula-editor"] li.univer-bg-gray-200 > span')?.textContent?.toUpperCase() ?? "";
}
