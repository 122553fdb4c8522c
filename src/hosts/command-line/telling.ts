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

/** A file can hold many cafés, and two machines can each have a file of the same name, which stands twice with its café. */
function filesOf(cafes: readonly CafeState[]): number {
  const most = new Map<string, number>();
  for (const { files } of cafes) {
    for (const file of files) most.set(file, Math.max(most.get(file) ?? 0, files.filter((it) => it === file).length));
  }
  return [...most.values()].reduce((sum, count) => sum + count, 0);
}

export function sayTotals(cafes: readonly CafeState[]): void {
  const total = (count: keyof CafeState["state"]["counts"]): number => cafes.reduce((sum, { state }) => sum + state.counts[count], 0);
  const files = filesOf(cafes);
  const where = files === 1 ? "the file" : `${files} logs`;
  const rows = total("rows");
  console.log(`${rows} rows in ${where}: ${total("read")} read, ${total("refused")} refused. Of those read, ${total("blank")} are blank and ${total("found")} look wrong.`);
  const seconds = process.uptime();
  const megabytes = process.resourceUsage().maxRSS / 1024;
  console.log(`${seconds.toFixed(1)} s, ${Math.round(rows / seconds)} rows a second, at most ${Math.round(megabytes)} MB of memory.`);
}
