/** Colours as a file spells them: outright, by their number in a palette, or as a shade of a theme colour. Ours are "#rrggbb". */
import { walk, type Attributes } from "./xml";

export interface Palette {
  /** In the order that cells count them. */
  readonly theme: readonly string[];
  readonly indexed: readonly string[];
}

/** Light and dark stand before their counterparts in the file, but after them in the count. */
const themeOrder = ["lt1", "dk1", "lt2", "dk2", "accent1", "accent2", "accent3", "accent4", "accent5", "accent6", "hlink", "folHlink"];

/** The colours of a theme part; black for one that it does not give. */
export function themeColors(themeXml: string | undefined): string[] {
  const found = new Map<string, string>();
  let slot: string | undefined;
  walk(themeXml ?? "<none/>", {
    open(name, attributes, parent) {
      if (parent === "clrScheme") slot = name;
      else if (slot && parent === slot) found.set(slot, `#${(attributes.lastClr ?? attributes.val ?? "000000").slice(-6).toLowerCase()}`);
    },
    close(name) {
      if (name === slot) slot = undefined;
    },
  });
  return themeOrder.map((name) => {
    const color = found.get(name) ?? "";
    return /^#[0-9a-f]{6}$/.test(color) ? color : "#000000";
  });
}

/** The colours with numbers, where a file gives no others (ECMA-376 part 1, 18.8.27); 64 is the colour of text. */
export const standardPalette: readonly string[] = (
  "000000 ffffff ff0000 00ff00 0000ff ffff00 ff00ff 00ffff 000000 ffffff ff0000 00ff00 0000ff ffff00 ff00ff 00ffff " +
  "800000 008000 000080 808000 800080 008080 c0c0c0 808080 9999ff 993366 ffffcc ccffff 660066 ff8080 0066cc ccccff " +
  "000080 ff00ff ffff00 00ffff 800080 800000 008080 0000ff 00ccff ccffff ccffcc ffff99 99ccff ff99cc cc99ff ffcc99 " +
  "3366ff 33cccc 99cc00 ffcc00 ff9900 ff6600 666699 969696 003366 339966 003300 333300 993300 993366 333399 333333 000000 ffffff"
)
  .split(" ")
  .map((hex) => `#${hex}`);

/** The colour that an element such as <color> or <fgColor> gives; undefined for one that depends on the program. */
export function colorOf({ rgb, theme, indexed, tint }: Attributes, palette: Palette): string | undefined {
  const base =
    rgb !== undefined && /^[0-9A-Fa-f]{6,8}$/.test(rgb)
      ? `#${rgb.slice(-6).toLowerCase()}`
      : theme !== undefined
        ? palette.theme[Number(theme)]
        : indexed !== undefined
          ? palette.indexed[Number(indexed)]
          : undefined;
  const by = Number(tint ?? 0);
  return base === undefined || by === 0 || !Number.isFinite(by) ? base : tinted(base, by);
}

/** A tint below 0 darkens by that share, above 0 lightens by it (ECMA-376 part 1, 18.8.19, here on each channel). */
function tinted(color: string, tint: number): string {
  const channels = [1, 3, 5].map((at) => parseInt(color.slice(at, at + 2), 16));
  const changed = channels.map((channel) => Math.round(tint < 0 ? channel * (1 + tint) : channel + (255 - channel) * tint));
  return `#${changed.map((channel) => Math.min(255, Math.max(0, channel)).toString(16).padStart(2, "0")).join("")}`;
}
