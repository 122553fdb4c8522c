/** The search of the index page: shows the functions and the tasks whose words hold all the words typed. */
import { foundBy } from "./found-by";

const input = document.querySelector<HTMLInputElement>("#search")!;
const found = document.querySelector<HTMLElement>("#found")!;
const lines = [...document.querySelectorAll<HTMLElement>("[data-search]")];

input.addEventListener("input", () => {
  const shown = new Set(foundBy(input.value, lines, (line) => line.dataset.search!));
  for (const line of lines) line.hidden = !shown.has(line);
  for (const section of document.querySelectorAll<HTMLElement>("[data-topic]")) {
    section.hidden = section.querySelectorAll("[data-search]:not([hidden])").length === 0;
  }
  const isTyped = input.value.trim() !== "";
  found.textContent = !isTyped ? "" : shown.size === 0 ? "Nothing found. Try fewer or other words." : `${shown.size} found`;
});
