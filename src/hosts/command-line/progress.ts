/** How far the reading is: a line that renews itself on a terminal, else one line for every tenth. */
export interface Progress {
  add(bytes: number, rows: number): void;
  end(): void;
}

/** Milliseconds between two showings on a terminal, and before the first one anywhere. */
const pause = 200;

/** `size`, in bytes, is undefined where only the end will tell. */
export function progressOf(size: number | undefined, began = performance.now()): Progress {
  let [done, rows, shownAt, shownTenth, wrote] = [0, 0, began, 0, false];
  const line = (): string => {
    const seconds = (performance.now() - began) / 1000;
    const rate = `${Math.round(rows / seconds).toLocaleString("en")} rows a second`;
    const read = `${rows.toLocaleString("en")} rows, ${rate}`;
    if (size === undefined || size === 0 || done === 0) return read;
    return `${Math.floor((100 * done) / size)} % read, ${read}, ${timeLeft((seconds * (size - done)) / done)}`;
  };
  return {
    add(bytes, more) {
      done += bytes;
      rows += more;
      if (performance.now() - began < pause) return;
      if (process.stderr.isTTY) {
        if (performance.now() - shownAt < pause) return;
        [shownAt, wrote] = [performance.now(), true];
        // What the line was longer before is wiped out.
        process.stderr.write(`\r${line()}\u001b[K`);
      } else if (size && Math.floor((10 * done) / size) > shownTenth) {
        shownTenth = Math.floor((10 * done) / size);
        process.stderr.write(`${line()}\n`);
      }
    },
    end() {
      if (wrote) process.stderr.write("\n");
    },
  };
}

function timeLeft(seconds: number): string {
  if (seconds < 90) return `${Math.ceil(Math.max(0, seconds))} s left`;
  return seconds < 5400 ? `${Math.round(seconds / 60)} min left` : `${(seconds / 3600).toFixed(1)} h left`;
}
