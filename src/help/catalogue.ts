/**
 * What the sheet itself can say of a function, in SOURCE() and FUNCTIONS(). These words are a fifth of all that the functions weigh, and few
 * workbooks ask for them: so the host says how they come, with the functions or when they are first asked for.
 */
import { callingAs, callingFunction } from "../sheet/recent-problems";

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
  /** What a person may call it who does not know its name. */
  readonly everyday: string;
}

/** All that a comment in src/functions says, for the help pages. */
export interface DocumentedFunction extends CatalogueEntry {
  /** `argument` is the name inside; `name` is how a host shows it; `quantity`, known to quantities.ts, is what it is read as. */
  readonly parameters: readonly {
    readonly name: string;
    readonly argument: string;
    readonly quantity: string;
    readonly description: string;
    readonly optional?: true;
  }[];
  readonly returns: string;
  readonly examples: readonly string[];
  readonly since: string;
}

/** The entries as columns: words of one kind beside each other take a fifteenth less once compressed. */
export type CatalogueColumns = Readonly<Record<keyof CatalogueEntry, readonly string[]>>;

type Words = { readonly words: CatalogueColumns };

let bring: (() => Words | Promise<Words>) | undefined;
let catalogue: readonly CatalogueEntry[] | undefined;

/** Called by the host before the first function is: with `src/help/words.ts` imported, or with a way to fetch it. */
export function bringWords(from: () => Words | Promise<Words>): void {
  bring = from;
}

/** Runs with the catalogue: at once where it is there, else when it is; with null where it could not be fetched. The next call tries again. */
export function withCatalogue<T>(run: (catalogue: readonly CatalogueEntry[] | null) => T): T | Promise<T> {
  if (catalogue) return run(catalogue);
  const brought = bring!();
  if (!(brought instanceof Promise)) return run((catalogue = entriesOf(brought)));
  const name = callingFunction();
  return brought.then((words) => (catalogue ??= entriesOf(words)), () => null).then((entries) => callingAs(name, () => run(entries)));
}

function entriesOf({ words }: Words): CatalogueEntry[] {
  const columns = Object.entries(words) as [keyof CatalogueEntry, readonly string[]][];
  return columns[0]![1].map((_, index) => Object.fromEntries(columns.map(([key, column]) => [key, column[index]!])) as unknown as CatalogueEntry);
}
