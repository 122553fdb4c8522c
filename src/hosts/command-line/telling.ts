/** What a run says on the screen when it is done. */
import type { CafeState } from "../../log-file/cafe";
import type { LogInput } from "./log-inputs";
import type { LogOutcome } from "./read-log";

/** What became of each log: one line for what several have in common. */
export function sayOutcome(logs: readonly LogInput[], outcomes: readonly LogOutcome[], leftOut: readonly string[]): void {
  const notes = new Map<string, string[]>();
  outcomes.forEach((outcome, index) => {
    const { file } = logs[index]!;
    if ("refused" in outcome) console.log(`${file} is NOT READ: ${outcome.refused}`);
    else for (const note of outcome.notes) notes.set(note, [...(notes.get(note) ?? []), file]);
  });
  for (const [note, files] of notes) console.log(logs.length === 1 ? note : `${filesInWords(files, logs.length)}: ${note}`);
  if (leftOut.length > 0) console.log(`Left out, as results of an earlier run: ${leftOut.join(", ")}.`);
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
