/** Where the rows or columns of a sheet go when some are inserted, deleted or moved. Counted from 0. */
export interface LineMap {
  /** Undefined for a line that is gone. */
  line(index: number): number | undefined;
  /** What becomes of a stretch, both ends belonging to it; undefined where nothing is left. */
  span(from: number, to: number): readonly [number, number] | undefined;
}

/** `limit` is how many lines a sheet has: what is pushed beyond it is gone. */
export function inserted(at: number, count: number, limit: number): LineMap {
  const line = (index: number) => (index < at ? index : index + count < limit ? index + count : undefined);
  return {
    line,
    span(from, to) {
      // The whole sheet stays the whole sheet.
      if (from === 0 && to === limit - 1) return [from, to];
      const start = line(from);
      return start === undefined ? undefined : [start, line(to) ?? limit - 1];
    },
  };
}

export function deleted(at: number, count: number, limit: number): LineMap {
  const isGone = (index: number) => index >= at && index < at + count;
  const moved = (index: number) => (index < at ? index : index - count);
  return {
    line: (index) => (isGone(index) ? undefined : moved(index)),
    span(from, to) {
      if (from === 0 && to === limit - 1) return [from, to];
      if (isGone(from) && isGone(to)) return undefined;
      return [isGone(from) ? at : moved(from), isGone(to) ? at - 1 : moved(to)];
    },
  };
}

/** Lines `at` and following, moved to stand before what was line `before`. */
export function moved(at: number, count: number, before: number): LineMap {
  const line = (index: number) => {
    if (index >= at && index < at + count) return before <= at ? index - at + before : index - at + before - count;
    if (before <= at) return index >= before && index < at ? index + count : index;
    return index >= at + count && index < before ? index - count : index;
  };
  return {
    line,
    span(from, to) {
      const [start, end] = [line(from), line(to)];
      // A stretch goes along as a whole, or stays where it is.
      return end - start === to - from ? [start, end] : [from, to];
    },
  };
}
