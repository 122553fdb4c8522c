/**
 * What is wrong: what is copied and pasted goes through style attributes and style sheets of markup, and so does what the browser cleans for the
 * library. A page whose policy forbids those in its own markup loses them, and where the markup has a sheet of styles, as that of spreadsheet
 * programs does, pasting ends in an error.
 * How it shows: cells that are copied in a spreadsheet program cannot be pasted; copying a cell notes breaches of the policy.
 * Here attributes are taken out of the text before the browser reads it and set on its elements one by one, which the policy allows.
 */
import type { Injector } from "@univerjs/core";
import { ISheetClipboardService } from "@univerjs/sheets-ui";
import { BrowserClipboardService } from "@univerjs/ui";

/** What the library makes cells from markup with. */
interface MarkupReader {
  readonly _styleMap: Map<string, CSSStyleDeclaration>;
  _parseMsoNumfmtFromCssText(text: string): void;
  convert(markup: string): unknown;
}

const sheets = /<style\b[^>]*>([\s\S]*?)<\/style\s*>/gi;
const tags = /<[a-z](?:[^>"']|"[^"]*"|'[^']*')*>/gi;
const styleOrQuoted = /("[^"]*"|'[^']*')|([\s"'])style(?=\s*=)/gi;
const standIn = "data-set-aside-style";

let repaired = false;

export function pasteStylesUnderAPolicy(injector: Injector): void {
  if (!repaired) {
    readMarkupWithStyles();
    copyAsItIs();
    repaired = true;
  }
  const { _htmlToUSM: reader } = injector.get(ISheetClipboardService) as unknown as { _htmlToUSM: MarkupReader };
  const convert = reader.convert;
  reader.convert = function (markup) {
    for (const [, text = ""] of markup.matchAll(sheets)) {
      this._parseMsoNumfmtFromCssText(text.replace(/<!--|-->/g, ""));
      const sheet = new CSSStyleSheet();
      sheet.replaceSync(text);
      for (const rule of sheet.cssRules) if (rule instanceof CSSStyleRule) this._styleMap.set(rule.selectorText, rule.style);
    }
    return convert.call(this, markup.replace(sheets, ""));
  };
}

function readMarkupWithStyles(): void {
  const range = Range.prototype;
  const fragmentOf = range.createContextualFragment;
  range.createContextualFragment = function (markup) {
    return withStylesSet(fragmentOf.call(this, withStylesAside(markup)));
  };
  const parser = DOMParser.prototype;
  const parse = parser.parseFromString;
  parser.parseFromString = function (markup, type) {
    return type === "text/html" ? withStylesSet(parse.call(this, withStylesAside(String(markup)), type)) : parse.call(this, markup, type);
  };
}

function withStylesAside(markup: string): string {
  return markup.replace(tags, (tag) => tag.replace(styleOrQuoted, (_, quoted: string | undefined, before: string) => quoted ?? `${before}${standIn}`));
}

function withStylesSet<T extends ParentNode>(root: T): T {
  for (const element of root.querySelectorAll<HTMLElement>(`[${standIn}]`)) {
    element.style.cssText = element.getAttribute(standIn)!;
    element.removeAttribute(standIn);
  }
  return root;
}

interface ReadsAsItIs {
  read(options: { unsanitized: string[] }): Promise<ClipboardItems>;
}

/** What is handed over in the event of copying is not cleaned by the browser, nor what it is asked to give as it is. */
function copyAsItIs(): void {
  const clipboard = BrowserClipboardService.prototype;
  const { write, read } = clipboard;
  clipboard.write = function (text, markup, more) {
    let copied = false;
    const copy = (event: ClipboardEvent) => {
      if (!event.clipboardData) return;
      event.clipboardData.setData("text/plain", text);
      event.clipboardData.setData("text/html", markup);
      event.preventDefault();
      event.stopImmediatePropagation();
      copied = true;
    };
    document.addEventListener("copy", copy, true);
    document.execCommand("copy");
    document.removeEventListener("copy", copy, true);
    return copied ? Promise.resolve() : write.call(this, text, markup, more);
  };
  clipboard.read = async function () {
    try {
      return await (navigator.clipboard as ReadsAsItIs).read({ unsanitized: ["text/html"] });
    } catch {
      return read.call(this);
    }
  };
}
