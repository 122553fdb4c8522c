/** Opens an .xlsx or .xlsm file: its bytes become the workbook that this page holds. Runs in a worker, the page and Node alike. */
import { FileProblem } from "./file-problem";
import type { FunctionNames } from "./formula-in-file";
import type { Workbook } from "./workbook";

export interface OpenOptions {
  /** For the sentences. */
  readonly fileName: string;
  readonly ours: FunctionNames;
  /**
   * Whether the page calculates a function, by its full name in capitals. A formula with any other keeps the value of the file. Our own need
   * not be known to it. By default every function is taken to be known.
   */
  knowsFunction?(name: string): boolean;
  /** More cells than this are refused. By default only Excel's own limits hold. */
  readonly mostCells?: number;
  /** Called with the share that has been read, 0 to 1, between sheets. To cancel, end the worker. */
  onProgress?(share: number): void;
}

/** Nothing but data, so that a worker can hand it to the page. To save, hand the opened bytes to saveCopy again. */
export interface OpenedWorkbook {
  /** Cells with `kept` are to be shown with their value, not calculated. Areas are clipped to what is used. */
  readonly workbook: Workbook;
  /** What the file holds that this page does not show and that a copy keeps, as in "charts", "macros". */
  readonly unshown: readonly string[];
  /** What a person should know, as full sentences: which formulas keep their values and why. */
  readonly notes: readonly string[];
}

/** Throws a FileProblem, a full sentence, where the file cannot be opened. */
export function openWorkbook(_bytes: Uint8Array, { fileName }: OpenOptions): OpenedWorkbook {
  throw new FileProblem(`${fileName} cannot be opened by this reader yet.`);
}
