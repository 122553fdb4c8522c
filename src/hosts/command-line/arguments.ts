/** What was typed after `npm run check-log --`. */
import { parseArgs } from "node:util";
import { badInput } from "../../../shared/problem";
import { fields, type ChosenColumns } from "../../log-file/columns";
import { measures, type Measure } from "../../../shared/log/summary";
import type { Window } from "../../log-file/log-sums";
import type { ResultForm } from "./csv-file";

export const help = `npm run check-log -- FILE… | FOLDER | -

Reads shot logs (.csv, .xlsx) and says what looks wrong in them, row by row. Nothing in a log is changed.
One FILE: writes FILE-findings.csv, FILE-summary.csv and FILE-report.xlsx beside it. Several, or a FOLDER with all logs in it
and in the folders within: one findings.csv, one summary.csv by café and setting, and one report.xlsx.
A log with a column of cafés (Café, Site, Shop, Branch…) is summed by it, else each file is a café.
- is standard input, and a FILE may be a pipe; their results stand where you are, as log-findings.csv and so on.

  --dose, --beverage, --time, --strength, --setting, --cafe COLUMN
                     which column that is: its heading, or its number from 1 (found by the headings if left out)
  --sheet NAME       the only sheet to be read of a workbook (every sheet with the headings of a log if left out)
  --separator SIGN   the sign between cells: "," ";" "|" or "tab" (found by itself if left out)
  --decimal MARK     "point" or "comma" (found by itself if left out)
  --window MEASURE=LOW..HIGH
                     what shots are wanted to be, as in --window time=25..31; the report says how many are, and which cafés
                     hold steady, lie in the middle and are tight enough. MEASURE is ratio, time, strength or extraction,
                     in s and %; may be given for each of them
  --output FOLDER    where to write (beside the logs if left out)
  --replace          write over the results of an earlier run
  --workers NUMBER   how many logs are read at once (as many as there are cores if left out); the results do not depend on it
  --state OUT.json   also write what a later run can join this one with others from
  --merge            the FILEs are such states: writes summary.csv and report.xlsx of all of them

Ends with 0 where nothing was found, 1 where something was, 2 where a log could not be read.`;

/** Between cells. */
export const separators = [",", ";", "|", "\t"];

export interface Asked {
  readonly inputs: readonly string[];
  readonly columns: ChosenColumns;
  readonly sheet?: string;
  readonly form: Partial<ResultForm>;
  readonly windows: readonly Window[];
  readonly output?: string;
  readonly replace: boolean;
  readonly workers?: number;
  readonly state?: string;
  /** The inputs are states of earlier runs. */
  readonly merge: boolean;
}

/** Undefined where only the help was asked for. */
export function readArguments(typed: readonly string[]): Asked | undefined {
  const { values, positionals } = parsed(typed);
  if (values.help) return undefined;
  if (positionals.length === 0) badInput(`Which log?\n\n${help}`);
  return {
    inputs: positionals,
    columns: Object.fromEntries(fields.flatMap((field) => (values[field] === undefined ? [] : [[field, values[field]]]))),
    sheet: values.sheet,
    form: { ...separatorOf(values.separator), ...decimalOf(values.decimal) },
    windows: windowsOf(values.window ?? []),
    output: values.output,
    replace: values.replace ?? false,
    workers: workersOf(values.workers),
    state: values.state,
    merge: values.merge ?? false,
  };
}

function parsed(typed: readonly string[]) {
  const text = { type: "string" } as const;
  const flag = { type: "boolean" } as const;
  try {
    return parseArgs({
      args: [...typed],
      allowPositionals: true,
      options: {
        dose: text, beverage: text, time: text, strength: text, setting: text, cafe: text, sheet: text, separator: text, decimal: text, output: text,
        window: { type: "string", multiple: true }, workers: text, state: text, merge: flag, replace: flag, help: flag,
      },
    });
  } catch (thrown) {
    return badInput((thrown as Error).message);
  }
}

function separatorOf(given: string | undefined): Partial<ResultForm> {
  if (given === undefined) return {};
  const separator = given === "tab" ? "\t" : given;
  if (!separators.includes(separator)) badInput(`--separator must be "," ";" "|" or tab, but is “${given}”.`);
  return { separator };
}

function decimalOf(given: string | undefined): Partial<ResultForm> {
  if (given === undefined) return {};
  if (given !== "point" && given !== "comma") badInput(`--decimal must be point or comma, but is “${given}”.`);
  return { decimal: given === "point" ? "." : "," };
}

function workersOf(given: string | undefined): number | undefined {
  if (given === undefined) return undefined;
  if (!/^[1-9]\d{0,2}$/.test(given)) badInput(`--workers must be a whole number from 1 to 999, but is “${given}”.`);
  return Number(given);
}

function windowsOf(given: readonly string[]): Window[] {
  const windows = given.map((text) => {
    const [, measure, low, high] = /^(\w+)=(\d+(?:[.,]\d+)?)\.\.(\d+(?:[.,]\d+)?)$/.exec(text) ?? [];
    const window = { measure: measure as Measure, low: numberOf(low), high: numberOf(high) };
    if (measure === undefined || !measures.includes(window.measure) || !(window.low < window.high)) {
      badInput(`--window must be one of ${measures.join(", ")} with the least and the most wanted, as in --window time=25..31, but is “${text}”.`);
    }
    return window;
  });
  const twice = windows.find((window, index) => windows.findIndex(({ measure }) => measure === window.measure) !== index);
  if (twice) badInput(`--window ${twice.measure} is given twice.`);
  return measures.flatMap((measure) => windows.filter((window) => window.measure === measure));
}

function numberOf(text = ""): number {
  return Number(text.replace(",", "."));
}
