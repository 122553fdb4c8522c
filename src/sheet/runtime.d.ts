/** What every runtime of the functions has beside the language. */
declare function setTimeout(run: () => void, milliseconds?: number): unknown;

interface ErrorConstructor {
  stackTraceLimit: number;
}
