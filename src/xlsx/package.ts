/** The parts of an opened file and the relations between them (ISO/IEC 29500-2), read as needed and changed one by one. */
import { FileProblem } from "./file-problem";
import { DoctypeProblem, eachElement, escaped, prefixOf, spliced, walk, XmlProblem } from "./xml";
import { inMemory, Zip, ZipProblem, type ByteSource, type ZipLimits } from "./zip";

export interface Relation {
  readonly id: string;
  /** The last word of its type, as in "worksheet". */
  readonly type: string;
  readonly fullType: string;
  /** The name of a part, or an address outside of the file. */
  readonly target: string;
  readonly external: boolean;
}

const contentTypes = "[Content_Types].xml";

export class Package {
  private readonly zip: Zip;
  private readonly texts = new Map<string, string>();
  /** By names in lower case; null for a part that is dropped. */
  private readonly changes = new Map<string, Uint8Array | null>();
  /** Names as they are spelled, by names in lower case. */
  private readonly spelled = new Map<string, string>();
  /** The part of the workbook itself. */
  readonly main: string;

  private readonly source: ByteSource;

  constructor(
    opened: Uint8Array | ByteSource,
    readonly fileName: string,
    limits?: ZipLimits,
  ) {
    this.source = "read" in opened ? opened : inMemory(opened);
    refuseOtherKinds(this.source.read(0, Math.min(2, this.source.length)), fileName);
    this.zip = this.guarded(() => new Zip(this.source, limits));
    for (const name of this.zip.names) this.spelled.set(name.toLowerCase(), name);
    if (this.has("EncryptedPackage")) throw new FileProblem(passwordWords(fileName));
    const main = this.relationsOf("").find(({ type, external }) => type === "officeDocument" && !external)?.target ?? "xl/workbook.xml";
    if (/\.bin$/i.test(main) || (!this.has(main) && this.has("xl/workbook.bin"))) {
      throw new FileProblem(`${fileName} is a binary workbook. Save it in Excel as .xlsx, then open that.`);
    }
    if (!this.has(main)) throw new FileProblem(`${fileName} is no Excel workbook, but another kind of packed file.`);
    this.main = main;
  }

  get names(): string[] {
    return [...this.spelled.values()];
  }

  has(part: string): boolean {
    return this.spelled.has(part.toLowerCase());
  }

  /** The text of a part as it is now; undefined where there is none. */
  text(part: string): string | undefined {
    const key = part.toLowerCase();
    if (!this.has(part)) return undefined;
    let text = this.texts.get(key);
    if (text === undefined) {
      const content = this.guarded(() => this.zip.read(part)) ?? new Uint8Array();
      text = decoded(content);
      // Kept, since a part is often looked at more than once, but not where it is large.
      if (text.length < 4_000_000) this.texts.set(key, text);
    }
    return text;
  }

  /** The text of a part of any size, as it was opened. */
  *textPieces(part: string): Generator<string> {
    let decoder: TextDecoder | undefined;
    for (const piece of this.zip.pieces(part)) {
      decoder ??= decoderOf(piece);
      yield decoder.decode(piece, { stream: true });
    }
    if (decoder) yield decoder.decode();
  }

