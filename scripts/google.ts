/** Builds the script for Google Sheets and says how to bring it into a spreadsheet. */
import { resolve } from "node:path";
import { build } from "./build.ts";

build();
console.log(`
The script for Google Sheets is in ${resolve("dist", "google")}

In the spreadsheet, by hand:
  1. Extensions > Apps Script.
  2. Put the text of Code.js in place of what stands in Code.gs.
  3. Files > + > Script, name it Words, and put the text of Words.js there; in the same way Sheets, with the text of Sheets.js,
     and Files > + > HTML, named Sidebar, with the text of Sidebar.html.
  4. Project Settings > Show "appsscript.json", and put the text of appsscript.json there.
  5. Save, go back to the spreadsheet and load it anew.

Or with clasp, from the package @google/clasp, if you have it: clasp create-script or clasp clone-script in a folder of its own,
copy the five files of that folder there, and clasp push.

Then type =ESPRESSO_RATIO(18, 36) in a cell: it gives 2. The menu Pucksheet starts ready sheets; the first time, Google asks whether the
script may work in this spreadsheet.`);
