/** The search of the index page: shows the functions whose words hold all the words typed. */
const input = document.querySelector<HTMLInputElement>("#search")!;
const found = document.querySelector<HTMLElement>("#found")!;
const lines = [...document.querySelectorAll<HTMLElement>("[data-search]")];

input.addEventListener("input", () => {
  const words = input.value.toLowerCase().split(/\s+/).filter(Boolean);
  for (const line of lines) line.hidden = !words.every((word) => line.dataset.search!.includes(word));
  for (const section of document.querySelectorAll<HTMLElement>("[data-topic]")) {
    section.hidden = section.querySelectorAll("[data-search]:not([hidden])").length === 0;
  }
  const shown = lines.filter((line) => !line.hidden).length;
  found.textContent = words.length === 0 ? "" : shown === 1 ? "1 function" : `${shown} functions`;
});
export {};
