/** The .xlsx file that the open workbook came from: what a copy is made of. */
import type { StructuralEdit } from "../../xlsx/journal";
import type { SavedCopy } from "../../xlsx/save-copy";
import type { Workbook } from "../../xlsx/workbook";
import { copyInWorker } from "./xlsx-work";
import type { CopyForm } from "./xlsx-worker";

/** All there is to know of the file, as data. */
export interface FileState {
  readonly fileName: string;
  readonly bytes: Uint8Array;
  /** The workbook as the grid gave it when it had calculated it for the first time. */
  readonly before: Workbook;
  /** What happened to rows, columns and sheets since. */
  readonly journal: readonly StructuralEdit[];
}

export class OpenedFile {
  private readonly fileName: string;
  private readonly bytes: Uint8Array;
  private readonly before: Workbook;
  /** What happened to rows, columns and sheets before the grid showed the workbook. */
  private readonly earlier: readonly StructuralEdit[];

  constructor({ fileName, bytes, before, journal }: FileState) {
    this.fileName = fileName;
    this.bytes = bytes;
    this.before = before;
    this.earlier = journal;
  }

  /** `journal` is what the grid has noted since it showed the workbook last. */
  state(journal: readonly StructuralEdit[]): FileState {
    const { fileName, bytes, before, earlier } = this;
    return { fileName, bytes, before, journal: [...earlier, ...journal] };
  }

  /** Throws a FileProblem, a full sentence, where no faithful copy can be made. */
  copy(now: Workbook, journal: readonly StructuralEdit[], ours: ReadonlySet<string>, form: CopyForm): Promise<SavedCopy> {
    const { bytes, before, journal: all, fileName } = this.state(journal);
    return copyInWorker({ opened: bytes, changes: { before, now, journal: all }, fileName, ours: [...ours], form });
  }
}
