/** The help page on logs that lie on many machines or in a warehouse. It says what was run by whoever wrote it and what was not. */
import { escaped } from "./escaped";

interface Section {
  readonly heading: string;
  readonly before: readonly string[];
  readonly code?: string;
  /** Whether the code was run as it stands, or what of it was. */
  readonly run: string;
}

/** Paths of logs in, one a line; words of the check out. */
const checkEach = `#!/bin/sh
# Paths of logs come in, one a line; what the check says of them goes out.
cd /opt/pucksheet || exit 2
while IFS= read -r log; do
  place="/data/results/$(echo "$log" | cksum | cut -d " " -f 1)"
  mkdir -p "$place"
  npm run --silent check-log -- "$log" --output "$place" --state "$place/state.json" --replace 2>&1 </dev/null
done
exit 0`;

const sections: readonly Section[] = [
  {
    heading: "First: one machine is often enough",
    before: [
      "One check-log reads every log of a folder at once on all cores, in memory that does not grow with the log; of an .xlsx one the words go to the disk where they are many. A log with a column Café, Site, Shop or Branch is summed by it, else each file is a café.",
    ],
    code: "npm run check-log -- /data/logs --output /data/results",
    run: "Run, on one machine.",
  },
  {
    heading: "Machines that you reach over ssh: GNU parallel",
    before: [
      "Have the project in the same folder on every machine, here /opt/pucksheet, and the logs in a folder that all of them see, here /data. Run the command once with --help on each, so that it is set up. Each log then leaves a state, and --merge joins them: the same counts as one run, and means and deviations that differ by rounding alone.",
      "check-log ends with 1 where it found something and with 2 where a log could not be read, so parallel reports such logs as failed jobs: look at the words, not at the count.",
    ],
    code: `find /data/logs -name "*.csv" | parallel --sshlogin one,two --workdir /opt/pucksheet \\
  'mkdir -p /data/results/{/.} && npm run --silent check-log -- {} \\
   --output /data/results/{/.} --state /data/results/{/.}/state.json'
npm run check-log -- --merge /data/results/*/state.json --output /data/results`,
    run: "Run with GNU parallel 20221122 and --sshlogin :, which is the machine itself, and folders of its own. Not run over ssh: there was one machine.",
  },
  {
    heading: "Spark: pipe whole files",
    before: [
      "Give Spark the paths, not the lines: a log must stay whole, as its headings and the shot above belong to each row. Put this script on every machine, as /opt/pucksheet/check-each.sh:",
    ],
    code: `${checkEach}

# In Python, on the driver:
paths = [line.strip() for line in open("/data/logs.txt")]
said = sc.parallelize(paths, len(paths)).pipe("sh /opt/pucksheet/check-each.sh").collect()

# Then, on one machine:
npm run check-log -- --merge /data/results/*/state.json --output /data/results`,
    run: "The script was run in folders of its own with paths piped into it. Nothing was run in Spark.",
  },
  {
    heading: "A warehouse: the check as a function",
    before: [
      "npm run build writes dist/warehouse/: check-shot.js, which declares checkShot and needs nothing but JavaScript of 2015, and the SQL for BigQuery, Snowflake and PostgreSQL with plv8. Each tells the warehouse about the function and selects every row that looks wrong. Numbers are g, s and %; texts are read as they were typed.",
      "The function sees one shot and the shot above. Means, deviations and cafés side by side are for the warehouse’s own SQL, or for check-log on an export.",
    ],
    run: "check-shot.js is run in a bare engine without Node by the tests of the project, and finds what LOG.CHECK finds. The SQL was not run: there was no warehouse.",
  },
];

export const largeLogs = {
  id: "logs-in-a-cluster-or-a-warehouse",
  title: "If the logs are in a cluster or a warehouse",
  everyday: "big data, many logs, million rows, database, ssh, parallel, spark, bigquery, snowflake, postgres, sql, check-log",
  body: `<nav><a href="index.html">All help</a></nav>
<main>
<h1>If the logs are in a cluster or a warehouse</h1>
<p class="lead">The same check on machines that you have. Each way says what of it was run, and what was not.</p>
${sections.map(({ heading, before, code, run }) => `<h2>${escaped(heading)}</h2>
${before.map((text) => `<p>${escaped(text)}</p>`).join("\n")}
${code === undefined ? "" : `<pre class="wide" tabindex="0"><code>${escaped(code)}</code></pre>\n`}<p><strong>What was run:</strong> ${escaped(run)}</p>`).join("\n")}
<h2>Take care</h2>
<p class="caution">A row that looks odd may be right. The log tells what happened, not why, and says nothing of a person. Keep a copy of the logs: the check changes none, but what you write around it may.</p>
</main>`,
} as const;
