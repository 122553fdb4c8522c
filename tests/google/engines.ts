/**
 * The built script in engines that have nothing but the language: V8 with an empty context, and QuickJS. Neither is a Google Sheet; they are
 * what can be proven without one: that the script asks for no more than the language, and answers as the sheet would call it.
 */
import { readFileSync } from "node:fs";
import vm from "node:vm";
import { getQuickJS } from "quickjs-emscripten";
import { CellError } from "../worksheet.ts";

export const code = readFileSync("dist/google/Code.js", "utf8");
export const words = readFileSync("dist/google/Words.js", "utf8");

/** A day and a time on the clock of the script's time zone: a cell with a date or a time arrives as this. */
export interface ClockCell {
  readonly clock: readonly [year: number, month: number, day: number, hours: number, minutes: number, seconds: number];
}

export type Call = readonly [functionId: string, given: readonly unknown[]];

/** What a call answered: a value as the sheet takes it, or the words of what was thrown. */
export type Answer = { readonly value: unknown } | { readonly thrown: string };

export interface Engine {
  readonly name: string;
  /** It compiles nothing, which takes it several times as long. */
  readonly interprets?: true;
  /** Answers calls in the sheet's own form, one after the other. */
  run(calls: readonly Call[]): Answer[];
}

/** Calls cross into an engine as text, so nothing of this realm does: clock cells are made inside, and no result is lost on the way. */
const driver = `function answers(text) {
  var calls = JSON.parse(text, function (_, it) { return it && it.clock ? new (Function.prototype.bind.apply(Date, [null].concat(it.clock)))() : it; });
  var kept = function (_, it) { return typeof it === "number" && !isFinite(it) ? "not finite" : it === undefined ? "undefined" : it; };
  return JSON.stringify(calls.map(function (call) {
    try { return { value: globalThis[call[0]].apply(null, call[1].map(function (it) { return it === null ? undefined : it; })) }; }
    catch (error) { return { thrown: String(error && error.message) }; }
  }), kept);
}`;

function textOf(calls: readonly Call[]): string {
  return JSON.stringify(calls.map(([id, given]) => [`ESPRESSO_${id.replaceAll(".", "_")}`, given]));
}

/** `services` declares what the host has besides the language, as source text. */
export function v8(services = ""): Engine {
  const context = vm.createContext(Object.create(null) as object, { codeGeneration: { strings: false, wasm: false } });
  // What a context has besides the language.
  vm.runInContext("delete globalThis.console; delete globalThis.WebAssembly;", context);
  for (const source of [services, code, words, driver]) vm.runInContext(source, context);
  return { name: "V8", run: (calls) => JSON.parse(vm.runInContext(`answers(${JSON.stringify(textOf(calls))})`, context) as string) as Answer[] };
}

export async function quickJs(services = ""): Promise<Engine> {
  const context = (await getQuickJS()).newContext();
  const evaluated = (source: string): unknown => {
    const handle = context.unwrapResult(context.evalCode(source));
    const value: unknown = context.dump(handle);
    handle.dispose();
    return value;
  };
  for (const source of [services, code, words, driver]) evaluated(`${source}\n;0`);
  return { name: "QuickJS", interprets: true, run: (calls) => JSON.parse(evaluated(`answers(${JSON.stringify(textOf(calls))})`) as string) as Answer[] };
}

/** Cells as tests/worksheet.ts takes them, in the form of a Google Sheet: one cell bare, a flat list as a column, errors as texts. */
export function asGiven(it: unknown): unknown {
  if (it === null || it === undefined) return null;
  if (!Array.isArray(it)) return cellOut(it);
  if (!Array.isArray(it[0])) return it.map((one: unknown) => [cellOut(one)]);
  const rows = it as unknown[][];
  return rows.length === 1 && rows[0]!.length === 1 ? cellOut(rows[0]![0]) : rows.map((row) => row.map(cellOut));
}

function cellOut(cell: unknown): unknown {
  if (cell === null || cell === undefined) return "";
  if (cell instanceof CellError) return `${cell.code} ${cell.message}`.trim();
  return cell;
}

/** The answer as rows; a thrown error, whose code nobody sees, with the code that a column would show. */
export function rowsOfAnswer(answer: Answer, code = "#VALUE!"): unknown[][] {
  if ("thrown" in answer) return [[new CellError(code, answer.thrown)]];
  const rows = Array.isArray(answer.value) ? (answer.value as unknown[][]) : [[answer.value]];
  return rows.map((row) => row.map((cell) => {
    const [, code, words = ""] = (typeof cell === "string" && /^(#(?:N\/A|[A-Z0/]+[!?]))(?: ([^]*))?$/.exec(cell)) || [];
    return code === undefined ? cell : new CellError(code, words);
  }));
}
