/** Presses a button of the browser sheet's toolbar as a person does, opening the menu that it stands in first. */
import type { Page } from "playwright-core";

export async function choose(page: Page, words: string): Promise<void> {
  const control = page.locator(".top > button, .tools > button, .menu > button").filter({ hasText: words }).first();
  const menu = await control.evaluate((button) => button.closest("[popover]")?.id);
  if (menu !== undefined) await page.locator(`[popovertarget="${menu}"]`).click();
  await control.click();
}
