/** The logs that were asked for, as streams of bytes. */
import { statSync } from "node:fs";
import { open } from "node:fs/promises";
import { basename, dirname, extname } from "node:path";
import { badInput } from "../../../shared/problem";
import { systemWords } from "./system-words";

export interface LogInput {
  /** What its results are called by. */
  readonly name: string;
  /** Undefined for standard input. */
  readonly path?: string;
  /** Where its results are written, if nowhere else is asked for. */
  readonly folder: string;
  /** Bytes; undefined where only the end will tell. */
  readonly size?: number;
}

const pieceLength = 1 << 18;

export function inputOf(typed: string): LogInput {
  if (typed === "-") return { name: "log", folder: "." };
  const stat = statSync(typed, { throwIfNoEntry: false });
  if (!stat) badInput(`There is no file ${typed}.`);
  if (stat.isFIFO()) return { name: "log", path: typed, folder: "." };
  if (!stat.isFile()) badInput(`${typed} is not a file.`);
  return { name: basename(typed, extname(typed)), path: typed, folder: dirname(typed), size: stat.size };
}

/** The bytes of a log, in pieces; throws in words where it ends before it should. */
export async function* piecesOf({ path }: LogInput): AsyncGenerator<Uint8Array> {
  if (path === undefined) return yield* process.stdin as AsyncIterable<Uint8Array>;
  let read = 0;
  let promised = 0;
  try {
    await using file = await open(path);
    const stat = await file.stat();
    promised = stat.isFile() ? stat.size : 0;
    for await (const piece of file.createReadStream({ highWaterMark: pieceLength }) as AsyncIterable<Uint8Array>) {
      read += piece.length;
      yield piece;
    }
  } catch (thrown) {
    badInput(`${path} cannot be read: ${systemWords(thrown)}.`);
  }
  if (read < promised) badInput(`${path} was cut short while it was read: it had ${promised} bytes and ended after ${read}. Run this again when nothing writes to it.`);
}
