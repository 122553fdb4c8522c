/** “Put this in my sheet”: copies the formula of an example, to be pasted into a cell. */
for (const button of document.querySelectorAll<HTMLButtonElement>("button[data-copies]")) {
  const formula = document.getElementById(button.dataset.copies!)!;
  const said = document.getElementById(`${button.dataset.copies!}-said`)!;
  button.hidden = false;
  button.addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(formula.textContent);
      said.textContent = "Copied. Select a cell in your sheet and paste.";
    } catch {
      // A browser may not let a page write there: then the person does.
      getSelection()!.selectAllChildren(formula);
      said.textContent = "The formula is selected: copy it, select a cell in your sheet and paste.";
    }
  });
}
export {};
