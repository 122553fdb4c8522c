/** What looks wrong in a log, the worst first: a list to go through with whoever keeps it. */
import type { Words } from "../words";
import { checkedRows, grades, isEmptyRow, type Grade, type LogColumns } from "./check";

export interface Finding {
  /** Row of the log, counted from 1. */
  readonly logRow: number | "";
  readonly grade: Grade | "";
  readonly words: Words;
}

/** The first findings, by grade and then by row. Where there is none, one line says so. */
export function logFindings({ first = 15, ...log }: LogColumns & { readonly first?: number }): Finding[] {
  const found = checkedRows(log).flatMap((it, index) => (it ? [{ logRow: index + 1, grade: it.grade, words: it.words }] : []));
  if (found.length > 0) return grades.flatMap((grade) => found.filter((it) => it.grade === grade)).slice(0, first);
  const shots = log.dose.filter((dose, row) => !isEmptyRow({ dose, beverage: log.beverage[row]!, time: log.time[row]!, strength: log.strength[row]! })).length;
  return [{ logRow: "", grade: "", words: shots === 0 ? "No shots yet." : `Nothing stands out in ${shots === 1 ? "one shot" : `${shots} shots`}.` }];
}
