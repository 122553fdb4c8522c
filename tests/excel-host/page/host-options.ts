/** What a test tells the stand-in before the add-in starts; it has to survive JSON. */
import type { ApiSets } from "../api-sets.ts";
import type { InstalledAddIn } from "../read-manifest.ts";

export interface HostOptions {
  readonly addIn: InstalledAddIn;
  readonly apiSets: ApiSets;
  /** What a blank cell is handed to a function as. */
  readonly blank: null | 0 | "";
  /** Custom document properties that the workbook was saved with. */
  readonly properties: Readonly<Record<string, string | number | boolean>>;
  /** Batches that use one of these members, such as "CustomPropertyCollection.add", wait until they are released. */
  readonly held: readonly string[];
  /** Members that fail, each with the code of Excel's error. */
  readonly failing: Readonly<Record<string, string>>;
}
