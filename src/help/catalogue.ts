/** What the sheet itself can say of a function, in SOURCE() and FUNCTIONS(). It travels in the bundle, so it is kept small. */
export interface CatalogueEntry {
  /** The name without the namespace: EXTRACTION.FROMPUCK. */
  readonly name: string;
  readonly topic: string;
  readonly description: string;
  readonly parameters: readonly { readonly name: string; readonly optional?: true }[];
  readonly equation: string;
  readonly source: string;
  /** The published range, or the customary one marked as such; empty where there is none. */
  readonly range: string;
  readonly caution: string;
}

/** All that a comment in src/functions says, for the help pages. */
export interface DocumentedFunction extends CatalogueEntry {
  /** `argument` is the name inside, which quantities.ts knows; `name` is how a host shows it. */
  readonly parameters: readonly { readonly name: string; readonly argument: string; readonly description: string; readonly optional?: true }[];
  readonly returns: string;
  readonly examples: readonly string[];
  readonly since: string;
}

declare const CATALOGUE: readonly CatalogueEntry[];

/** The build puts what the comments say in place of CATALOGUE, so there is no second copy. */
export const catalogue: readonly CatalogueEntry[] = CATALOGUE;
