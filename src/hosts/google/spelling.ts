/** Google Sheets takes no dots in the names of custom functions. */
import { namespace } from "../../sheet/spelling";

export function spelledForGoogle(functionId: string): string {
  return `${namespace}_${functionId.replaceAll(".", "_")}`;
}
