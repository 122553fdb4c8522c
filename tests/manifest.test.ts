/**
 * The manifest, checked offline against Microsoft's published rules: element order from [MS-OWEMXML] and
 * "How to find the proper order of manifest elements" of the Office Add-ins documentation; lengths, icon sizes
 * and identifiers from its manifest reference.
 */
import { existsSync, readFileSync } from "node:fs";
import { OfficeAddinManifest } from "office-addin-manifest";
import { describe, expect, test } from "vitest";
import { fillManifest } from "../scripts/manifest.ts";
import { parseXml, type XmlElement } from "./excel-host/xml.ts";

const address = "https://pucksheet.example/app";
const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
const root = parseXml(fillManifest(readFileSync("manifest.xml", "utf8"), { address, version }));

/** The children an element may have, in their order: "?" may be absent, "+" may repeat. Elements that are not listed have no children. */
const children: Record<string, string> = {
  OfficeApp:
    "Id Version ProviderName DefaultLocale DisplayName Description IconUrl? HighResolutionIconUrl? SupportUrl? AppDomains? " +
    "Hosts Requirements? DefaultSettings Permissions VersionOverrides?",
  AppDomains: "AppDomain+",
  Hosts: "Host+",
  Requirements: "Sets",
  Sets: "Set+",
  DefaultSettings: "SourceLocation",
  VersionOverrides: "Hosts Resources",
  "VersionOverrides/Hosts/Host": "Runtimes? AllFormFactors? DesktopFormFactor?",
  Runtimes: "Runtime",
  AllFormFactors: "ExtensionPoint",
  "AllFormFactors/ExtensionPoint": "Script Page Metadata Namespace",
  Script: "SourceLocation",
  Page: "SourceLocation",
  Metadata: "SourceLocation",
  DesktopFormFactor: "GetStarted? FunctionFile ExtensionPoint+",
  GetStarted: "Title Description LearnMoreUrl",
  "DesktopFormFactor/ExtensionPoint": "OfficeTab",
  OfficeTab: "Group+",
  Group: "Label Icon Control+",
  Icon: "bt:Image+",
  Control: "Label Supertip Icon Action",
  Supertip: "Title Description",
  Action: "SourceLocation? FunctionName?",
  Resources: "bt:Images bt:Urls bt:ShortStrings bt:LongStrings",
  "bt:Images": "bt:Image+",
  "bt:Urls": "bt:Url+",
  "bt:ShortStrings": "bt:String+",
  "bt:LongStrings": "bt:String+",
};

interface Placed {
  readonly element: XmlElement;
  readonly path: string;
}

function placed(element: XmlElement, path = element.name): Placed[] {
  return [{ element, path }, ...element.children.flatMap((child) => placed(child, `${path}/${child.name}`))];
}

const elements = placed(root);

function endsWithPath(path: string, suffix: string): boolean {
  return path === suffix || path.endsWith(`/${suffix}`);
}

function all(suffix: string): XmlElement[] {
  return elements.filter(({ path }) => endsWithPath(path, suffix)).map(({ element }) => element);
}

function one(suffix: string): XmlElement {
  const found = all(suffix);
  expect(found, suffix).toHaveLength(1);
  return found[0]!;
}

/** The order of children as a pattern over their names; the longest key that fits an element's path counts. */
function orderAt(path: string): RegExp {
  const [key] = Object.keys(children).filter((suffix) => endsWithPath(path, suffix)).sort((a, b) => b.length - a.length);
  const parts = key === undefined ? [] : children[key]!.split(" ");
  return new RegExp(`^${parts.map((part) => part.replace(/^([^?+]+)/, "(?:$1 )")).join("")}$`);
}

