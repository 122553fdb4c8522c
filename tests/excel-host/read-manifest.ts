/** What a host takes from a manifest when it installs an add-in. */
import { parseXml, type XmlElement } from "./xml.ts";

export interface InstalledAddIn {
  /** Addresses of the shared page, of the functions' script and of their description. */
  readonly page: string;
  readonly script: string;
  readonly metadata: string;
  readonly namespace: string;
  /** Requirement sets by name, each with its least version. */
  readonly sets: Readonly<Record<string, string>>;
}

export function readManifest(text: string): InstalledAddIn {
  const root = parseXml(text);
  const resources = new Map(
    find(root, "Resources").children.flatMap((section) => section.children.map(({ attributes }) => [attributes.id!, attributes.DefaultValue!] as const)),
  );
  const resource = (element: XmlElement) => {
    const value = resources.get(element.attributes.resid ?? "");
    if (value === undefined) throw new Error(`The manifest does not define “${element.attributes.resid}”.`);
    return value;
  };
  const functions = find(root, "AllFormFactors").children[0]!;
  const location = (name: string) => resource(find(find(functions, name), "SourceLocation"));
  return {
    page: location("Page"),
    script: location("Script"),
    metadata: location("Metadata"),
    namespace: resource(find(functions, "Namespace")),
    sets: Object.fromEntries(find(root, "Sets").children.map(({ attributes }) => [attributes.Name!, attributes.MinVersion!])),
  };
}

function find(element: XmlElement, name: string): XmlElement {
  const found = search(element, name);
  if (!found) throw new Error(`The manifest has no <${name}>.`);
  return found;
}

function search(element: XmlElement, name: string): XmlElement | undefined {
  if (element.name === name) return element;
  for (const child of element.children) {
    const found = search(child, name);
    if (found) return found;
  }
  return undefined;
}
