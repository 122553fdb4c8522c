/** The stand-in's table of requirement sets, against Microsoft's published page "Excel JavaScript API requirement sets" (read from memory for these members). */
import { expect, test } from "vitest";
import { readApiSets } from "../excel-host/api-sets.ts";

test("the requirement sets of Excel's API are read from Microsoft's declarations", () => {
  const sets = readApiSets();
  expect(sets["Range.values"]).toBe("ExcelApi 1.1");
  expect(sets["DocumentProperties.custom"]).toBe("ExcelApi 1.7");
  expect(sets["PageLayout.setPrintArea"]).toBe("ExcelApi 1.9");
  expect(sets["Range.getSpillingToRange"]).toBe("ExcelApi 1.12");
  // Whatever is marked as a preview is in no set that a manifest can ask for.
  expect(Object.keys(sets).length).toBeGreaterThan(2000);
});
