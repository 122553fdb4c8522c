/** The help pages: one a function, from its comment in src/functions, one a task, and an index of both with a search. */
import { quantities, type Quantity } from "../../shared/quantities";
import { unitLabel, unitChoices } from "../sheet/unit-choice";
import type { DocumentedFunction } from "./catalogue";
import { spelled } from "../sheet/spelling";
import { escaped } from "./escaped";
import { largeLogs } from "./large-logs";
import { signature } from "./signature";
import { tasks, type Task } from "./tasks";
import { byTopic } from "./topics";

/** An example taken apart: what it is given, by argument, and the rows that come out, as they are printed. */
export interface WorkedExample {
  readonly formula: string;
  /** Columns of cells under the name of their argument. */
  readonly given: readonly { readonly name: string; readonly rows: readonly (readonly string[])[] }[];
  readonly results: readonly (readonly string[])[];
}

/** Every help file by its path below the web folder. `errors` is what the README says of errors, as HTML. */
export function helpFiles(
  entries: readonly DocumentedFunction[], version: string, errors: string, examplesOf: (entry: DocumentedFunction) => readonly WorkedExample[],
): Map<string, string> {
  const files = new Map<string, string>();
  files.set("functions/index.html", page("Functions", indexBody(entries, version, errors), "search.js"));
  files.set(`functions/${largeLogs.id}.html`, page(largeLogs.title, largeLogs.body));
  for (const task of tasks) files.set(`functions/${task.id}.html`, page(task.title, taskBody(task, entries)));
  for (const entry of entries) files.set(`functions/${entry.name}.html`, page(spelled(entry.name), functionBody(entry, entries, examplesOf(entry)), "copy.js"));
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
${own.map((entry) => `<li data-search="${escaped(`${spelled(entry.name)} ${entry.description} ${entry.returns} ${entry.everyday}`)}"><a href="${entry.name}.html"><code>${escaped(signature(entry))}</code></a> ${escaped(entry.description)}</li>`).join("\n")}
</ul>
</section>`);
  return `<main>
<h1>Pucksheet functions</h1>
<p>Worksheet functions for espresso, version ${escaped(version)}. Type <code>=${spelled("")}</code> in a cell to see them; <code>=${spelled("FUNCTIONS")}("words")</code> searches them in the sheet, and <code>=${spelled("SOURCE")}("RATIO")</code> shows where one comes from.</p>
<p role="search"><label for="search">Search the help</label> <input id="search" type="search" autocomplete="off"> <span id="found" role="status"></span></p>
<section data-topic>
<h2 id="tasks">What do you want to do?</h2>
<ul class="functions">
${tasks.map((task) => `<li data-search="${escaped([task.title, task.everyday, ...task.sheets, ...task.steps].join(" "))}"><a href="${task.id}.html">${escaped(task.title)}</a> With ${listed(task.sheets.map((name) => escaped(name)))}.</li>`).join("\n")}
<li data-search="${escaped(`${largeLogs.title} ${largeLogs.everyday}`)}"><a href="${largeLogs.id}.html">${escaped(largeLogs.title)}</a> With the command check-log.</li>
</ul>
</section>
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

function taskBody({ title, sheets, steps, caution }: Task, entries: readonly DocumentedFunction[]): string {
  const withLinks = (step: string): string => escaped(step).replace(/\{([A-Z0-9.]+)\}/g, (_, name: string) => {
    if (!entries.some((entry) => entry.name === name)) throw new Error(`The task “${title}” names ${name}, which is no function.`);
    return `<a href="${name}.html"><code>${spelled(name)}</code></a>`;
  });
  return `<nav><a href="index.html">All help</a></nav>
<main>
<h1>${escaped(title)}</h1>
<p class="lead">With the ready sheet${sheets.length > 1 ? "s" : ""} ${listed(sheets.map((name) => `<strong>${escaped(name)}</strong>`))}, or with the functions named here in a sheet of your own.</p>
<ol>
${steps.map((step) => `<li>${withLinks(step)}</li>`).join("\n")}
</ol>
<h2>Take care</h2>
<p class="caution">${escaped(caution)}</p>
</main>`;
}

function listed(names: readonly string[]): string {
  return names.join(" and ");
}

/** What the example is given, its formula to be taken along, and what comes out. A single number in and out needs no table. */
function exampleBody({ formula, given, results }: WorkedExample, index: number): string {
  const id = `example-${index + 1}`;
  const take = `<button type="button" data-copies="${id}" hidden>Put this in my sheet</button> <span id="${id}-said" role="status"></span>`;
  const [only] = results.flat();
  const isPlain = results.flat().length === 1 && given.every(({ rows }) => rows.flat().length === 1);
  const code = `<code id="${id}">${escaped(formula)}</code>`;
  if (isPlain) return `<p>${code} gives ${escaped(only!)}</p>\n<p>${take}</p>`;
  const height = Math.max(...given.map(({ rows }) => rows.length));
  const heads = given.map(({ name, rows }) => `<th scope="colgroup" colspan="${rows[0]!.length}">${escaped(name)}</th>`).join("");
  const cells = (row: number): string => given.map(({ rows }) => rows[0]!.map((_, column) => `<td>${escaped(rows[row]?.[column] ?? "")}</td>`).join("")).join("");
  const input = given.length === 0 ? "" : `<div class="wide" tabindex="0"><table>
<caption>Given</caption>
<thead><tr>${heads}</tr></thead>
<tbody>
${Array.from({ length: height }, (_, row) => `<tr>${cells(row)}</tr>`).join("\n")}
</tbody>
</table></div>\n`;
  return `${input}<p>${code}</p>
<p>${take}</p>
<div class="wide" tabindex="0"><table>
<caption>Result</caption>
<tbody>
${results.map((row) => `<tr>${row.map((cell) => `<td>${escaped(cell)}</td>`).join("")}</tr>`).join("\n")}
</tbody>
</table></div>`;
}

function functionBody(entry: DocumentedFunction, entries: readonly DocumentedFunction[], examples: readonly WorkedExample[]): string {
  const related = entries.filter((other) => other.topic === entry.topic && other !== entry);
  return `<nav><a href="index.html">All help</a></nav>
<main>
<h1>${escaped(spelled(entry.name)).replaceAll(".", ".<wbr>")}</h1>
<p class="lead">${escaped(entry.description)}</p>
<p><code class="signature">=${escaped(signature(entry))}</code></p>
${entry.parameters.length === 0 ? "" : `<h2>Arguments</h2>
<dl>
${entry.parameters.map((it) => `<dt><code>${escaped(it.name)}</code>${it.optional ? " (may be left out)" : ""}</dt>\n<dd>${escaped(it.description)}${escaped(unitNote(it.quantity))}</dd>`).join("\n")}
</dl>`}
<h2>Result</h2>
<p>${escaped(entry.returns)}</p>
<h2>Example</h2>
${examples.map(exampleBody).join("\n")}
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
function unitNote(quantity: string): string {
  const record = (quantities as Record<string, Quantity>)[quantity];
  if (!record || !("measure" in record) || !record.measure) return "";
  const measure = record.measure;
  const [, ...others] = unitChoices(measure);
  return ` Or as the workbook's unit settings say: ${others.map((unit) => unitLabel(measure, unit)).join("; ")}.`;
}
