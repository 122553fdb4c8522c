/** The stand-in's table of requirement sets, held to what is remembered of Microsoft's "Excel JavaScript API requirement sets" (from memory). */
import { expect, test } from "vitest";
import { readApiSets } from "../excel-host/api-sets.ts";

test("the requirement sets of Excel's API are read from Microsoft's declarations", () => {
  const sets = readApiSets();
  expect(sets["Range.values"]).toBe("ExcelApi 1.1");
  expect(sets["DocumentProperties.custom"]).toBe("ExcelApi 1.7");
  expect(sets["PageLayout.setPrintArea"]).toBe("ExcelApi 1.9");
  expect(sets["Range.getSpillingToRange"]).toBe("ExcelApi 1.12");
  // A reader that lost most of the declarations would let everything through as unmarked or refuse it all.
  expect(Object.keys(sets).length).toBeGreaterThan(2000);
});
