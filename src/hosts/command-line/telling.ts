/** What a run says of itself when it is done. */
import type { CafeState } from "../../log-file/cafe";
import type { LogInput } from "./log-inputs";
import type { LogOutcome } from "./read-log";

export function notRead(logs: readonly LogInput[], outcomes: readonly LogOutcome[]): string[] {
  return outcomes.flatMap((outcome, index) => ("refused" in outcome ? [`${logs[index]!.file} is NOT READ: ${outcome.refused}`] : []));
}

/** How the logs were read: one line for what several have in common. */
export function commonNotes(logs: readonly LogInput[], outcomes: readonly LogOutcome[]): string[] {
  const notes = new Map<string, string[]>();
  outcomes.forEach((outcome, index) => {
    if (!("refused" in outcome)) for (const note of outcome.notes) notes.set(note, [...(notes.get(note) ?? []), logs[index]!.file]);
  });
  return [...notes].map(([note, files]) => (logs.length === 1 ? note : `${filesInWords(files, logs.length)}: ${note}`));
}

function filesInWords(files: readonly string[], of: number): string {
  if (files.length === of) return `All ${of} logs`;
  return files.length > 3 ? `${files[0]} and ${files.length - 1} others` : files.join(", ");
}

export function sayTotals(cafes: readonly CafeState[]): void {
  const total = (count: keyof CafeState["state"]["counts"]): number => cafes.reduce((sum, { state }) => sum + state.counts[count], 0);
  const files = cafes.reduce((sum, it) => sum + it.files.length, 0);
  const where = files === 1 ? "the file" : `${files} logs`;
  const rows = total("rows");
  console.log(`${rows} rows in ${where}: ${total("read")} read, ${total("refused")} refused. Of those read, ${total("blank")} are blank and ${total("found")} look wrong.`);
  const seconds = process.uptime();
  const megabytes = process.resourceUsage().maxRSS / 1024;
  console.log(`${seconds.toFixed(1)} s, ${Math.round(rows / seconds)} rows a second, at most ${Math.round(megabytes)} MB of memory.`);
}
