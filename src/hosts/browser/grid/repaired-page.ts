/** What the library gets wrong in the page that it draws, put right, as `repaired-engine.ts` does for its engine. */
import type { Injector } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { fitNumbersToWidths } from "./repairs/numbers-cut-at-edges";
import { closeOutdatedLists } from "./repairs/outdated-completion";
import { pasteStylesUnderAPolicy } from "./repairs/styles-under-a-policy";
import { nameParts } from "./repairs/unnamed-parts";

/** Once the services of the library are there, which is with the first workbook. `focus` moves the keyboard into the cells. */
export function repairPage(element: HTMLElement, api: FUniver, injector: Injector, focus: () => void): void {
  nameParts(element, focus);
  closeOutdatedLists(api, injector);
  fitNumbersToWidths(injector);
  pasteStylesUnderAPolicy(injector);
}
