/**
 * Builds the add-in for this machine, serves it over https and says how to bring it into Excel.
 * With --built it serves what was built last. PORT says where, if not at 3000.
 */
import { spawnSync } from "node:child_process";
import { X509Certificate } from "node:crypto";
import { existsSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:https";
import { homedir } from "node:os";
import { join, resolve } from "node:path";
import { generateCertificates, getHttpsServerOptions } from "office-addin-dev-certs";
import { filesOf } from "./serve.ts";

/** The manifest names the port, so a taken one is an error rather than the next one's turn. */
const port = Number(process.env.PORT ?? 3000);
const address = `https://localhost:${port}`;

if (!process.argv.includes("--built")) {
  console.log("Building (about 20 seconds) …");
  const env = { ...process.env, PUCKSHEET_ADDRESS: address };
  const built = spawnSync("npm", ["run", "--silent", "build"], { encoding: "utf8", env, shell: process.platform === "win32" });
  if (built.status !== 0) stop(`${built.stdout}${built.stderr}\nThe build failed; the lines above say why.`);
}

const server = createServer(await certificate(), filesOf("dist"));
server.on("error", (error: NodeJS.ErrnoException) => {
  stop(error.code === "EADDRINUSE" ? `Port ${port} is in use by another program. End that program, or set PORT to another number, then run this again.` : error.message);
});
server.listen(port, "localhost", () => console.log(instructions(resolve("dist", "manifest.xml"))));

/** Windows and macOS are asked, once, to trust the certificate; on Linux the browser has to be told by hand. */
async function certificate(): Promise<{ cert: Buffer | string; key: Buffer | string }> {
  if (process.platform === "win32" || process.platform === "darwin") {
    const { cert, key } = await getHttpsServerOptions();
    return { cert, key };
  }
  const folder = join(homedir(), ".office-addin-dev-certs");
  const [ca, cert, key] = ["ca.crt", "localhost.crt", "localhost.key"].map((name) => join(folder, name)) as [string, string, string];
  if (existsSync(cert) && new Date(new X509Certificate(readFileSync(cert)).validTo) < new Date()) {
    for (const file of [ca, cert, key]) rmSync(file, { force: true });
  }
  if (![ca, cert, key].every((file) => existsSync(file))) {
    rmSync(ca, { force: true }); // nothing is written while a certificate of the authority is there
    await generateCertificates(ca, cert, key);
  }
  console.log(`Tell your browser to trust ${ca} (in its settings, under certificates, authorities).`);
  return { cert: readFileSync(cert), key: readFileSync(key) };
}

function instructions(manifest: string): string {
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

function stop(message: string): never {
  console.error(message);
  process.exit(1);
}
