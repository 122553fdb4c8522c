/** A setting of a shot, a number or a name: what counts as the same one, and in which order they come. */
export type Setting = number | string;

/** The same for 8 and “8”, for “Fine” and “fine ”. */
export function settingKey(setting: Setting): string {
  return String(setting).trim().toLowerCase();
}

/** Numbers by size, also where they are text, then names by letter; "" last. */
export function inSettingOrder(a: Setting, b: Setting): number {
  if (a === "" || b === "") return a === b ? 0 : a === "" ? 1 : -1;
  if (typeof a === "number" && typeof b === "number") return a - b;
  return String(a).localeCompare(String(b), "en", { numeric: true });
}
