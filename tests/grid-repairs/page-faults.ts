/** Every fault of the page that the grid library draws that is repaired here, and how it shows. */
import { readFileSync } from "node:fs";
import type { FUniver } from "@univerjs/core/facade";
import type {} from "@univerjs/sheets/facade";
import type {} from "@univerjs/sheets-formula/facade";
import { openLibrary } from "./stock-page.ts";

interface PageFault {
  /** Its file in src/hosts/browser/grid/repairs/. */
  readonly file: string;
  readonly shows: (repaired: boolean) => Promise<unknown>;
  readonly wrong: unknown;
  readonly right: unknown;
}

declare const api: FUniver;
declare const axe: { run(): Promise<{ violations: { id: string }[] }> };

export const pageFaults: readonly PageFault[] = [
  {
    file: "unnamed-parts",
    shows: async (repaired) => {
      const { page } = await openLibrary({ repaired });
      await page.evaluate(readFileSync("node_modules/axe-core/axe.min.js", "utf8"));
      // The library puts its parts in one after the other.
      const found = async () => (await page.evaluate(async () => (await axe.run()).violations.map(({ id }) => id))).join();
      for (let last = await found(); ; ) {
        await page.waitForTimeout(500);
        const now = await found();
        if (now === last) return now.split(",").filter(Boolean);
        last = now;
      }
    },
    wrong: ["aria-allowed-attr", "button-name", "label", "landmark-unique", "tabindex"],
    right: [],
  },
  {
    file: "outdated-completion",
    shows: async (repaired) => {
      const { page } = await openLibrary({ repaired });
      await page.keyboard.type("=E");
      await page.getByText("EFFECT", { exact: true }).waitFor();
      await page.keyboard.type("XP(0)");
      await page.keyboard.press("Enter");
      const typed = () => api.getActiveWorkbook()!.getActiveSheet()!.getRange("A1").getFormula();
      // The library only takes its first function into what is being typed; with Enter once more it is in the cell.
      if (!repaired) await page.keyboard.press("Enter");
      return (await page.waitForFunction(typed)).jsonValue();
    },
    wrong: "=EFFECT(0)",
    right: "=EXP(0)",
  },
  {
    file: "numbers-cut-at-edges",
    shows: async (repaired) => {
      const { page } = await openLibrary({ repaired, before: noteDrawnTexts });
      await page.keyboard.type("=1/3");
      await page.keyboard.press("Enter");
      const width = () => drawn.find(({ text }) => text.startsWith("0.3"))?.width;
      const drawnWidth = (await (await page.waitForFunction(width)).jsonValue())!;
      const columnWidth = await page.evaluate(() => api.getActiveWorkbook()!.getActiveSheet()!.getColumnWidth(0));
      return drawnWidth > columnWidth ? "cut" : "whole";
    },
    wrong: "cut",
    right: "whole",
  },
  {
    file: "styles-under-a-policy",
    shows: async (repaired) => {
      const { page, errors } = await openLibrary({ repaired });
      await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
      const breaches: string[] = [];
      page.on("console", (message) => message.text().includes("violates") && breaches.push(message.text()));
      await page.evaluate(() => void api.getActiveWorkbook()!.getActiveSheet()!.getRange("A1").setValue(18).setFontWeight("bold"));
      await page.keyboard.press("Control+c");
      await page.waitForFunction(async () => (await navigator.clipboard.readText()).startsWith("18"));
      const copying = breaches.length > 0 ? "breaches" : "none";
      breaches.length = 0;
      // As spreadsheet programs copy cells: with a sheet of styles, some of them on the cells themselves.
      await page.evaluate(() => {
        const markup = `<html><head><style><!-- .x1 { font-weight: 700; mso-number-format: "0.0" } --></style></head><body><table><tr>
          <td class=x1>18.5</td><td style='font-style: italic'>A "style = 1" of &lt;p style=&quot;x&quot;></td></tr></table></body></html>`;
        const clipboardData = new DataTransfer();
        clipboardData.setData("text/html", markup);
        clipboardData.setData("text/plain", "18.5\tA");
        document.activeElement!.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }));
      });
      const read = () => {
        const at = (address: string) => api.getActiveWorkbook()!.getActiveSheet()!.getRange(address);
        const [number, text] = [at("A1"), at("B1")];
        const [bold, italic] = [number.getCellStyleData(), text.getCellStyleData()];
        return text.getValue() === null ? undefined : [number.getValue(), bold?.bl, bold?.n?.pattern, text.getValue(), italic?.it];
      };
      const cells = await Promise.race([page.waitForEvent("pageerror"), page.waitForFunction(read, undefined, { timeout: 5000 })]);
      await page.waitForTimeout(100);
      return [copying, "message" in cells ? "error" : await cells.jsonValue(), breaches.length > 0 || errors.length > 0 ? "breaches" : "none"];
    },
    wrong: ["breaches", "error", "breaches"],
    right: ["none", ["18.5", 1, "0.0", 'A "style = 1" of <p style="x">', 1], "none"],
  },
  {
    file: "thrown-errors",
    shows: async (repaired) => {
      const { page } = await openLibrary({ repaired });
      const thrown = page.waitForEvent("pageerror");
      await page.evaluate(() => {
        api.getFormula().registerFunction("BREAK", () => {
          throw new Error("broken");
        });
        const sheet = api.getActiveWorkbook()!.getActiveSheet()!;
        sheet.getRange("A1").setValue("=BREAK()");
        sheet.getRange("A2").setValue("=1+1");
      });
      const result = page.waitForFunction(() => api.getActiveWorkbook()!.getActiveSheet()!.getRange("A2").getValue());
      return Promise.race([thrown.then((error) => error.message), result.then((value) => value.jsonValue())]);
    },
    wrong: "broken",
    right: 2,
  },
];

declare const drawn: { text: string; width: number }[];

/** Keeps the texts that are drawn, with their widths in pixels. */
function noteDrawnTexts(): void {
  const texts: { text: string; width: number }[] = [];
  Object.assign(globalThis, { drawn: texts });
  const draw = CanvasRenderingContext2D.prototype.fillText;
  CanvasRenderingContext2D.prototype.fillText = function (text, ...place) {
    texts.push({ text, width: this.measureText(text).width });
    draw.call(this, text, ...place);
  };
}
