/** The two sizes of paper that printers of the world hold. */

export type Paper = "A4" | "letter";

/** By the region of the person's language; where it names none, English is taken for that of the United States, as browsers do. */
export function usualPaper(language: string): Paper {
  return language === "en" || /-(US|CA|MX|CL|CO|CR|PH|PR|VE|GT|PA)\b/.test(language) ? "letter" : "A4";
}
