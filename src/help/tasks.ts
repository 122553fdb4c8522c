/** What a person comes to do: a page each, with the ready sheet and the functions that do it. {NAME} stands for a function. */
export interface Task {
  /** The name of its page. */
  readonly id: string;
  readonly title: string;
  /** What else a person may call it. */
  readonly everyday: string;
  /** The ready sheets that do it. */
  readonly sheets: readonly string[];
  readonly steps: readonly string[];
  readonly caution: string;
}

const hot = "Hot water, steam and metal under pressure: keep to the limits of the machine’s maker.";

export const tasks: readonly Task[] = [
  {
    id: "dial-in-a-new-coffee",
    title: "Dial in a new coffee",
    everyday: "dialling in, dialing in, grinder, grind finer, grind coarser, new bag, too fast, too slow, gushing, choking, sour, bitter",
    sheets: ["Dial-in", "Morning"],
    steps: [
      "Choose dose, beverage mass and shot time, and keep the first two steady: weigh the dose, and stop the shot on the scale.",
      "Start the ready sheet Dial-in, type the time that you want, and pull a shot at each of two settings that are clearly apart.",
      "Read the sentence at the top. With two shots it names a setting to start with, with three or more how sure that is ({GRIND.ADVICE}, {GRIND.FORTIME}).",
      "Pull the next shot there and type it too. Stop when the time is on target: the last second is not worth the coffee.",
      "Next day, type the day beside the shots, or use the ready sheet Morning: one shot and the log of earlier days give the next setting ({GRIND.NEXT}).",
      "Only then judge the taste, and strength and extraction if you read them ({EXTRACTION}). Change one thing at a time.",
    ],
    caution: `Purge the grinder after each change, or the shot holds the last setting’s coffee. ${hot}`,
  },
  {
    id: "compare-two-baskets",
    title: "Compare two baskets, or any two settings",
    everyday: "which is better, baskets, two grinders, temperature, pressure, ratio, water, difference, average, significant, channelling, channeling",
    sheets: ["Setting trial", "Recipe card"],
    steps: [
      "Say first what difference would be worth having, and see how many shots of each that takes ({SHOTS.NEEDED}).",
      "Start the ready sheet Setting trial, type what you vary, the settings (names will do) and the shots of each. It fills in a mixed order ({RUN.ORDER}) and a code for each cup.",
      "Keep dose, beverage mass and shot time the same. Where another setting changes the time, re-dial the grind and say so in the sheet.",
      "Pull in the order shown, and type the rest of each row: a machine that warms up then spoils both alike. Over several mornings, pull every setting on each.",
      "Serve the cups by their codes. Wait until all are in: a look after each shot finds differences that are none.",
      "Read the top lines: which to keep, by how much, how sure, what next ({COMPARE.DECISION}). No difference shown is not the same as no difference ({EQUIVALENT}).",
    ],
    caution: `Caffeine adds up: let tasters spit, let the coffee cool, and name allergens such as milk. ${hot}`,
  },
  {
    id: "audit-a-log",
    title: "Audit a log of shots",
    everyday: "client, consultant, mistakes, typos, clean up, import, messy, spreadsheet, steady, consistent, consistency, report, drift",
    sheets: ["Log audit"],
    steps: [
      "Start the ready sheet Log audit while the log is in sight: its rows come along, found by their headings. Or paste the log as it is: “18,2 g”, “0:27” and “9,4 %” are read as meant ({READ.GRAMS}, {READ.SECONDS}, {READ.PERCENT}).",
      "Go through what looks wrong, the worst first ({LOG.FINDINGS}): what cannot be, what is doubtful, what is only text. Ask before you change an entry.",
      "Rows that cannot be right are left out of the rest, and counted.",
      "Read whether the shots are steady, in the middle and tight enough for the limits that you type, and what comes next ({LOG.VERDICT}).",
      "For a log of many thousand rows, or the logs of many cafés, use the command npm run check-log.",
    ],
    caution: "A row that looks odd may be right. The log tells what happened, not why, and says nothing of a person.",
  },
  {
    id: "set-up-water",
    title: "Set up water",
    everyday: "limescale, scale, hard, soft, filter, softener, descale, corrosion, rust, minerals, recipe, reverse osmosis, report, chloride",
    sheets: ["Water"],
    steps: [
      "Get a report of the water as it comes to the machine, or measure hardness, alkalinity and pH. Mind the units ({WATER.HARDNESS}, {WATER.ALKALINITY}): 3 mmol/L of acid is not 3 mmol/L of calcium carbonate.",
      "Start the ready sheet Water and type the report. It says what the water means for taste, scale and corrosion ({WATER.ADVICE}).",
      "Too hard or too alkaline: see what share of treated water brings it into range ({WATER.BLENDSHARE}), and how long a filter lasts ({WATER.FILTERLIFE}).",
      "Too soft: see which salts pure water takes ({WATER.RECIPE}). Weigh to 0.01 g, and label what you made.",
      "Measure at the tap afterwards, and again when the filter ages.",
    ],
    caution:
      "The machine maker’s limits and local codes come first. Dosing a plumbed line, filters and descaling acids belong to licensed people; never mix acids with other cleaners. It says nothing of health.",
  },
  {
    id: "run-a-blind-tasting",
    title: "Run a blind tasting",
    everyday: "cupping, blind, triangle, tell apart, favourite, favorite, preference, tasters, panel, cups, which do they like",
    sheets: ["Tasting session", "Tasting panel"],
    steps: [
      "Decide the question first. Can people tell two coffees apart: a triangle test ({TASTE.TRIANGLE}). Which do they like best: ranking ({TASTE.RANKS}). In what do they differ: scores ({TASTE.SCORES}).",
      "See how many tasters that takes ({TASTE.TASTERS}), and settle the risk of a wrong answer before anyone tastes.",
      "Start the ready sheet Tasting session, or Tasting panel for scores. It gives codes for the cups ({TASTE.CODES}) and orders to serve them in ({TASTE.ORDER}).",
      "Whoever knows the codes does not serve. Same cups, same amount, same temperature, no talking.",
      "Type all answers, then read the top line. “Not shown” is not “the same”: for that see {TASTE.ALIKE}.",
    ],
    caution:
      "Caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy): let tasters spit. Let the coffee cool, name allergens such as milk; nobody tastes what they should not drink.",
  },
];
