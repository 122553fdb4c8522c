/** What a ready sheet is: how it is described, and what it shows as an example. */
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";

/** What stands in the input cells at first, in canonical units: columns of tables by heading, single cells by name. */
export interface Figures {
  readonly columns?: { readonly [table: string]: { readonly [heading: string]: readonly (number | string | undefined)[] } };
  readonly cells?: { readonly [name: string]: number | string };
}

export interface ReadySheet {
  readonly describe: (sheet: SheetBuilder) => SheetDescription;
  /** Invented, in canonical units; none was measured. */
  readonly example: Figures;
  /** The sheet that is started with it, such as a report; it is not offered by itself. */
  readonly companion?: string;
  /** The log in sight when it is started comes along. */
  readonly takesLog?: true;
}
