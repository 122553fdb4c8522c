/** What was typed after `npm run check-log --`. */
import { parseArgs } from "node:util";
import { badInput } from "../../../shared/problem";
import { fields, type ChosenColumns } from "../../log-file/columns";
import type { ResultForm } from "./csv-file";

export const help = `npm run check-log -- FILE… | FOLDER | -

Reads shot logs (.csv, .xlsx) and says what looks wrong in them, row by row. Nothing in a log is changed.
One FILE: writes FILE-findings.csv and FILE-summary.csv beside it. Several, or a FOLDER with all logs in it and in
the folders within: one findings.csv and one summary.csv by café and setting, a café being a file.
- is standard input, and a FILE may be a pipe; their results stand where you are, as log-findings.csv and log-summary.csv.

  --dose, --beverage, --time, --strength, --setting COLUMN
                     which column that is: its heading, or its number from 1 (found by the headings if left out)
  --sheet NAME       the only sheet to be read of a workbook (every sheet with the headings of a log if left out)
  --separator SIGN   the sign between cells: "," ";" "|" or "tab" (found by itself if left out)
  --decimal MARK     "point" or "comma" (found by itself if left out)
  --output FOLDER    where to write (beside the logs if left out)
  --replace          write over the results of an earlier run
  --workers NUMBER   how many logs are read at once (as many as there are cores if left out); the results do not depend on it

Ends with 0 where nothing was found, 1 where something was, 2 where a log could not be read.`;

/** Between cells. */
export const separators = [",", ";", "|", "\t"];

export interface Asked {
  readonly inputs: readonly string[];
  readonly columns: ChosenColumns;
  readonly sheet?: string;
  readonly form: Partial<ResultForm>;
  readonly output?: string;
  readonly replace: boolean;
  readonly workers?: number;
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
    output: values.output,
    replace: values.replace ?? false,
    workers: workersOf(values.workers),
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
        dose: text, beverage: text, time: text, strength: text, setting: text, sheet: text, separator: text, decimal: text, output: text,
        workers: text, replace: flag, help: flag,
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
