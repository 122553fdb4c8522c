/** The parts of a new .xlsx file that the library does not write: the units' document property, and the mark that keeps the values. */
import { editZip, unzip } from "@cj-tech-master/excelts/archive";
import { unitsProperty } from "../sheet/unit-choice";

interface Parts {
  /** The text of a part; "" where there is none. */
  read(name: string): Promise<string>;
}

function openParts(bytes: Uint8Array): Parts {
  const zip = unzip(bytes);
  return {
    read: async (name) => {
      const content = await zip.bytes(name);
      return content ? new TextDecoder().decode(content) : "";
    },
  };
}

const propertiesPart = "docProps/custom.xml";
const propertiesType = "application/vnd.openxmlformats-officedocument.custom-properties+xml";
const propertiesRelation = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/custom-properties";
/** The one format id that custom document properties have (MS-OSHARED 2.3.3.2.3.1). */
const propertiesFormat = "{D5CDD505-2E9C-101B-9397-08002B2CF9AE}";

/**
 * ECMA-376 part 1, 18.2.2, calcId: a program keeps the values of a file that was calculated by its own version, and calculates those of an
 * older one anew. This is the number that files of Microsoft 365 bear.
 */
const calculationVersion = "191029";

/** Completes a file as the library wrote it: the units, and the mark that keeps the values until Excel's own recalculation. */
export async function finished(bytes: Uint8Array, units: string | undefined): Promise<Uint8Array> {
  const parts = openParts(bytes);
  const editor = await editZip(bytes);
  const workbook = await parts.read("xl/workbook.xml");
  editor.set("xl/workbook.xml", workbook.replace(/calcId="\d+"/, `calcId="${calculationVersion}"`));
  if (units !== undefined) {
    const types = await parts.read("[Content_Types].xml");
    const relations = await parts.read("_rels/.rels");
    editor.set(propertiesPart, propertiesXml(units));
    editor.set("[Content_Types].xml", types.replace("</Types>", `<Override PartName="/${propertiesPart}" ContentType="${propertiesType}"/></Types>`));
    editor.set("_rels/.rels", relations.replace("</Relationships>", `<Relationship Id="rIdUnits" Type="${propertiesRelation}" Target="${propertiesPart}"/></Relationships>`));
  }
  return editor.bytes();
}

function propertiesXml(units: string): string {
  const types = "http://schemas.openxmlformats.org/officeDocument/2006";
  const value = units.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
  return (
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n` +
    `<Properties xmlns="${types}/custom-properties" xmlns:vt="${types}/docPropsVTypes">` +
    `<property fmtid="${propertiesFormat}" pid="2" name="${unitsProperty}"><vt:lpwstr>${value}</vt:lpwstr></property></Properties>`
  );
}
