import type { CatalogueEntry } from "./catalogue.ts";

export function helpFiles(_entries: readonly CatalogueEntry[], _version: string): Map<string, string> {
  return new Map();
}
