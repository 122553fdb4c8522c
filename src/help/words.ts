/** What the comments in src/functions say, for SOURCE() and FUNCTIONS(). The build puts it in place of CATALOGUE, so there is no second copy. */
import type { CatalogueColumns } from "./catalogue";

declare const CATALOGUE: CatalogueColumns;

export const words: CatalogueColumns = CATALOGUE;
