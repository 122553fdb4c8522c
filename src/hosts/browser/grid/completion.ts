/**
 * Names of functions while a formula is typed: which are offered, and what becomes of the formula when one is taken. Ours are found without
 * their prefix, those that most people use first. The library would put the caret where it was before the name grew.
 */
import { DOCS_FORMULA_BAR_EDITOR_UNIT_ID_KEY, DOCS_NORMAL_EDITOR_UNIT_ID_KEY, type ICommandInfo, type Injector } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { IEditorService, type Editor } from "@univerjs/docs-ui";
import { FunctionType } from "@univerjs/engine-formula";
import { IDescriptionService } from "@univerjs/sheets-formula";
import { KeyCode } from "@univerjs/ui";
import { fullName, type FunctionMetadata } from "../function-metadata";

const listOperation = "sheet.formula-embedding-editor.search_function.";
const listed = 'ul[data-u-comp="sheets-formula-editor"] li';

/** Of one shot, then of a row of them; the rest follows as declared. */
const mostUsed = ["RATIO", "EXTRACTION", "SHOT", "FLOW", "STRENGTH", "BEVERAGE", "DOSE", "SOLIDS", "GRIND.FORTIME", "GRIND.NEXT", "COMPARE", "LOG.CHECK", "LOG.SUMMARY"];
/** So many of ours, as long as it may be a function of the grid as well. */
const mostOfOurs = 5;

export function completeFormulas(api: FUniver, injector: Injector, functions: readonly FunctionMetadata[]): void {
  offerOurs(injector, functions);
  api.onBeforeCommandExecute((command: Readonly<ICommandInfo>) => {
    const params = command.params as { keyCode: KeyCode } | undefined;
    if (!command.id.startsWith(listOperation) || !params || (params.keyCode !== KeyCode.ENTER && params.keyCode !== KeyCode.TAB)) return;
    if (take(injector, textOf(document.querySelector(`${listed}.univer-bg-gray-200`)))) params.keyCode = KeyCode.ESC;
  });
  document.addEventListener("click", (event) => {
    const item = (event.target as Element).closest(listed);
    const editor = injector.get(IEditorService).getFocusEditor();
    if (!item || !editor || !take(injector, textOf(item))) return;
    event.stopPropagation();
    void api.executeCommand(`${listOperation}${editor.getEditorId()}`, { keyCode: KeyCode.ESC });
    editor.focus();
  }, true);
}

function offerOurs(injector: Injector, functions: readonly FunctionMetadata[]): void {
  const service = injector.get(IDescriptionService);
  const stock = service.getSearchListByNameFirstLetter.bind(service);
  const rank = ({ id }: FunctionMetadata) => (mostUsed.indexOf(id) + mostUsed.length + 1) % (mostUsed.length + 1);
  const ours = [...functions].sort((a, b) => rank(a) - rank(b)).map((metadata) => {
    const name = fullName(metadata);
    return { name, desc: metadata.description ?? "", functionType: FunctionType.User, bare: name.slice(name.indexOf(".") + 1) };
  });
  const names = new Set(ours.map(({ name }) => name));
  service.getSearchListByNameFirstLetter = (typed) => {
    const wanted = typed.toUpperCase().trim();
    const rest = stock(typed).filter(({ name }) => !names.has(name.toUpperCase()));
    const found = [
      ...ours.filter(({ name, bare }) => name.startsWith(wanted) || bare.startsWith(wanted)),
      ...(wanted.length > 2 ? ours.filter(({ bare }) => bare.includes(`.${wanted}`)) : []),
    ];
    return [...found.slice(0, rest.length > 0 ? mostOfOurs : undefined), ...rest];
  };
}

/** Puts the function in place of the name that is being typed; false where the library has to. */
function take(injector: Injector, offered: string): boolean {
  const editor = injector.get(IEditorService).getFocusEditor();
  const caret = editor?.getSelectionRanges()[0]?.startOffset;
  if (!editor || caret === undefined || injector.get(IDescriptionService).getFunctionInfo(offered) === undefined) return false;
  const text = (editor.getDocumentData().body?.dataStream ?? "").replace(/\r?\n$/, "");
  const typed = /[\p{L}\p{N}_.]*$/u.exec(text.slice(0, caret))![0];
  if (typed === "" || !isOfferedFor(offered, typed.toUpperCase())) return false;
  const rest = text.slice(caret);
  const before = `${text.slice(0, caret - typed.length)}${offered}${rest.startsWith("(") ? "" : "("}`;
  // Once the list is gone, which still looks at the text.
  setTimeout(() => place(injector, editor, `${before}${rest}`, before.length + (rest.startsWith("(") ? 1 : 0)));
  return true;
}

/** The list follows the typing only after a pause, and may still be that of the first letters. */
function isOfferedFor(offered: string, typed: string): boolean {
  const bare = offered.slice(offered.indexOf(".") + 1);
  return offered.startsWith(typed) || bare.startsWith(typed) || bare.includes(`.${typed}`);
}

function place(injector: Injector, editor: Readonly<Editor>, text: string, at: number): void {
  // The cell and the bar above the cells show the same formula.
  const both = [DOCS_NORMAL_EDITOR_UNIT_ID_KEY, DOCS_FORMULA_BAR_EDITOR_UNIT_ID_KEY].map((id) => injector.get(IEditorService).getEditor(id));
  for (const other of both) if (other && other !== editor) other.replaceText(text, false);
  editor.replaceText(text, [{ startOffset: at, endOffset: at, collapsed: true }]);
}

function textOf(item: Element | null): string {
  return item?.querySelector("span")?.textContent?.toUpperCase() ?? "";
}
