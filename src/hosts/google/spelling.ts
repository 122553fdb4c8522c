/** Google Sheets takes no dots in the names of custom functions. Imported before everything else, so that all words follow. */
import { namespace, useSpelling } from "../../sheet/spelling";

export function spelledForGoogle(functionId: string): string {
  return `${namespace}_${functionId.replaceAll(".", "_")}`;
}

useSpelling(spelledForGoogle);
