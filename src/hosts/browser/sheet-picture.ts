/** A small picture of a described sheet: where it is typed into, where it answers and where its charts stand. */
import type { CellRole, SheetDescription } from "../../ready-sheets/sheet-description";
import { areaOf, placeOf } from "../../sheet/references";

const width = 76;
const height = 50;
/** As much of a sheet as the picture shows: rows, and characters across. */
const mostRows = 26;
const mostCharacters = 150;

type Kind = "heading" | "input" | "result" | "decision" | "chart" | "words";

const kinds: { readonly [R in CellRole]: Kind | undefined } = {
  title: "decision", heading: "heading", "text heading": "heading", group: "heading", input: "input", entry: "input", result: "result", large: "result",
  finding: "result", decision: "decision", verdict: "result", label: "words", reason: "words", note: undefined, unit: undefined, footnote: undefined, working: undefined,
};

export function pictureOf({ widths, hidden, cells, tables, spills = {}, charts = [] }: SheetDescription): SVGElement {
  const svg = make("svg", { viewBox: `0 0 ${width} ${height}`, width, height, class: "sheet-picture", "aria-hidden": "true" });
  const out = hidden === undefined ? undefined : areaOf(hidden);
  const lefts = [0];
  for (const [column, size] of widths.entries()) lefts.push(lefts[column]! + (out && column >= out.left && column <= out.right ? 0 : size));
  const perRow = height / mostRows;
  const perCharacter = width / Math.min(mostCharacters, lefts.at(-1)!);
  const draw = (kind: Kind | undefined, top: number, left: number, rows: number, columns: number) => {
    const [from, to] = [lefts[left], lefts[Math.min(left + columns, widths.length)]];
    if (!kind || from === undefined || to === undefined || to <= from || top >= mostRows) return;
    const size = { x: from * perCharacter + 0.5, y: top * perRow + 0.4, width: (to - from) * perCharacter - 0.8, height: rows * perRow - 0.7 };
    svg.append(make("rect", { ...size, rx: 0.6, class: `picture-${kind}` }));
    if (kind === "chart") svg.append(make("polyline", { class: "picture-line", points: curve(size) }));
  };
  for (const [at, { role, value, formula }] of Object.entries(cells)) {
    const place = placeOf(at);
    if (place && (role === "input" || value !== undefined || formula !== undefined)) draw(kinds[role], place.row, place.column, 1, 1);
  }
  for (const { at, rows, columns } of tables) {
    const { row, column } = placeOf(at)!;
    columns.forEach(({ role }, index) => {
      draw("heading", row, column + index, 1, 1);
      draw(role, row + 1, column + index, Math.min(rows, mostRows), 1);
    });
  }
  for (const [at, { rows, formats, role }] of Object.entries(spills)) {
    const { row, column } = placeOf(at)!;
    formats.forEach((_, index) => draw(kinds[role], row, column + index, Math.min(rows, mostRows), 1));
  }
  for (const { from, to } of charts) {
    const { top, left, bottom, right } = areaOf(`${from}:${to}`)!;
    draw("chart", top, left, bottom - top + 1, right - left + 1);
  }
  return svg;
}

function curve({ x, y, width: across, height: down }: { x: number; y: number; width: number; height: number }): string {
  return [[0.1, 0.8], [0.35, 0.35], [0.6, 0.55], [0.9, 0.2]].map(([right, below]) => `${x + across * right!},${y + down * below!}`).join(" ");
}

function make(tag: string, attributes: Record<string, string | number>): SVGElement {
  const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  return made;
}
