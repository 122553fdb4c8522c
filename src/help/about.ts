/** What the sheet can ask about the functions themselves, in the words of their comments. */
import { badInput, noAnswer } from "../../shared/problem";
import type { CatalogueEntry } from "./catalogue";
import { functionIdOf, spelled } from "../sheet/spelling";
import { foundBy } from "./found-by";
import { signature } from "./signature";
import { projectVersion } from "./version";

export function version(): string {
  return projectVersion;
}

/** Null where the words could not be fetched. */
type Catalogue = readonly CatalogueEntry[] | null;

export function source({ name, catalogue }: { name: string; catalogue: Catalogue }): { item: string; words: string }[] {
  const typed = name.replace(/^=/, "").replace(/\(.*$/, "");
  const wanted = functionIdOf(typed) ?? typed.toUpperCase();
  const entry = fetched(catalogue).find((it) => wanted === it.name);
  if (!entry) badInput(`There is no function “${name}”. ${spelled("FUNCTIONS")}() lists them all.`);
  return [
    { item: "Function", words: `${spelled(entry.name)}: ${entry.description}` },
    { item: "Equation", words: entry.equation },
    { item: "Source", words: entry.source },
    { item: "Range", words: entry.range || "No published range." },
    { item: "Caution", words: entry.caution || "None beyond common sense." },
  ];
}

export function functions({ search = "", catalogue }: { search?: string; catalogue: Catalogue }): { function: string; gives: string }[] {
  const found = foundBy(search, fetched(catalogue), searchable);
  if (found.length === 0) noAnswer(`No function matches “${search}”. ${spelled("FUNCTIONS")}() lists them all.`);
  return found.map((entry) => ({ function: signature(entry), gives: entry.description }));
}

function fetched(catalogue: Catalogue): readonly CatalogueEntry[] {
  return catalogue ?? noAnswer("The words about the functions could not be fetched from where the add-in is installed. Try again when it can be reached.");
}

function searchable(entry: CatalogueEntry): string {
  return `${spelled(entry.name)} ${entry.topic} ${entry.description} ${entry.everyday}`;
}
