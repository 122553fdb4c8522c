import { spelled } from "../sheet/spelling";
import type { CatalogueEntry } from "./catalogue";

/** A function as it is typed: its name, and its arguments with those that may be left out in brackets. */
export function signature(entry: CatalogueEntry): string {
  return `${spelled(entry.name)}(${entry.takes})`;
}
