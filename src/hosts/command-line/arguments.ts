/** What was typed after `npm run check-log --`. */
import { parseArgs } from "node:util";
import { badInput } from "../../../shared/problem";
import { fields, type ChosenColumns } from "../../log-file/columns";
import type { CsvForm } from "../../log-file/csv-reading";

export const help = `npm run check-log -- FILE [options]

Reads a shot log (.csv) and says what looks wrong in it, row by row. Writes FILE-findings.csv and FILE-summary.csv.
FILE may be a pipe, and - is standard input; the results of these stand where you are, as log-findings.csv and log-summary.csv.

  --dose, --beverage, --time, --strength, --setting COLUMN
                     which column that is: its heading, or its number from 1 (found by the headings if left out)
  --separator SIGN   the sign between cells: "," ";" "|" or "tab" (found by itself if left out)
  --decimal MARK     "point" or "comma" (found by itself if left out)
  --output FOLDER    where to write (the folder of FILE if left out)
  --replace          write over the findings and summary of an earlier run

Ends with 0 where nothing was found, 1 where something was, 2 where the log could not be read.`;

export interface Asked {
  readonly input: string;
  readonly columns: ChosenColumns;
  readonly form: Partial<Pick<CsvForm, "separator" | "decimal">>;
  readonly output?: string;
  readonly replace: boolean;
}

/** Undefined where only the help was asked for. */
export function readArguments(typed: readonly string[]): Asked | undefined {
  const { values, positionals } = parsed(typed);
  if (values.help) return undefined;
  const [input, ...others] = positionals;
  if (input === undefined) badInput(`Which log?\n\n${help}`);
  if (others.length > 0) badInput(`One log at a time, please.\n\n${help}`);
  return {
    input,
    columns: Object.fromEntries(fields.flatMap((field) => (values[field] === undefined ? [] : [[field, values[field]]]))),
    form: { ...separatorOf(values.separator), ...decimalOf(values.decimal) },
    output: values.output,
    replace: values.replace ?? false,
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
        dose: text, beverage: text, time: text, strength: text, setting: text, separator: text, decimal: text, output: text, replace: flag, help: flag,
      },
    });
  } catch (thrown) {
    return badInput((thrown as Error).message);
  }
}

function separatorOf(given: string | undefined): Asked["form"] {
  if (given === undefined) return {};
  const separator = given === "tab" ? "\t" : given;
  if (![",", ";", "|", "\t"].includes(separator)) badInput(`--separator must be "," ";" "|" or tab, but is “${given}”.`);
  return { separator };
}

function decimalOf(given: string | undefined): Asked["form"] {
  if (given === undefined) return {};
  if (given !== "point" && given !== "comma") badInput(`--decimal must be point or comma, but is “${given}”.`);
  return { decimal: given === "point" ? "." : "," };
}
