/** Reads a manifest: elements, attributes and text. It knows only what a manifest uses and refuses the rest. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: XmlElement[];
  text: string;
}

const token = /<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<\/([\w:.-]+)\s*>|<([\w:.-]+)((?:\s+[\w:.-]+="[^"<]*")*)\s*(\/?)>|[^<]+/y;
const entities: Record<string, string> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

export function parseXml(text: string): XmlElement {
  const top: XmlElement = { name: "", attributes: {}, children: [], text: "" };
  const open = [top];
  token.lastIndex = 0;
  while (token.lastIndex < text.length) {
    const start = token.lastIndex;
    const match = token.exec(text);
    if (!match) throw new Error(`The XML cannot be read at “${text.slice(start, start + 40)}”.`);
    const [whole, closed, opened, attributes, empty] = match;
    const parent = open[open.length - 1]!;
    if (closed !== undefined) {
      if (parent.name !== closed) throw new Error(`</${closed}> closes <${parent.name}>.`);
      open.pop();
    } else if (opened !== undefined) {
      const pairs = [...attributes!.matchAll(/([\w:.-]+)="([^"]*)"/g)].map(([, name, value]) => [name!, unescape(value!)]);
      const element: XmlElement = { name: opened, attributes: Object.fromEntries(pairs) as Record<string, string>, children: [], text: "" };
      parent.children.push(element);
      if (empty !== "/") open.push(element);
    } else if (!whole.startsWith("<")) {
      parent.text += unescape(whole.trim());
    }
  }
  if (open.length !== 1 || top.children.length !== 1) throw new Error("The XML does not have one whole root element.");
  return top.children[0]!;
}

function unescape(text: string): string {
  return text.replace(/&(\w+);/g, (entity, name: string) => entities[name] ?? entity);
}
