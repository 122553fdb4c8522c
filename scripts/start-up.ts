/** What the commands that serve something share: the port, and words for whatever keeps them from starting. */
import { parseNumber } from "office-addin-cli";

/** Why a command cannot start, in words for whoever typed it. */
export class CannotStart extends Error {}

/** Runs a command; where it cannot start, says why and ends with 1. */
export async function startUp(run: () => Promise<void>): Promise<void> {
  try {
    await run();
  } catch (thrown) {
    console.error(wordsOf(thrown));
    process.exit(1);
  }
}

/** The port that the environment asks for, or the usual one. */
export function portFrom(asked: string | undefined, usual: number): number {
  if (asked === undefined || asked === "") return usual;
  const wrong = `PORT must be a whole number from 1 to 65535, but is “${asked}”.`;
  const port = parseNumber(asked, wrong)!;
  // "3000x" has been read as 3000.
  if (!/^\d+$/.test(asked) || port < 1 || port > 65535) throw new CannotStart(wrong);
  return port;
}

const systemFailures: Readonly<Record<string, (failure: NodeJS.ErrnoException & { port?: number }) => string>> = {
  EADDRINUSE: ({ port }) => `Port ${port} is in use by another program. End that program, or set PORT to another number, then run this again.`,
  EACCES: ({ port, path }) =>
    port !== undefined ? `This user may not use port ${port}. Set PORT to a number from 1024 on, then run this again.` : `This user may not read or write ${path}.`,
  ENOTFOUND: () => "This machine does not know the name localhost. Add the line “127.0.0.1 localhost” to its hosts file, then run this again.",
  EADDRNOTAVAIL: () => "The address of localhost is not one of this machine's own. Look at the line localhost in its hosts file, then run this again.",
};

function wordsOf(thrown: unknown): string {
  if (!(thrown instanceof Error)) return String(thrown);
  const failure = thrown as NodeJS.ErrnoException;
  return systemFailures[failure.code ?? ""]?.(failure) ?? failure.message;
}
