/** How each kind of cell and each kind of series looks, in every host. */
import type { CellRole, SeriesLook } from "./sheet-description";

export interface Look {
  readonly bold?: true;
  readonly italic?: true;
  /** Points; 11 where absent. */
  readonly size?: number;
  /** "#rrggbb". */
  readonly color?: string;
  readonly fill?: string;
  /** Lines on every side, or one under the cell. */
  readonly border?: "all" | "bottom";
  readonly wrap?: true;
  /** Of its row, points. */
  readonly height?: number;
  readonly horizontal?: "left" | "right";
}

const quiet = "#5f5a52";

/** What is typed is told by its border and by the words over it, not by its colour alone. */
export const looks: { readonly [R in CellRole]: Look } = {
  title: { bold: true, size: 16, color: "#26221d", height: 27 },
  note: { color: quiet },
  group: { bold: true, size: 10, color: "#7a4a21" },
  heading: { bold: true, size: 10, color: "#26221d", fill: "#ece7de", border: "bottom", wrap: true, horizontal: "right" },
  "text heading": { bold: true, size: 10, color: "#26221d", fill: "#ece7de", border: "bottom", horizontal: "left" },
  label: { bold: true },
  unit: { italic: true, size: 10, color: quiet, horizontal: "right" },
  input: { fill: "#fffbea", border: "all" },
  result: {},
  finding: { color: "#a4262c" },
  entry: { size: 10, color: "#26221d", wrap: true, height: 27 },
  working: { size: 9, color: "#8a8378" },
  decision: { bold: true, size: 14, color: "#26221d", wrap: true, height: 39 },
  large: { bold: true, size: 48, color: "#26221d", horizontal: "left", height: 66 },
  reason: { color: "#26221d", wrap: true, height: 30 },
  verdict: { bold: true, color: "#26221d" },
  footnote: { italic: true, size: 9, color: quiet },
};

export const lineColors = { all: "#8a7f70", bottom: "#7a5c3e" } as const;
/** Points; two lines of a heading. */
export const headingHeight = 30;

export interface SeriesStyle {
  readonly color: string;
  /** Points; absent where no line is drawn. */
  readonly line?: number;
  readonly dashed?: true;
  readonly marker?: "circle" | "diamond" | "ring";
  /** Points across. */
  readonly markerSize?: number;
}

/**
 * Blue, orange and greys differ in lightness too, and every series differs in shape, so that print and colour-blind eyes tell them apart.
 * Colours from the set of Okabe and Ito (2008), Color Universal Design, as R has it too (palette.colors).
 */
export const seriesStyles: { readonly [L in SeriesLook]: SeriesStyle } = {
  band: { color: "#cfe3f1", line: 5 },
  line: { color: "#555555", line: 1.5 },
  dashed: { color: "#555555", line: 1.25, dashed: true },
  segments: { color: "#0072b2", line: 2 },
  points: { color: "#0072b2", marker: "circle", markerSize: 7 },
  "marked line": { color: "#0072b2", line: 1, marker: "circle", markerSize: 5 },
  target: { color: "#d55e00", marker: "diamond", markerSize: 11 },
  alarm: { color: "#d55e00", marker: "ring", markerSize: 11 },
};
