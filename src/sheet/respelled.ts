/** Formulas whose names of our functions are spelled as another program spells them. */
import { isFunctionName, joined, partsOf } from "./formula-text";
import { functionIdOf, spelled } from "./spelling";

/** The formula with our functions as they are typed here; undefined where it has none. */
export function respelled(formula: string): string | undefined {
  const parts = partsOf(formula);
  let ours = false;
  const renamed = parts.map((part, index) => {
    const id = part.kind === "name" && isFunctionName(parts, index) ? functionIdOf(part.text) : undefined;
    if (id === undefined) return part;
    ours = true;
    return { ...part, text: spelled(id) };
  });
  return ours ? joined(renamed) : undefined;
}
