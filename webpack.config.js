/** The build: `npm run build` writes dist/, which is the add-in's web folder, the browser sheet and the help pages in one. */
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { fileURLToPath } from "node:url";
import CopyPlugin from "copy-webpack-plugin";
import MiniCssExtractPlugin from "mini-css-extract-plugin";
import TerserPlugin from "terser-webpack-plugin";
import webpack from "webpack";
import { Conformance, liveCases } from "./scripts/conformance.ts";
import { FunctionsMetadata } from "./scripts/functions-metadata.ts";
import { GoogleScript } from "./scripts/google-script.ts";
import { HelpPages } from "./scripts/help-pages.ts";
import { Licences } from "./scripts/licences.ts";
import { fillManifest } from "./scripts/manifest.ts";
import { OfflineWorker } from "./scripts/offline-worker.ts";
import { catalogueOf, readDeclarations } from "./scripts/read-declarations.ts";
import { Warehouse } from "./scripts/warehouse.ts";

const { version, config } = JSON.parse(readFileSync("package.json", "utf8"));

export default async (_env, { mode = "production" }) => {
  const address = process.env.PUCKSHEET_ADDRESS ?? config.address;
  const declarations = await readDeclarations();
  const licences = new Licences(resolve("dist"));
  const shared = {
    mode,
    devtool: false,
    performance: { hints: false },
    resolve: { extensions: [".ts", ".js"] },
    output: { path: resolve("dist"), filename: "[name].js" },
    module: { rules: [{ test: /\.ts$/, loader: "ts-loader", options: { onlyCompileBundledFiles: true, transpileOnly: true } }] },
  };
  /** What the comments in src/functions say, for SOURCE() and FUNCTIONS(). */
  const words = new webpack.DefinePlugin({ CATALOGUE: JSON.stringify(catalogueOf(declarations)), PROJECT_VERSION: JSON.stringify(version) });
  /** What the ready sheet that checks an installation compares with. */
  const checks = new webpack.DefinePlugin({ LIVE_CASES: JSON.stringify(liveCases()) });
  const functions = {
    ...shared,
    name: "functions",
    target: ["web", "es2020"],
    entry: { functions: "./src/hosts/excel/functions.ts" },
    // Beside the page, whose address is not asked: functions.js alone knows none.
    output: { ...shared.output, chunkFilename: "functions-[name].js", publicPath: "", globalObject: "globalThis" },
    optimization: {
      minimizer: [new TerserPlugin({ extractComments: false, terserOptions: { ecma: 2020, module: true, toplevel: true, compress: { passes: 2 }, format: { comments: false } } })],
    },
    plugins: [
      words,
      new FunctionsMetadata(address),
      licences,
    ],
  };
  const help = {
    ...shared,
    name: "help",
    target: ["web", "es2020"],
    entry: { "functions/search": "./src/help/search.ts", "functions/copy": "./src/help/copy.ts" },
    plugins: [licences, new HelpPages(declarations, version), new Warehouse(), new Conformance(), new GoogleScript(declarations, version, address), new CopyPlugin({ patterns: [{ from: "src/help/help.css", to: "functions/help.css" }] })],
  };
  const excel = {
    ...shared,
    name: "excel",
    target: ["web", "es2020"],
    entry: { taskpane: "./src/hosts/excel/taskpane.ts" },
    module: { rules: [...shared.module.rules, { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] }] },
    plugins: [
      new MiniCssExtractPlugin(),
      licences,
      new webpack.DefinePlugin({ PROJECT_VERSION: JSON.stringify(version) }),
      checks,
      new CopyPlugin({
        patterns: [
          { from: "manifest.xml", transform: (text) => fillManifest(text.toString(), { address, version }) },
          { from: "src/hosts/excel/taskpane.html" },
          { from: "src/assets/*.{png,svg}", to: "assets/[name][ext]" },
        ],
      }),
    ],
  };
  const browserSheet = {
    ...shared,
    name: "browser-sheet",
    // The last to be written has the licences of all.
    dependencies: [functions.name, help.name, excel.name],
    target: ["web", "es2022"],
    entry: { sheet: "./src/hosts/browser/page.ts" },
    // Parts of the grid library that the sheet does not use, a sixth of what is loaded at first.
    resolve: {
      ...shared.resolve,
      alias: Object.fromEntries(
        [["cjk-regex", "cjk-regex"], ["franc-min", "franc-min"], ["localforage", "localforage"], ["opentype.js", "opentype"]].map(([name, file]) => [`${name}$`, resolve(`src/hosts/browser/grid/left-out/${file}.ts`)]),
      ),
    },
    // A folder of its own: what the page keeps for working offline is never served to Excel.
    output: { ...shared.output, path: resolve("dist/sheet"), chunkFilename: "sheet-[name].js" },
    cache: { type: "filesystem", cacheDirectory: resolve(".cache/webpack"), buildDependencies: { config: [fileURLToPath(import.meta.url)] } },
    // The grid library is large; this minifier takes seconds where the usual one takes a minute.
    optimization: { minimizer: [new TerserPlugin({ minify: TerserPlugin.esbuildMinify, extractComments: false, terserOptions: { target: "es2022", legalComments: "none" } })] },
    module: { rules: [...shared.module.rules, { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] }] },
    plugins: [
      new MiniCssExtractPlugin({ filename: "[name].css", chunkFilename: "sheet-[name].css" }),
      words,
      checks,
      new CopyPlugin({
        patterns: [
          { from: "src/hosts/browser/sheet.html", to: "index.html" },
          { from: "src/hosts/browser/sheet.webmanifest" },
          { from: "src/hosts/browser/to-sheet.html", to: resolve("dist/index.html") },
          { from: "src/assets/icon{,-128}.{svg,png}", to: "[name][ext]" },
          { from: "functions*.{js,json}", context: resolve("dist"), to: "[name][ext]" },
        ],
      }),
      new OfflineWorker("src/hosts/offline-worker/service-worker.ts"),
      licences,
      // The grid library's texts for its functions come later, see grid/function-texts.ts.
      new webpack.NormalModuleReplacementPlugin(/^@univerjs\/sheets-formula\/locale\/en-US$/, (request) => {
        if (/preset-sheets-core/.test(request.context)) request.request = resolve("src/hosts/browser/grid/left-out/function-texts.ts");
      }),
      // Hyphenation of languages that the sheet does not use; the grid library asks for en-gb when it starts.
      new webpack.IgnorePlugin({ resourceRegExp: /^\.\/(?!en-)[a-z0-9-]+-[\w-]{8}\.js$/, contextRegExp: /@univerjs[\\/]engine-render/ }),
    ],
  };
  return [functions, help, excel, browserSheet];
};
