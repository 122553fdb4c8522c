/** The page that Excel runs: pane and functions share it. It starts hidden when a function calculates, and shows when the pane is opened. */
import { mountPane } from "../../pane/pane";
import "../../pane/pane.css";
import { excelPanePort } from "./pane-port";
import "./taskpane.css";

const place = document.getElementById("pane")!;

function say(sentence: string): void {
  const words = document.createElement("p");
  words.setAttribute("role", "alert");
  words.textContent = sentence;
  place.replaceChildren(words);
}

async function start(): Promise<void> {
  if (typeof Office === "undefined") {
    return say("Excel’s library for add-ins did not load. Pucksheet needs the network to start: check the connection, then close this pane and open it again.");
  }
  const { host } = await Office.onReady();
  if (host !== Office.HostType.Excel) return say("This page works inside Excel: open it with the Pucksheet button on the Home tab.");
  const link = globalThis.pucksheet;
  if (!link) return say("The functions of Pucksheet did not load. Close this pane and open it again; if that does not help, restart Excel.");
  const pane = mountPane(place, excelPanePort(link));
  // The second button of the ribbon: a shared runtime has one pane, so a function shows its other page.
  Office.actions.associate("showReadySheets", (event: Office.AddinCommands.Event) => {
    pane.show("ready sheets");
    void Office.addin.showAsTaskpane().finally(() => event.completed());
  });
}

void start();
