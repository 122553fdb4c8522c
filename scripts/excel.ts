/**
 * Builds the add-in for this machine, serves it over https and says how to bring it into Excel.
 * With --built it serves what was built last. PORT says where, if not at 3000.
 */
import { X509Certificate } from "node:crypto";
import { chmodSync, existsSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:https";
import { homedir } from "node:os";
import { join, resolve } from "node:path";
import { createSecureContext } from "node:tls";
import { generateCertificates, getHttpsServerOptions } from "office-addin-dev-certs";
import { build } from "./build.ts";
import { filesOf, listen } from "./serve.ts";
import { CannotStart, portFrom, startUp } from "./start-up.ts";

/** The pages of Excel on the web read the functions from their own origin, and frame the task pane. */
const forExcel = { fetch: ["functions.json", "functions.js"], frame: ["taskpane.html"] };

await startUp(async () => {
  const port = portFrom(process.env.PORT, 3000);
  const address = `https://localhost:${port}`;
  if (!process.argv.includes("--built")) build({ PUCKSHEET_ADDRESS: address });
  const manifest = resolve("dist", "manifest.xml");
  if (!existsSync(manifest)) throw new CannotStart("There is no build to serve yet. Run this once without --built.");
  // The manifest names the port, so a taken one is an error rather than the next one's turn.
  await listen(createServer(await certificate(), filesOf("dist", forExcel)), port);
  console.log(instructions(address, manifest));
});

/** Windows and macOS are asked, once, to trust the certificate; on Linux the browser has to be told by hand. */
async function certificate(): Promise<{ cert: Buffer | string; key: Buffer | string }> {
  const folder = join(homedir(), ".office-addin-dev-certs");
  const [ca, cert, key] = ["ca.crt", "localhost.crt", "localhost.key"].map((name) => join(folder, name)) as [string, string, string];
  // The key is for nobody else to read, from its first moment on.
  process.umask(0o077);
  try {
    if (existsSync(key)) chmodSync(key, 0o600);
    if (process.platform === "win32" || process.platform === "darwin") return await getHttpsServerOptions();
    if (![ca, cert, key].every((file) => existsSync(file)) || new Date(new X509Certificate(readFileSync(cert)).validTo) < new Date()) {
      for (const file of [ca, cert, key]) rmSync(file, { force: true });
      await generateCertificates(ca, cert, key);
    }
    console.log(`Tell your browser to trust ${ca} (in its settings, under certificates, authorities).`);
    const both = { cert: readFileSync(cert), key: readFileSync(key) };
    createSecureContext(both); // throws where they do not belong together
    return both;
  } catch (thrown) {
    throw new CannotStart(`There is no certificate for https: ${thrown instanceof Error ? thrown.message : String(thrown)}\nMove the folder ${folder} away, if it is there, and run this again.`);
  }
}

function instructions(address: string, manifest: string): string {
  return `
Pucksheet is served at ${address} — leave this window open, and press Ctrl+C to stop.
Its manifest is ${manifest}

Excel on the web (in a browser on this machine):
  1. Open a workbook, then Home > Add-ins > More Settings > Upload My Add-in.
  2. Choose the manifest.

Excel on Windows:
  1. Put the manifest into a folder and share that folder (Properties > Sharing); note its network path, such as \\\\MY-PC\\add-ins.
  2. File > Options > Trust Center > Trust Center Settings > Trusted Add-in Catalogs: add the path, tick Show in Menu, and restart Excel.
  3. Home > Add-ins > More Add-ins > SHARED FOLDER > Pucksheet > Add.

Excel on Mac:
  1. mkdir -p ~/Library/Containers/com.microsoft.Excel/Data/Documents/wef
  2. cp "${manifest}" ~/Library/Containers/com.microsoft.Excel/Data/Documents/wef/pucksheet.xml
  3. Restart Excel, then Home > Add-ins > Pucksheet.

Then type =ESPRESSO. in a cell. If #NAME? stays, click the Pucksheet button on the Home tab once.`;
}
