/**
 * Work that is kept in the browser's own database while it is done, and found again after a reload or a crash. Each open page keeps its own
 * and holds a lock with its name, so that several never overwrite each other: work whose lock nobody holds was left behind.
 */
import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import type { Workbook } from "../../xlsx/workbook";
import type { PlaceState } from "./file-place";
import type { FileState } from "./opened-file";

export interface Work {
  readonly fileName: string;
  readonly workbook: Workbook;
  /** The sheet that was in sight. */
  readonly inSight?: string | undefined;
  /** The .xlsx file that it came from, so that a copy has everything of it. */
  readonly file: FileState | undefined;
  /** Where Save writes to. */
  readonly place?: PlaceState | undefined;
}

/** Work that a page which is gone has left. */
export interface LeftWork {
  readonly id: string;
  readonly fileName: string;
  readonly at: Date;
}

interface Record extends Work {
  readonly id: string;
  /** How records are made; those of another edition are left alone. */
  readonly form: typeof form;
  readonly at: Date;
}
interface Schema extends DBSchema {
  work: { key: string; value: Record };
}

const form = 1;
const lockOf = (id: string): string => `work ${id}`;

export class WorkKeeper {
  private readonly id: string = crypto.randomUUID();

  private constructor(private readonly database: IDBPDatabase<Schema>) {
    // Held as long as the page is there.
    void navigator.locks.request(lockOf(this.id), () => new Promise(() => {}));
  }

  /** Undefined where the browser keeps nothing for this page. */
  static async open(): Promise<WorkKeeper | undefined> {
    if (!isSecureContext || !("indexedDB" in globalThis) || !("locks" in navigator)) return undefined;
    try {
      return new WorkKeeper(await openDB<Schema>("pucksheet", 1, { upgrade: (database) => void database.createObjectStore("work", { keyPath: "id" }) }));
    } catch {
      // Some browsers forbid it in private windows.
      return undefined;
    }
  }

  /** The latest first. */
  async leftBehind(): Promise<LeftWork[]> {
    const { held = [] } = await navigator.locks.query();
    const open = new Set(held.map(({ name }) => name));
    const records = await this.database.getAll("work");
    return records.filter((record) => record.form === form && !open.has(lockOf(record.id))).sort((a, b) => b.at.getTime() - a.at.getTime());
  }

  /** Work that was left behind; undefined where another page has gone on with it. */
  read(id: string): Promise<Work | undefined> {
    return this.database.get("work", id);
  }

  /** Rejects with a QuotaExceededError where the disk has no room left; what was kept before is then still there. */
  async keep(work: Work): Promise<void> {
    await this.database.put("work", { ...work, id: this.id, form, at: new Date() });
  }

  async forget(id = this.id): Promise<void> {
    await this.database.delete("work", id);
  }
}