  setText(part: string, text: string): void {
    if (this.text(part) === text) return;
    const key = part.toLowerCase();
    if (!this.has(part)) this.spelled.set(key, part);
    this.texts.set(key, text);
    this.changes.set(key, new TextEncoder().encode(text.replace(/^(<\?xml[^>]*?encoding=["'])[\w-]+/, "$1UTF-8")));
  }

  setBytes(part: string, bytes: Uint8Array): void {
    const key = part.toLowerCase();
    if (!this.has(part)) this.spelled.set(key, part);
    this.texts.delete(key);
    this.changes.set(key, bytes);
  }

  bytes(part: string): Uint8Array | undefined {
    if (!this.has(part)) return undefined;
    return this.changes.get(part.toLowerCase()) ?? this.guarded(() => this.zip.read(part));
  }

  /** Takes a part out, with its own relations and its content type. Relations to it are the caller's to take out. */
  drop(part: string): void {
    for (const name of [part, relationsPart(part)]) {
      const key = name.toLowerCase();
      if (!this.has(name)) continue;
      this.spelled.delete(key);
      this.texts.delete(key);
      this.changes.set(key, null);
    }
    this.dropElements(contentTypes, (name, attributes) => name === "Override" && attributes.PartName?.replace(/^\//, "").toLowerCase() === part.toLowerCase());
  }

  /** Runs what reads parts; what is wrong with one becomes a sentence. */
  guarded<T>(read: () => T): T {
    try {
      return read();
    } catch (error) {
      if (error instanceof ZipProblem) throw new FileProblem(zipWords(error.kind, this.fileName));
      if (error instanceof DoctypeProblem) {
        throw new FileProblem(`${this.fileName} defines entities of its own (DOCTYPE), which no workbook needs and which can do harm. It was not opened.`);
      }
      throw error;
    }
  }

  /** Reads the XML of a part; what is wrong with it becomes a sentence that names the part. */
  reading<T>(part: string, read: (xml: string) => T): T | undefined {
    const xml = this.text(part);
    if (xml === undefined) return undefined;
    try {
      return this.guarded(() => read(xml));
    } catch (error) {
      if (!(error instanceof XmlProblem)) throw error;
      throw new FileProblem(`${this.fileName} is damaged: its part “${part}” could not be read (${error.message}).`);
    }
  }

  relationsOf(part: string): Relation[] {
    const relations: Relation[] = [];
    this.reading(relationsPart(part), (xml) =>
      walk(xml, {
        open: (name, { Id = "", Type = "", Target = "", TargetMode }) => {
          if (name !== "Relationship") return;
          const external = TargetMode === "External";
          const type = Type.slice(Type.lastIndexOf("/") + 1);
          relations.push({ id: Id, type, fullType: Type, target: external ? Target : this.resolved(part, Target), external });
        },
      }),
    );
    return relations;
  }

  relationOf(part: string, type: string): Relation | undefined {
    return this.relationsOf(part).find((relation) => relation.type === type && !relation.external);
  }

  /** Adds a relation from a part to another and answers its id. */
  addRelation(part: string, type: string, target: string, full = `${this.relationTypes}/${type}`): string {
    const name = relationsPart(part);
    const xml = this.text(name) ?? `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<Relationships xmlns="${relationsNamespace}"></Relationships>`;
    const used = new Set(this.relationsOf(part).map(({ id }) => id));
    let number = 1;
    while (used.has(`rIdP${number}`)) number++;
    const id = `rIdP${number}`;
    this.setText(name, withChild(xml, (prefix) => `<${prefix}Relationship Id="${id}" Type="${full}" Target="${escaped(relativeTarget(part, target))}"/>`));
    return id;
  }

  dropRelations(part: string, unwanted: (relation: { id: string; type: string }) => boolean): void {
    this.dropElements(relationsPart(part), (name, { Id = "", Type = "" }) => name === "Relationship" && unwanted({ id: Id, type: Type.slice(Type.lastIndexOf("/") + 1) }));
  }

  addContentType(part: string, type: string): void {
    const xml = this.text(contentTypes) ?? `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<Types xmlns="${contentTypesNamespace}"></Types>`;
    this.setText(contentTypes, withChild(xml, (prefix) => `<${prefix}Override PartName="/${escaped(part)}" ContentType="${type}"/>`));
  }

  contentTypeOf(part: string): string | undefined {
    let byName: string | undefined;
    let byEnd: string | undefined;
    this.reading(contentTypes, (xml) =>
      walk(xml, {
        open: (name, { PartName, Extension, ContentType }) => {
          if (name === "Override" && PartName?.replace(/^\//, "").toLowerCase() === part.toLowerCase()) byName = ContentType;
          if (name === "Default" && Extension && part.toLowerCase().endsWith(`.${Extension.toLowerCase()}`)) byEnd = ContentType;
        },
      }),
    );
    return byName ?? byEnd;
  }

  /** A name that no part has, as in "xl/worksheets/sheet4.xml" for "xl/worksheets/sheet" and ".xml". */
  freeName(start: string, end: string): string {
    let number = 1;
    while (this.has(`${start}${number}${end}`)) number++;
    return `${start}${number}${end}`;
  }

  /** The folder of the workbook part, with its slash. */
  get folder(): string {
    return this.main.slice(0, this.main.lastIndexOf("/") + 1);
  }

  /** Whether the file keeps to the strict form of the standard, which has namespaces of its own. */
  get strict(): boolean {
    return this.text(this.main)!.includes("purl.oclc.org/ooxml/spreadsheetml");
  }

  get mainNamespace(): string {
    return this.strict ? "http://purl.oclc.org/ooxml/spreadsheetml/main" : "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
  }

  get relationTypes(): string {
    return this.strict ? "http://purl.oclc.org/ooxml/officeDocument/relationships" : "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  }

  /** Whether anything differs from the opened file. */
  get isChanged(): boolean {
    return this.changes.size > 0;
  }

  /** The file with its changes; the opened bytes where there are none. */
  written(): Uint8Array {
    if (!this.isChanged) return this.source.read(0, this.source.length);
    return this.zip.written(new Map([...this.changes].map(([key, content]) => [this.spelled.get(key) ?? key, content])));
  }

  private dropElements(part: string, unwanted: (name: string, attributes: Readonly<Record<string, string>>) => boolean): void {
    this.reading(part, (xml) => {
      const splices: { from: number; to: number; text: string }[] = [];
      eachElement(xml, ({ name, attributes, start, end }) => {
        if (unwanted(name, attributes)) splices.push({ from: start, to: end, text: "" });
      });
      if (splices.length > 0) this.setText(part, spliced(xml, splices));
    });
  }

  /** Targets count from the part's folder, or from the root where they begin with a slash; they may be percent-encoded. */
  private resolved(part: string, target: string): string {
    const path = target.replaceAll("\\", "/").replace(/[#?].*$/, "");
    const steps = path.startsWith("/") ? [] : part.split("/").slice(0, -1);
    for (const step of path.split("/")) {
      if (step === "..") steps.pop();
      else if (step !== "." && step !== "") steps.push(step);
    }
    const name = steps.join("/");
    if (this.has(name) || !name.includes("%")) return this.spelled.get(name.toLowerCase()) ?? name;
    try {
      const plain = decodeURIComponent(name);
      return this.has(plain) ? plain : name;
    } catch {
      return name;
    }
  }
}

const relationsNamespace = "http://schemas.openxmlformats.org/package/2006/relationships";
const contentTypesNamespace = "http://schemas.openxmlformats.org/package/2006/content-types";

export function relationsPart(part: string): string {
  const folder = part.slice(0, part.lastIndexOf("/") + 1);
  return `${folder}_rels/${part.slice(folder.length)}.rels`;
}

/** The target as seen from the part's folder. */
export function relativeTarget(part: string, target: string): string {
  const from = part.split("/").slice(0, -1);
  const to = target.split("/");
  let common = 0;
  while (common < from.length && common < to.length - 1 && from[common] === to[common]) common++;
  return [...from.slice(common).map(() => ".."), ...to.slice(common)].join("/");
}

/** The XML with a child put at the end of its root; the child is made with the root's prefix. */
export function withChild(xml: string, child: (prefix: string) => string): string {
  let result = xml;
  eachElement(xml, (element) => {
    if (element.parent) return;
    const text = child(prefixOf(element.fullName));
    if (!element.selfClosing) result = spliced(xml, [{ from: element.closeStart, to: element.closeStart, text }]);
    else result = spliced(xml, [{ from: element.start, to: element.end, text: `${xml.slice(element.start, element.end).replace(/\s*\/>$/, ">")}${text}</${element.fullName}>` }]);
  });
  return result;
}

function refuseOtherKinds(bytes: Uint8Array, fileName: string): void {
  if (bytes.length === 0) throw new FileProblem(`${fileName} is empty.`);
  if (bytes[0] === 0xd0 && bytes[1] === 0xcf) {
    throw new FileProblem(`${fileName} is an Excel workbook with a password, or of the old .xls kind. Save it in Excel as .xlsx without a password, then open that.`);
  }
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) {
    throw new FileProblem(`${fileName} is named .xlsx but is no Excel workbook. If it is a text file with columns, rename it to .csv and open that.`);
  }
}

function passwordWords(fileName: string): string {
  return `${fileName} is locked with a password. Save it in Excel without a password, then open that.`;
}

function zipWords(kind: ZipProblem["kind"], fileName: string): string {
  switch (kind) {
    case "password":
      return passwordWords(fileName);
    case "too large":
      return `${fileName} unpacks to more than this page can hold. It was not opened.`;
    case "unusual packing":
      return `${fileName} is packed in a way that Excel does not use. Save it in Excel as .xlsx, then open that.`;
    case "the same part twice":
      return `${fileName} is damaged: it holds one of its parts twice, so that it is not clear which counts.`;
    case "damaged":
      return `${fileName} is damaged: it begins like an Excel workbook, but a piece of it is missing or broken.`;
  }
}

function decoded(bytes: Uint8Array): string {
  return decoderOf(bytes).decode(bytes);
}

/** By how a part begins. */
function decoderOf(bytes: Uint8Array): TextDecoder {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder("utf-16le");
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder("utf-16be");
  // Without a mark, "<" followed or preceded by 0.
  if (bytes[0] === 0x3c && bytes[1] === 0) return new TextDecoder("utf-16le");
  if (bytes[0] === 0 && bytes[1] === 0x3c) return new TextDecoder("utf-16be");
  const start = new TextDecoder("latin1").decode(bytes.subarray(0, 200));
  const encoding = /^<\?xml[^>]*?encoding=["']([\w-]+)["']/.exec(start)?.[1] ?? "utf-8";
  try {
    return new TextDecoder(/^utf-16/i.test(encoding) ? "utf-8" : encoding);
  } catch {
    return new TextDecoder();
  }
}
