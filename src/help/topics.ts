import type { CatalogueEntry } from "./catalogue";

/** Topics in the order a person meets them; a topic that is not named here comes last under its own name. */
const topics: Record<string, string> = {
  shot: "A shot",
  read: "Reading a messy log",
  dialin: "Dialling in",
  uncertainty: "How sure is a number",
  comparison: "Which setting is better",
  tasting: "Tasting",
  instruments: "Can an instrument be trusted",
  flow: "Pressure, temperature and flow",
  water: "Water",
  log: "Auditing a log",
  about: "About this sheet",
};

export interface Topic<Entry extends CatalogueEntry> {
  readonly topic: string;
  readonly title: string;
  readonly entries: readonly Entry[];
}

/** The functions by topic, in the order of the topics. */
export function byTopic<Entry extends CatalogueEntry>(entries: readonly Entry[]): Topic<Entry>[] {
  const order = [...new Set([...Object.keys(topics), ...entries.map(({ topic }) => topic)])];
  return order
    .map((topic) => ({ topic, title: topics[topic] ?? topic, entries: entries.filter((entry) => entry.topic === topic) }))
    .filter((it) => it.entries.length > 0);
}
