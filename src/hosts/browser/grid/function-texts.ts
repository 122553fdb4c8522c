/** What the grid's own functions do, in words: a twentieth of what would be loaded at first, and read only while a formula is typed. */
import { LocaleService, LocaleType, type Injector } from "@univerjs/core";

export async function bringFunctionTexts(injector: Injector): Promise<void> {
  const { default: texts } = await import(/* webpackChunkName: "function-texts" */ "@univerjs/sheets-formula/locale/en-US");
  const locale = injector.get(LocaleService);
  locale.load({ [LocaleType.EN_US]: texts });
  // Descriptions are made of the texts when the language changes.
  locale.setLocale(LocaleType.EN_US);
}
