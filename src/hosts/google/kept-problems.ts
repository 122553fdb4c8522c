/** What the functions refused lately. Each call is a run of its own, so the list lives in the cache that the document's runs share, for some hours. */
import { problemsKept, recentProblems, type RecentProblem } from "../../sheet/recent-problems";

const place = "Pucksheet problems";
/** Of the cache, which forgets after six hours at the latest. */
const seconds = 21_600;

/** Adds what this run refused to the list. Where there is no cache, the list stays as it was: the cells have their words all the same. */
export function keepProblems(): void {
  const latest = recentProblems();
  if (latest.length === 0) return;
  try {
    const cache = CacheService.getDocumentCache();
    const others = keptProblems().filter((one) => !latest.some((it) => it.functionName === one.functionName && it.message === one.message));
    cache?.put(place, JSON.stringify([...latest, ...others].slice(0, problemsKept)), seconds);
  } catch {
    // Nobody waits for the list.
  }
}

export function keptProblems(): RecentProblem[] {
  return JSON.parse(CacheService.getDocumentCache()?.get(place) ?? "[]") as RecentProblem[];
}
