/** The file on the disk that the workbook came from or was saved to, in browsers that let a page write to one. */
import { FileProblem } from "../../xlsx/file-problem";

/** What of the File System Access API the compiler does not know yet. */
interface WritableHandle extends FileSystemFileHandle {
  queryPermission?(how: { mode: "readwrite" }): Promise<PermissionState>;
  requestPermission?(how: { mode: "readwrite" }): Promise<PermissionState>;
}
interface Pickers {
  showOpenFilePicker?(options: object): Promise<WritableHandle[]>;
  showSaveFilePicker?(options: object): Promise<WritableHandle>;
}

const pickers = globalThis as Pickers;
const workbookType = { description: "Workbook", accept: { "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet": [".xlsx"] } };

/** As data that the browser's database takes. */
export interface PlaceState {
  readonly handle: FileSystemFileHandle;
  /** What the file held when this page last read or wrote it. */
  readonly known: Uint8Array;
}

export class FilePlace {
  private constructor(
    private readonly handle: WritableHandle,
    private known: Uint8Array,
  ) {}

  static of({ handle, known }: PlaceState): FilePlace {
    return new FilePlace(handle, known);
  }

  get state(): PlaceState {
    const { handle, known } = this;
    return { handle, known };
  }

  get name(): string {
    return this.handle.name;
  }

  /** Whether nobody else has written to the file since; false where it is gone. Dates alone would not do: some programs keep them. */
  async isAsKnown(): Promise<boolean> {
    try {
      const file = await this.handle.getFile();
      if (file.size !== this.known.length) return false;
      const now = new Uint8Array(await file.arrayBuffer());
      return now.every((byte, index) => byte === this.known[index]);
    } catch {
      return false;
    }
  }

  /** Asks the browser, which asks the person the first time. */
  async mayWrite(): Promise<boolean> {
    const how = { mode: "readwrite" } as const;
    if ((await this.handle.queryPermission?.(how)) === "granted") return true;
    return (await this.handle.requestPermission?.(how)) !== "denied";
  }

  /** All or nothing: what the file held stays until everything is written. Throws a FileProblem. */
  async write(bytes: Uint8Array): Promise<void> {
    try {
      const stream = await this.handle.createWritable();
      try {
        await stream.write(bytes.slice().buffer);
      } catch (error) {
        await stream.abort();
        throw error;
      }
      await stream.close();
    } catch (error) {
      const full = error instanceof DOMException && error.name === "QuotaExceededError";
      const reason = full ? "the disk has no room left for it" : "another program may have it open, or it may be gone or protected";
      throw new FileProblem(`“${this.name}” could not be written: ${reason}. What it held stays as it was. Save a copy under Save as, or try again.`);
    }
    this.known = bytes;
  }
}

export const canPick = (): boolean => pickers.showOpenFilePicker !== undefined;

/** Undefined where the person chose none. */
export async function pickToOpen(extensions: readonly string[]): Promise<FileSystemFileHandle | undefined> {
  const types = [{ description: "Workbooks and logs", accept: { "application/octet-stream": extensions } }];
  const picked = await unlessClosed(() => pickers.showOpenFilePicker!({ types, excludeAcceptAllOption: false }));
  return picked?.[0];
}

/** A new place for a workbook; undefined where the person chose none. */
export async function pickToSave(suggestedName: string): Promise<FilePlace | undefined> {
  const handle = await unlessClosed(() => pickers.showSaveFilePicker!({ suggestedName, types: [workbookType] }));
  return handle && FilePlace.of({ handle, known: new Uint8Array() });
}

/** Of a file that was dropped on the page; undefined where the browser gives none. */
export async function fileHandleOf(item: DataTransferItem | undefined): Promise<FileSystemFileHandle | undefined> {
  const dropped = item as { getAsFileSystemHandle?(): Promise<FileSystemHandle | null> } | undefined;
  const handle = await dropped?.getAsFileSystemHandle?.();
  return handle?.kind === "file" ? (handle as FileSystemFileHandle) : undefined;
}

async function unlessClosed<T>(pick: () => Promise<T>): Promise<T | undefined> {
  try {
    return await pick();
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") return undefined;
    throw error;
  }
}
