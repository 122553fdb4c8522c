/** What the sheet itself can say of a function, in SOURCE() and FUNCTIONS(). It travels in the bundle, so it is kept small. */
export interface CatalogueEntry {
  /** The name without the namespace: EXTRACTION.FROMPUCK. */
  readonly name: string;
  readonly topic: string;
  readonly description: string;
  /** Its arguments as they are typed, those that may be left out in brackets: "dose, [moisture]". */
  readonly takes: string;
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

/** The entries as columns: words of one kind beside each other take a fifteenth less once compressed. */
export type CatalogueColumns = Readonly<Record<keyof CatalogueEntry, readonly string[]>>;

declare const CATALOGUE: CatalogueColumns;

/** The build puts what the comments say in place of CATALOGUE, so there is no second copy. */
const columns = Object.entries(CATALOGUE) as [keyof CatalogueEntry, readonly string[]][];

export const catalogue: readonly CatalogueEntry[] = columns[0]![1].map(
  (_, index) => Object.fromEntries(columns.map(([key, words]) => [key, words[index]!])) as unknown as CatalogueEntry,
);
