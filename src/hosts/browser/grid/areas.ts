/** Areas of cells as the grid library counts them: from 0, both ends belonging to it. */
import type { IRange } from "@univerjs/core";

export type Cells = Pick<IRange, "startRow" | "endRow" | "startColumn" | "endColumn">;

export function holds(area: Cells, row: number, column: number): boolean {
  return row >= area.startRow && row <= area.endRow && column >= area.startColumn && column <= area.endColumn;
}
