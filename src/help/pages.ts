/** The help pages: one a function, and an index by topic with a search, all from the comments in src/functions. */
import { quantities, type Quantity } from "../../shared/quantities";
import { unitLabel, unitChoices } from "../sheet/unit-choice";
import type { DocumentedFunction } from "./catalogue";
import { spelled } from "../sheet/spelling";
import { signature } from "./signature";
import { byTopic } from "./topics";

/** Every help file by its path below the web folder. `errors` is what the README says of errors, as HTML. */
export function helpFiles(entries: readonly DocumentedFunction[], version: string, errors: string): Map<string, string> {
  const files = new Map<string, string>();
  files.set("functions/index.html", page("Functions", indexBody(entries, version, errors), "search.js"));
  for (const entry of entries) files.set(`functions/${entry.name}.html`, page(spelled(entry.name), functionBody(entry, entries)));
  return files;
}

function page(title: string, body: string, script?: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'">
<title>${escaped(title)} · Pucksheet</title>
<link rel="stylesheet" href="help.css">
${script ? `<script src="${script}" defer></script>\n` : ""}</head>
<body>
${body}
</body>
</html>
`;
}

function indexBody(entries: readonly DocumentedFunction[], version: string, errors: string): string {
  const sections = byTopic(entries).map(({ topic, title, entries: own }) => `<section data-topic>
<h2 id="${topic}">${escaped(title)}</h2>
<ul class="functions">
${own.map((entry) => `<li data-search="${escaped(`${entry.name} ${entry.description} ${entry.returns}`.toLowerCase())}"><a href="${entry.name}.html"><code>${escaped(signature(entry))}</code></a> ${escaped(entry.description)}</li>`).join("\n")}
</ul>
</section>`);
  return `<main>
<h1>Pucksheet functions</h1>
<p>Worksheet functions for espresso, version ${escaped(version)}. Type <code>=${spelled("")}</code> in a cell to see them; <code>=${spelled("FUNCTIONS")}("words")</code> searches them in the sheet, and <code>=${spelled("SOURCE")}("RATIO")</code> shows where one comes from.</p>
<p role="search"><label for="search">Search the functions</label> <input id="search" type="search" autocomplete="off"> <span id="found" role="status"></span></p>
${sections.join("\n")}
<section>
<h2 id="cells">How cells are read</h2>
<ul>
<li>Give one cell, a row, a column or a block; one cell, row or column repeats to fit the others. Other sizes must match.</li>
<li>An empty row gives an empty result; a row with a gap says which cell is blank. A blank optional cell means the value the page names.</li>
<li>An error in one row spoils that row only. Text and TRUE are refused with words; the <a href="#read">reading functions</a> turn typed entries into numbers.</li>
<li>Separate the arguments as your sheet does: <code>,</code> or <code>;</code>.</li>
</ul>
</section>
<section>
<h2 id="errors">When a cell shows an error</h2>
${errors}
</section>
</main>`;
}

function functionBody(entry: DocumentedFunction, entries: readonly DocumentedFunction[]): string {
  const related = entries.filter((other) => other.topic === entry.topic && other !== entry);
  return `<nav><a href="index.html">All functions</a></nav>
<main>
<h1>${escaped(spelled(entry.name)).replaceAll(".", ".<wbr>")}</h1>
<p class="lead">${escaped(entry.description)}</p>
<p><code class="signature">=${escaped(signature(entry))}</code></p>
${entry.parameters.length === 0 ? "" : `<h2>Arguments</h2>
<dl>
${entry.parameters.map((it) => `<dt><code>${escaped(it.name)}</code>${it.optional ? " (may be left out)" : ""}</dt>\n<dd>${escaped(it.description)}${escaped(unitNote(it.argument))}</dd>`).join("\n")}
</dl>`}
<h2>Result</h2>
<p>${escaped(entry.returns)}</p>
<h2>Example</h2>
${entry.examples.map((example) => `<p><code>${escaped(example.replace(/ gives .*/, ""))}</code> gives ${escaped(example.replace(/^.* gives /, ""))}</p>`).join("\n")}
<h2>Equation</h2>
<p>${escaped(entry.equation)}</p>
<h2>Source</h2>
<p>${escaped(entry.source)}</p>
${entry.range ? `<h2>Range</h2>\n<p>${escaped(entry.range)}</p>` : ""}
${entry.caution ? `<h2>Caution</h2>\n<p class="caution">${escaped(entry.caution)}</p>` : ""}
${related.length === 0 ? "" : `<h2>See also</h2>\n<p>${related.map((other) => `<a href="${other.name}.html">${escaped(other.name)}</a>`).join(" ")}</p>`}
<p class="since">Since version ${escaped(entry.since)}</p>
</main>`;
}

/** Which unit a workbook may choose instead, where it may. */
function unitNote(parameter: string): string {
  const record = (quantities as Record<string, Quantity>)[parameter];
  if (!record || !("measure" in record) || !record.measure) return "";
  const measure = record.measure;
  const [, ...others] = unitChoices(measure);
  return ` Or as the workbook's unit settings say: ${others.map((unit) => unitLabel(measure, unit)).join("; ")}.`;
}

export function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
}
