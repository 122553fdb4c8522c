/** Saves a workbook that was opened from a file: the copy is the opened file with the changes put in. */
import { FileProblem } from "./file-problem";
import type { FunctionNames } from "./formula-in-file";
import type { Journal } from "./journal";
import type { Workbook } from "./workbook";

/**
 * What became of the opened workbook. `before` and `now` both come from the grid, so that what the grid does not hold counts as unchanged:
 * only what differs between the two is written.
 */
export interface Changes {
  /** As the grid gave it when it had opened and calculated the workbook for the first time. */
  readonly before: Workbook;
  /** As it is now. Formulas with `kept` may read as they did when opened: references in them are followed here. */
  readonly now: Workbook;
  readonly journal: Journal;
}

export interface CopyOptions {
  /** For the sentences. */
  readonly fileName: string;
  readonly ours: FunctionNames;
  /** "for other programs": values stand where our own functions stood, which other programs do not have. By default "for Excel". */
  readonly form?: "for Excel" | "for other programs";
}

export interface SavedCopy {
  readonly bytes: Uint8Array;
  /** What could not follow the changes, each as a full sentence with sheet, place and loss; to be shown before the file is handed over. */
  readonly warnings: readonly string[];
}

/** `opened` are the bytes that openWorkbook read. Throws a FileProblem, a full sentence, where no faithful copy can be made. */
export function saveCopy(_opened: Uint8Array, _changes: Changes, { fileName }: CopyOptions): Promise<SavedCopy> {
  return Promise.reject(new FileProblem(`A copy of ${fileName} cannot be made by this writer yet.`));
}
