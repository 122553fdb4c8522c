import { open } from "node:fs/promises";
import { badInput } from "../../../shared/problem";
import type { LogInput } from "./log-inputs";
import { systemWords } from "./system-words";

const pieceLength = 1 << 18;

/** The bytes of a log, in pieces; throws in words where it cannot be read, or ends before it should. */
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

/** What comes through a pipe and cannot be read in pieces has to fit into memory. */
const mostWhole = 256_000_000;

/** All bytes of a log. */
export async function wholeOf(log: LogInput): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  let length = 0;
  for await (const piece of piecesOf(log)) {
    length += piece.length;
    if (length > mostWhole) badInput(`${log.file} is a workbook of more than ${mostWhole / 1e6} MB that comes through a pipe. Read it from a file.`);
    pieces.push(piece);
  }
  return Buffer.concat(pieces);
}