describe("the manifest", () => {
  test("has its elements in the published order", () => {
    for (const { element, path } of elements) {
      expect(element.children.map(({ name }) => `${name} `).join(""), path).toMatch(orderAt(path));
    }
  });

  test("leaves no placeholder", () => {
    expect(JSON.stringify(root)).not.toContain("{{");
  });

  test("is identified by a GUID of its own and a version of numbers", () => {
    expect(one("OfficeApp/Id").text).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(one("OfficeApp/Version").text).toBe(`${version}.0`);
    expect(one("OfficeApp").attributes["xsi:type"]).toBe("TaskPaneApp");
    expect(one("OfficeApp/VersionOverrides").attributes["xsi:type"]).toBe("VersionOverridesV1_0");
  });

  test("keeps names and descriptions within their lengths", () => {
    const lengths: [string, number][] = [
      ["OfficeApp/ProviderName", 125],
      ["OfficeApp/DisplayName", 125],
      ["OfficeApp/Description", 250],
      ["bt:ShortStrings/bt:String", 125],
      ["bt:LongStrings/bt:String", 250],
    ];
    for (const [path, most] of lengths) {
      expect(all(path).length).toBeGreaterThan(0);
      for (const { text, attributes } of all(path)) {
        const words = text || attributes.DefaultValue!;
        expect(words.length, words).toBeGreaterThan(0);
        expect(words.length, words).toBeLessThanOrEqual(most);
      }
    }
  });

  test("defines every resource once and uses every one", () => {
    const defined = one("Resources").children.flatMap((section) => section.children.map(({ attributes }) => attributes.id!));
    const used = elements.map(({ element }) => element.attributes.resid).filter((resid) => resid !== undefined);
    expect(new Set(defined).size).toBe(defined.length);
    expect([...new Set(used)].sort()).toEqual([...defined].sort());
    for (const id of defined) expect(id.length, id).toBeLessThanOrEqual(32);
  });

  test("gives each element a resource of its kind", () => {
    const sectionFor = (name: string) => {
      if (name === "bt:Image") return "bt:Images";
      if (["SourceLocation", "FunctionFile", "Runtime", "LearnMoreUrl"].includes(name)) return "bt:Urls";
      return name === "Description" ? "bt:LongStrings" : "bt:ShortStrings";
    };
    for (const { element } of elements) {
      if (element.attributes.resid === undefined) continue;
      const ids = one(sectionFor(element.name)).children.map(({ attributes }) => attributes.id);
      expect(ids, element.name).toContain(element.attributes.resid);
    }
  });

  test("runs the pane and the functions in one long-lived page", () => {
    const runtime = one("Runtimes/Runtime");
    const page = runtime.attributes.resid;
    expect(runtime.attributes.lifetime).toBe("long");
    expect(one("Page/SourceLocation").attributes.resid).toBe(page);
    expect(one("FunctionFile").attributes.resid).toBe(page);
    expect(one("Action/SourceLocation").attributes.resid).toBe(page);
    expect(all("TaskpaneId")).toEqual([]);
    const url = one("bt:Urls").children.find(({ attributes }) => attributes.id === page);
    expect(url?.attributes.DefaultValue).toBe(one("DefaultSettings/SourceLocation").attributes.DefaultValue);
  });

  test("offers two buttons: one opens the pane, the other runs the function that shows its ready sheets", () => {
    expect(one("OfficeTab").attributes.id).toBe("TabHome");
    const group = one("OfficeTab/Group");
    const controls = all("Group/Control");
    expect(controls.map(({ attributes }) => attributes["xsi:type"])).toEqual(["Button", "Button"]);
    expect(all("Control/Action").map(({ attributes }) => attributes["xsi:type"])).toEqual(["ShowTaskpane", "ExecuteFunction"]);
    expect(readFileSync("dist/taskpane.js", "utf8")).toContain(`.associate("${one("Control/Action/FunctionName").text}"`);
    for (const { attributes } of [...controls, group]) expect(attributes.id).toMatch(/^[A-Za-z][A-Za-z0-9._-]{0,31}$/);
    expect(new Set([...controls, group].map(({ attributes }) => attributes.id)).size).toBe(3);
  });

  test("asks for the requirement sets that the add-in needs", () => {
    const sets = Object.fromEntries(all("Requirements/Sets/Set").map(({ attributes }) => [attributes.Name, attributes.MinVersion]));
    // All kinds of error in a result came with CustomFunctionsRuntime 1.3, print areas with ExcelApi 1.9.
    expect(sets).toEqual({ SharedRuntime: "1.1", CustomFunctionsRuntime: "1.3", ExcelApi: "1.9" });
    expect(all("OfficeApp/Hosts/Host").map(({ attributes }) => attributes.Name)).toEqual(["Workbook"]);
    expect(all("VersionOverrides/Hosts/Host").map(({ attributes }) => attributes["xsi:type"])).toEqual(["Workbook"]);
    expect(one("OfficeApp/Permissions").text).toBe("ReadWriteDocument");
  });

  test("has https addresses only, all under the add-in's own", () => {
    const addresses = elements.flatMap(({ element }) => [element.text, element.attributes.DefaultValue ?? ""]).filter((text) => text.includes("://"));
    expect(addresses.length).toBeGreaterThan(10);
    for (const it of addresses) expect(it === address || it.startsWith(`${address}/`), it).toBe(true);
  });

  test("names icon files that have the size they are named for", () => {
    const addressOf = new Map(all("bt:Images/bt:Image").map(({ attributes }) => [attributes.id, attributes.DefaultValue!]));
    const sizes = [16, 20, 24, 32, 40, 48, 64, 80];
    expect(all("Group/Icon/bt:Image").map(({ attributes }) => Number(attributes.size))).toEqual(sizes);
    expect(all("Control/Icon/bt:Image").map(({ attributes }) => Number(attributes.size))).toEqual([...sizes, ...sizes]);
    const wanted = all("Icon/bt:Image").map(({ attributes }): [number, string] => [Number(attributes.size), addressOf.get(attributes.resid)!]);
    wanted.push([32, one("IconUrl").attributes.DefaultValue!], [64, one("HighResolutionIconUrl").attributes.DefaultValue!]);
    for (const [size, it] of wanted) expect(pngSize(it.replace(`${address}/`, "dist/")), it).toEqual([size, size]);
  });

  test("names pages that the build writes", () => {
    const pages = [...one("bt:Urls").children, one("SupportUrl")].map(({ attributes }) => attributes.DefaultValue!);
    for (const it of pages) expect(existsSync(it.replace(`${address}/`, "dist/")), it).toBe(true);
  });

  test("is read by Microsoft's own manifest reader as the build writes it", async () => {
    const info = await OfficeAddinManifest.readManifestFile("dist/manifest.xml");
    expect(info.displayName).toBe("Pucksheet");
    expect(info.version).toBe(`${version}.0`);
    expect(info.hosts).toEqual(["Workbook"]);
    expect(info.permissions).toBe("ReadWriteDocument");
  });
});

describe("filling in the manifest", () => {
  test("refuses an address that Office would not load", () => {
    for (const bad of ["http://localhost:3000", "localhost:3000", "https://localhost:3000/", "https://a b", ""]) {
      expect(() => fillManifest("", { address: bad, version: "1.0.0" }), bad).toThrow("has to begin with https://");
    }
  });

  test("refuses a version that a manifest cannot hold", () => {
    for (const bad of ["1.0", "1.0.0-rc.1", "1.0.123456", ""]) {
      expect(() => fillManifest("", { address, version: bad }), bad).toThrow("three numbers");
    }
  });
});

/** Width and height from the header chunk, which a PNG file has first. */
function pngSize(file: string): [number, number] {
  const bytes = readFileSync(file);
  expect(bytes.subarray(1, 4).toString("latin1")).toBe("PNG");
  return [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
}
