import type { CatalogueEntry } from "./catalogue";

/** The namespace in which the host shows the functions. */
export const namespace = "ESPRESSO";

/** A function as it is typed: its name, and its arguments with those that may be left out in brackets. */
export function signature(entry: CatalogueEntry): string {
  return `${namespace}.${entry.name}(${entry.parameters.map((it) => (it.optional ? `[${it.name}]` : it.name)).join(", ")})`;
}
