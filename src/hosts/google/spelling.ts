/** Google Sheets takes no dots in the names of custom functions. */
import { namespace } from "../../sheet/spelling";

export function spelledForGoogle(functionId: string): string {
  return `${namespace}_${functionId.replaceAll(".", "_")}`;
}

/** A menu calls functions by their names: what the function is called that starts a ready sheet. */
export function starterOf(readySheet: string): string {
  return `startPucksheet${readySheet}`;
}
