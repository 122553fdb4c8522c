/** Writes the script for Google Sheets into the build: the functions, and a stub with its comment for each, which is what autocomplete there reads. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import webpack, { type Compiler } from "webpack";
import { spelledForGoogle, starterOf } from "../src/hosts/google/spelling.ts";
import { readySheetIds } from "../src/ready-sheets/index.ts";
import { liveCases } from "./conformance.ts";
import { catalogueOf, type Declaration } from "./read-declarations.ts";

const folder = "src/hosts/google";

/** What the pane may ask for, with the names of its arguments. */
const paneCalls = { units: "", choose: "text", start: "id, example", remove: "name", convert: "before, after, onlyCount", problems: "" } as const;

export class GoogleScript {
  constructor(private readonly declarations: readonly Declaration[], private readonly version: string, private readonly address: string) {}

  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("GoogleScript", (compilation) => {
      compilation.hooks.processAssets.tapPromise({ name: "GoogleScript", stage: webpack.Compilation.PROCESS_ASSETS_STAGE_REPORT }, async () => {
        // Told to be minimized, as a minifier would take the comments for waste.
        for (const [name, text] of await this.files()) compilation.emitAsset(`google/${name}`, new webpack.sources.RawSource(text), { minimized: true });
      });
    });
  }

  /** The files of the script project, by name. */
  async files(): Promise<(readonly [name: string, text: string])[]> {
    return [
      ["Code.js", await this.code()],
      ["Words.js", `/** What the functions of Pucksheet are, for ESPRESSO_SOURCE and ESPRESSO_FUNCTIONS. */\nvar pucksheetWords = ${respelled(JSON.stringify(catalogueOf(this.declarations)))};\n`],
      ["Sheets.js", await this.sheets()],
      ["Sidebar.html", await this.sidebar()],
      ["appsscript.json", readFileSync(join(folder, "appsscript.json"), "utf8")],
    ];
  }

  private async code(): Promise<string> {
    const library = await this.bundled("functions.ts", "pucksheet");
    return ["/** @OnlyCurrentDoc */", library, ...this.declarations.map(stub), ""].join("\n\n");
  }

  /** The ready sheets and the menu, apart from the functions, which are read anew for every cell. */
  private async sheets(): Promise<string> {
    const starters = readySheetIds.map((id) => `function ${starterOf(id)}() {\n  pucksheetSheets.startSheet(${JSON.stringify(id)});\n}`);
    const called = [["onOpen()", "addMenu()"], ["showPucksheetSidebar()", "showSidebar()"], ["showPucksheetHelp()", "showHelp()"], ["takeUpPucksheetFormulas()", "takeUpFormulas()"]] as const;
    const own = called.map(([name, call]) => `function ${name} {\n  pucksheetSheets.${call};\n}`);
    const services = Object.entries(paneCalls).map(([name, given]) =>
      `function pucksheet${name.charAt(0).toUpperCase()}${name.slice(1)}(${given}) {\n  return pucksheetSheets.paneServices.${name}(${given});\n}`);
    return ["/** Ready sheets and the menu of Pucksheet. */", await this.bundled("sheets.ts", "pucksheetSheets"), ...own, ...services, ...starters, ""].join("\n\n");
  }

  /** What the build puts in place of these names. */
  private get given(): Record<string, string> {
    return {
      PROJECT_VERSION: JSON.stringify(this.version),
      LIVE_CASES: JSON.stringify(liveCases()),
      HELP_ADDRESS: JSON.stringify(`${this.address}/functions/index.html`),
    };
  }

  /** One page with everything in it: the pages of HtmlService are single files. */
  private async sidebar(): Promise<string> {
    const { outputFiles } = await build({
      entryPoints: [join(folder, "sidebar", "sidebar.ts")],
      bundle: true,
      write: false,
      outdir: "out",
      minify: true,
      charset: "utf8",
      format: "iife",
      target: "es2020",
      legalComments: "none",
      define: this.given,
    });
    const textOf = (ending: string): string => outputFiles.find(({ path }) => path.endsWith(ending))!.text.trim().replaceAll("</", "<\\/");
    return `<!doctype html>\n<meta charset="utf-8">\n<base target="_blank">\n<style>${textOf(".css")}</style>\n<div id="pane"></div>\n<script>${textOf(".js")}</script>\n`;
  }

  private async bundled(entry: string, globalName: string): Promise<string> {
    const { outputFiles } = await build({
      entryPoints: [join(folder, entry)],
      bundle: true,
      write: false,
      minify: true,
      charset: "utf8",
      format: "iife",
      globalName,
      target: "es2019",
      legalComments: "none",
      define: this.given,
    });
    // As the first statement it would be the script's, and Google Sheets then finds no function in it.
    return outputFiles[0]!.text.replace(/^"use strict";\s*/, "").trim();
  }
}

/** Comments spell our functions with dots. */
function respelled(text: string): string {
  return text.replace(/ESPRESSO\.([A-Z0-9]+(?:\.[A-Z0-9]+)*)/g, (_, id: string) => spelledForGoogle(id));
}

function stub({ name, description, parameters, returns, examples }: Declaration): string {
  const lines = [
    description,
    ...examples.slice(0, 1).map((example) => `Example: ${example}`),
    ...parameters.map((it) => `@param {any} ${it.optional ? `[${it.name}]` : it.name} ${it.description}`),
    `@return {any} ${returns}`,
    "@customfunction",
  ];
  const names = parameters.map((it) => it.name).join(", ");
  return `/**\n${respelled(lines.map((line) => ` * ${line}`).join("\n"))}\n */\nfunction ${spelledForGoogle(name)}(${names}) {\n  return pucksheet.call(${JSON.stringify(name)}, [${names}]);\n}`;
}
