/** Which logs were asked for: files, folders with all their logs, or standard input. */
import { readdirSync, realpathSync, statSync, type Stats } from "node:fs";
import { basename, dirname, extname, isAbsolute, join, relative, resolve, sep } from "node:path";
import { badInput } from "../../../shared/problem";
import { isResult } from "./headings";

export interface LogInput {
  /** What its shots are called by in the results. */
  readonly cafe: string;
  /** As it is named in the results. */
  readonly file: string;
  /** Undefined for standard input. */
  readonly path?: string;
  /** Bytes; undefined where only the end will tell. */
  readonly size?: number;
}

export interface LogInputs {
  /** In the order of their names. */
  readonly logs: readonly LogInput[];
  /** Where the results are written, if nowhere else is asked for. */
  readonly folder: string;
  /** What the names of the results begin with. */
  readonly prefix: string;
  /** Results of an earlier run, which are no logs. */
  readonly leftOut: readonly string[];
}

const kinds = [".csv", ".xlsx", ".xlsm"];

export function logInputs(typed: readonly string[]): LogInputs {
  if (typed.includes("-")) {
    if (typed.length > 1) badInput("Standard input, -, is one log, and cannot be read beside others.");
    return { logs: [{ cafe: "log", file: "standard input" }], folder: ".", prefix: "log-", leftOut: [] };
  }
  const found = typed.flatMap((path) => {
    const stat = statSync(path, { throwIfNoEntry: false });
    if (!stat) badInput(`There is no file or folder ${path}.`);
    return stat.isDirectory() ? logsIn(path) : [{ path, stat }];
  });
  const all = withoutRepeats(found);
  const leftOut = all.filter(({ path, stat }) => stat.isFile() && isResult(path)).map(({ path }) => path);
  const files = all.filter(({ path }) => !leftOut.includes(path));
  const [first] = files;
  if (!first) badInput(leftOut.length > 0 ? `${leftOut.join(", ")}: results of check-log, not logs.` : `There are no logs (${kinds.join(", ")}) in ${typed.join(", ")}.`);
  const folder = typed.length === 1 && statSync(typed[0]!).isDirectory() ? typed[0]! : commonFolder(files.map(({ path }) => path));
  if (files.length > 1 || !typed.includes(first.path)) return { logs: named(folder, files), folder, prefix: "", leftOut };
  const log = inputOf(first.path, first.stat);
  return { logs: [log], folder: log.size === undefined ? "." : folder, prefix: `${log.cafe}-`, leftOut };
}

interface Found {
  readonly path: string;
  readonly stat: Stats;
}

function inputOf(path: string, stat: Stats): LogInput {
  if (stat.isFIFO()) return { cafe: "log", file: basename(path), path };
  if (!stat.isFile()) badInput(`${path} is neither a file nor a folder.`);
  return { cafe: basename(path, extname(path)), file: basename(path), path, size: stat.size };
}

/** Every log in a folder and in the folders within; hidden files and the lock files of Excel are none. */
function logsIn(folder: string): Found[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => kinds.includes(extname(name).toLowerCase()) && !name.split(sep).some((part) => part.startsWith(".") || part.startsWith("~$")))
    .flatMap((name) => {
      const path = join(folder, name);
      const stat = statSync(path, { throwIfNoEntry: false });
      return stat?.isFile() ? [{ path, stat }] : [];
    });
}

/** A file that was asked for twice is one log. */
function withoutRepeats(files: readonly Found[]): Found[] {
  return [...new Map(files.map((file) => [realpathSync(file.path), file])).values()];
}

export function commonFolder(paths: readonly string[]): string {
  const [first = [], ...others] = paths.map((path) => dirname(resolve(path)).split(sep));
  const length = first.findIndex((part, index) => others.some((other) => other[index] !== part));
  const common = (length < 0 ? first : first.slice(0, length)).join(sep) || sep;
  return isAbsolute(paths[0]!) ? common : relative(".", common) || ".";
}

const inNameOrder = new Intl.Collator("en", { numeric: true });

/** Names relative to the folder, so that no two are the same; the ending is left out where it tells nothing. */
function named(folder: string, files: readonly Found[]): LogInput[] {
  const logs = files.map(({ path, stat }) => ({ ...inputOf(path, stat), file: relative(folder, path).split(sep).join("/") }));
  const bare = (file: string): string => file.slice(0, file.length - extname(file).length);
  const counts = new Map<string, number>();
  for (const { file } of logs) counts.set(bare(file), (counts.get(bare(file)) ?? 0) + 1);
  return logs
    .map((log) => ({ ...log, cafe: counts.get(bare(log.file)) === 1 ? bare(log.file) : log.file }))
    .sort((a, b) => inNameOrder.compare(a.file, b.file) || (a.file < b.file ? -1 : 1));
}
