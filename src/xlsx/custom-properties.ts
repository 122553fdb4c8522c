/** The document property that carries the units of a workbook. Others beside it are left as they are. */
import { unitsProperty } from "../sheet/unit-choice";
import type { Package } from "./package";
import { withChild } from "./package";
import { eachElement, escapedText, spliced, walk, type Splice } from "./xml";

const defaultPart = "docProps/custom.xml";
const contentType = "application/vnd.openxmlformats-officedocument.custom-properties+xml";
const relationType = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/custom-properties";
const strictRelationType = "http://purl.oclc.org/ooxml/officeDocument/relationships/customProperties";
/** The one format id that custom document properties have (MS-OSHARED 2.3.3.2.3.1). */
const formatId = "{D5CDD505-2E9C-101B-9397-08002B2CF9AE}";

export function readUnits(file: Package): string | undefined {
  const part = partOf(file);
  let units: string | undefined;
  let ours = false;
  if (part === undefined) return undefined;
  file.reading(part, (xml) =>
    walk(xml, {
      open: (name, attributes) => {
        if (name === "property") ours = attributes.name === unitsProperty;
      },
      close: (_, text, parent) => {
        if (ours && parent === "property") units = text;
      },
    }),
  );
  return units;
}

/** Puts the units into the file; undefined takes them out. */
export function writeUnits(file: Package, units: string | undefined): void {
  const part = partOf(file);
  if (part === undefined) {
    if (units !== undefined) addPart(file, units);
    return;
  }
  const xml = file.text(part)!;
  let last = 1;
  const old: Splice[] = [];
  eachElement(xml, ({ name, attributes, start, end }) => {
    if (name !== "property") return;
    last = Math.max(last, Number(attributes.pid ?? 0) || 0);
    if (attributes.name === unitsProperty) old.push({ from: start, to: end, text: "" });
  });
  const without = spliced(xml, old);
  file.setText(part, units === undefined ? without : withChild(without, (prefix) => propertyXml(prefix, last + 1, units)));
}

function partOf(file: Package): string | undefined {
  const related = file.relationsOf("").find(({ type }) => type === "custom-properties" || type === "customProperties")?.target;
  return related !== undefined && file.has(related) ? related : undefined;
}

function addPart(file: Package, units: string): void {
  const part = file.has(defaultPart) ? file.freeName("docProps/custom", ".xml") : defaultPart;
  const namespace = file.strict ? "http://purl.oclc.org/ooxml/officeDocument/customProperties" : "http://schemas.openxmlformats.org/officeDocument/2006/custom-properties";
  file.setText(part, `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<Properties xmlns="${namespace}">${propertyXml("", 2, units)}</Properties>`);
  file.addContentType(part, contentType);
  file.addRelation("", "custom-properties", part, file.strict ? strictRelationType : relationType);
}

function propertyXml(prefix: string, id: number, units: string): string {
  const types = "http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes";
  return (
    `<${prefix}property fmtid="${formatId}" pid="${id}" name="${unitsProperty}">` +
    `<vt:lpwstr xmlns:vt="${types}">${escapedText(units)}</vt:lpwstr></${prefix}property>`
  );
}
