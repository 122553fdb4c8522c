/** What an error value means, for the cells that carry no message of their own. */
import { spelled } from "../../sheet/spelling";

const words: Readonly<Record<string, string>> = {
  "#NAME?": `There is no function or name spelled like this. Check the spelling; functions of Pucksheet begin with ${spelled("")}`,
  "#VALUE!": "An argument is of the wrong kind, such as a text where a number is needed.",
  "#N/A": "There is no answer for these cells.",
  "#DIV/0!": "The formula divides by zero or by an empty cell.",
  "#NUM!": "The result is no number that a cell can hold, or an argument is out of range.",
  "#NULL!": "The two ranges have no cell in common.",
  "#REF!": "The formula refers to cells that are not there.",
  "#SPILL!": "The result needs more cells, but some of the cells beside or below are not empty. Clear them.",
  "#CALC!": "This page cannot calculate the formula.",
  "#CYCLE!": "The formula refers to its own cell, directly or through others.",
  "#CONNECT!": "The formula needs a connection that this page does not have.",
  "#ERROR!": "The formula cannot be read. Check its brackets, commas and quotes.",
};

export function isErrorCode(value: unknown): value is string {
  return typeof value === "string" && value in words;
}

export function wordsForError(code: string): string {
  return words[code] ?? "The formula has no result.";
}
