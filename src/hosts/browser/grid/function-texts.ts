/** What the grid's own functions do, in words: a twentieth of what would be loaded at first, and read only while a formula is typed. */
import { LocaleService, LocaleType, type Injector } from "@univerjs/core";
import { IDescriptionService } from "@univerjs/sheets-formula";

export async function bringFunctionTexts(injector: Injector): Promise<void> {
  const { default: texts } = await import(/* webpackChunkName: "function-texts" */ "@univerjs/sheets-formula/locale/en-US");
  injector.get(LocaleService).load({ [LocaleType.EN_US]: texts });
  // Descriptions are made of the texts once. To set the language anew would make them too, but draws the whole page again, under the person's hands.
  (injector.get(IDescriptionService) as unknown as { _initRegisterDescriptions(): void })._initRegisterDescriptions();
}
