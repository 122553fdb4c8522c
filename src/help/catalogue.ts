/** What the comments in src/functions say of each function. The build puts it in place of CATALOGUE, so there is no second copy. */
export interface CatalogueEntry {
  /** The name without the namespace: EXTRACTION.FROMPUCK. */
  readonly name: string;
  readonly topic: string;
  readonly description: string;
  readonly parameters: readonly { readonly name: string; readonly description: string; readonly optional?: true }[];
  readonly returns: string;
  readonly equation: string;
  readonly source: string;
  /** The published range, or the customary one marked as such; empty where there is none. */
  readonly range: string;
  readonly caution: string;
  readonly examples: readonly string[];
  readonly since: string;
}

declare const CATALOGUE: readonly CatalogueEntry[];

export const catalogue: readonly CatalogueEntry[] = CATALOGUE;
