/**
 * Every name an argument or a result can have: what it means, its canonical unit and what it can physically be.
 * One name means one thing in every function. The sheet layer reads cells by it, help pages and headings take their words from it.
 */
import { discriminationTests } from "./tasting/discrimination";
import { rankingGiven } from "./tasting/ranking";
import { units, type MeasureName } from "./units";
import { indexMethods } from "./water/indices";
import { airContacts } from "./water/scale";

/** A number with a unit. `least` and `most` are what it can be at all, in the canonical unit; formulas narrow that further. */
export interface NumberQuantity {
  readonly label: string;
  readonly meaning: string;
  /** What it measures, where a workbook may choose the unit … */
  readonly measure?: MeasureName;
  /** … or its fixed unit, where it may not. Absent where the number has none. */
  readonly unit?: string;
  readonly least?: number;
  readonly most?: number;
  /** The limit itself is excluded. */
  readonly above?: number;
  readonly whole?: true;
  /** 0 is impossible, so it reads as a blank: some builds of Excel hand a blank cell over as 0. */
  readonly zeroIsBlank?: true;
}

/** A text out of a short list. */
export interface ChoiceQuantity {
  readonly label: string;
  readonly meaning: string;
  readonly options: readonly string[];
}

/** A text or any cell as it is typed. */
export interface CellQuantity {
  readonly label: string;
  readonly meaning: string;
  readonly cell: "text" | "any" | "setting";
}

export type Quantity = NumberQuantity | ChoiceQuantity | CellQuantity;

/** No shot, bar or laboratory has more than this of anything; it keeps slips such as 1E+300 out of the arithmetic. */
const sizeLimit = 1e9;

const mass = { measure: "mass", most: 5000 } as const;
const shotTime = { measure: "time", least: 1, most: 600, zeroIsBlank: true } as const;
const plain = { least: -sizeLimit, most: sizeLimit } as const;
const fraction = { least: 0.000001, most: 0.999999 } as const;
const waterPart = { least: 0, most: 100_000 } as const;

export const quantities = {
  // shot
  dose: { label: "Dose", meaning: "Dry coffee", ...mass, above: 0, zeroIsBlank: true },
  beverage: { label: "Beverage", meaning: "Mass in the cup", ...mass, above: 0, zeroIsBlank: true },
  strength: { label: "Strength", meaning: "Dissolved solids in the beverage", measure: "percent", least: 0.25, most: 60, zeroIsBlank: true },
  moisture: { label: "Moisture", meaning: "Water in the ground coffee", measure: "percent", least: 0, most: 20 },
  extraction: { label: "Extraction", meaning: "Part of the dose that is dissolved in the beverage", measure: "percent", least: 1, most: 100, zeroIsBlank: true },
  ratio: { label: "Ratio", meaning: "Beverage for each gram of dose", unit: "g/g", least: 0.1, most: 100, zeroIsBlank: true },
  time: { label: "Time", meaning: "Shot time", ...shotTime },
  firstDrip: { label: "First drip", meaning: "Time until the first drop", measure: "time", least: 0, most: 600 },
  solids: { label: "Solids", meaning: "Dissolved solids in the cup", ...mass, least: 0 },
  flow: { label: "Flow", meaning: "Beverage flow", unit: "g/s", above: 0, most: 1000, zeroIsBlank: true },
  water: { label: "Water", meaning: "Water used or added", ...mass, least: 0 },
  brewWater: { label: "Water", meaning: "Water poured on the coffee", ...mass, above: 0, zeroIsBlank: true },
  retained: { label: "Retained", meaning: "Liquid kept by each gram of coffee", unit: "g/g", least: 0, most: 10 },
  puck: { label: "Puck", meaning: "Spent coffee after drying in an oven", ...mass, above: 0, zeroIsBlank: true },
  brix: { label: "Brix", meaning: "Reading of a sugar refractometer", unit: "°Bx", least: 0, most: 95 },
  brixSlope: { label: "Slope", meaning: "Strength for each degree Brix", unit: "%/°Bx", above: 0, most: 2 },
  density: { label: "Density", meaning: "Density of the beverage", unit: "g/mL", above: 0, most: 5 },
  volume: { label: "Volume", meaning: "Volume of the beverage without foam", measure: "volume", above: 0, most: 5000, zeroIsBlank: true },
  temperature: { label: "Temperature", meaning: "Temperature", measure: "temperature", least: -273.15, most: 1000 },
  standardName: { label: "Name", meaning: "Words to look for in the names of the standards", cell: "text" },

  // uncertainty
  doseError: { label: "Dose error", meaning: "Standard uncertainty of the dose", ...mass, least: 0, most: 100 },
  beverageError: { label: "Beverage error", meaning: "Standard uncertainty of the beverage mass", ...mass, least: 0, most: 100 },
  strengthError: { label: "Strength error", meaning: "Standard uncertainty of the strength", measure: "percent", least: 0, most: 5 },
  coverage: { label: "Coverage", meaning: "Coverage factor", least: 0.1, most: 10 },
  uncertainty: { label: "Uncertainty", meaning: "Expanded uncertainty of the extraction", measure: "percent", least: 0 },
  doseShare: { label: "From the dose", meaning: "Part of the variance that comes from the dose", measure: "percent", least: 0, most: 100 },
  beverageShare: { label: "From the beverage", meaning: "Part of the variance that comes from the beverage mass", measure: "percent", least: 0, most: 100 },
  strengthShare: { label: "From the strength", meaning: "Part of the variance that comes from the strength", measure: "percent", least: 0, most: 100 },
  difference: { label: "Difference", meaning: "Difference between two settings", above: 0, most: sizeLimit },
  spread: { label: "Spread", meaning: "Standard deviation from shot to shot", above: 0, most: sizeLimit, zeroIsBlank: true },
  shots: { label: "Shots", meaning: "Shots for each setting", least: 2, most: 100_000, whole: true, zeroIsBlank: true },
  settingCount: { label: "Settings", meaning: "Settings compared", least: 2, most: 60, whole: true, zeroIsBlank: true },
  power: { label: "Power", meaning: "Chance of finding a difference that is there", ...fraction },
  significance: { label: "Significance", meaning: "Chance of an alarm where there is no difference", ...fraction },
  confidence: { label: "Confidence", meaning: "Confidence of the interval", ...fraction },
  meanDifference: { label: "Mean difference", meaning: "Mean of second less first" },
  differenceSd: { label: "SD of differences", meaning: "Standard deviation of the differences" },
  lowerLimit: { label: "Lower limit", meaning: "Lower limit of agreement" },
  upperLimit: { label: "Upper limit", meaning: "Upper limit of agreement" },

  // comparison
  anySetting: { label: "Setting", meaning: "Setting of each shot, a number or a name", cell: "setting" },
  results: { label: "Results", meaning: "Results of the shots", ...plain },
  first: { label: "First", meaning: "First list", ...plain },
  second: { label: "Second", meaning: "Second list", ...plain },
  group: { label: "Group", meaning: "Letters of the groups that the setting belongs to" },
  testMethod: { label: "Method", meaning: "How the settings are tested", options: ["unequal", "equal", "rank"] },
  pairsMethod: { label: "Method", meaning: "How the pairs are compared", options: ["unequal", "equal"] },
  statistic: { label: "Statistic", meaning: "Statistic of the test" },
  blocks: { label: "Blocks", meaning: "Block of each shot", cell: "setting" },
  methodUsed: { label: "Method", meaning: "How the settings were tested", cell: "text" },
  f: { label: "F", meaning: "F statistic of the settings" },
  df1: { label: "df 1", meaning: "Degrees of freedom between the settings" },
  df2: { label: "df 2", meaning: "Degrees of freedom of the spread" },
  p: { label: "p", meaning: "Chance of a result as marked as this where there is no difference" },
  slopesP: { label: "p of slopes", meaning: "Chance of slopes this far apart where they are the same" },
  covariates: { label: "Covariates", meaning: "What else differed from shot to shot", ...plain },
  adjustedMean: { label: "Adjusted mean", meaning: "Mean as if all shots had had the same covariates" },
  standardError: { label: "Standard error", meaning: "Standard error of the adjusted mean" },
  margin: { label: "Margin", meaning: "Difference that does not matter", above: 0, most: sizeLimit, zeroIsBlank: true },
  equivalent: { label: "Equivalent", meaning: "TRUE where the whole interval lies inside the margin" },
  result: { label: "Result", meaning: "Result to expect" },
  kind: { label: "Kind", meaning: "Shape of the surface: peak, valley, saddle or ridge", cell: "text" },
  runs: { label: "Runs", meaning: "Numbers of the runs, in the order pulled", ...plain },
  change: { label: "Change", meaning: "Change of the result from one run to the next" },
  outcomes: { label: "Outcomes", meaning: "Names of the outcomes", cell: "setting" },
  trialKind: { label: "Kind", meaning: "What the rows are", options: ["shots", "tasters"] },
  settingUnit: { label: "Unit", meaning: "Unit of the settings", cell: "text" },
  worth: { label: "Worth", meaning: "Difference worth having", above: 0, most: sizeLimit, zeroIsBlank: true },
  planned: { label: "Planned", meaning: "Shots planned for each setting", above: 0, most: 1000, zeroIsBlank: true },
  decision: { label: "Decision", meaning: "What to do", cell: "text" },
  sure: { label: "How sure", meaning: "How sure that is", cell: "text" },
  chartTitle: { label: "Chart", meaning: "Title of the chart of this outcome", cell: "text" },
  rho: { label: "rho", meaning: "Spearman's rank correlation, -1 to 1" },
  repeats: { label: "Repeats", meaning: "Shots of each setting", least: 1, most: 1000, whole: true, zeroIsBlank: true },
  seed: { label: "Seed", meaning: "Number that fixes the order", least: 1, most: 2147483647, whole: true, zeroIsBlank: true },
  run: { label: "Run", meaning: "Number of the run" },
  readings: { label: "Readings", meaning: "Readings of the same thing", ...plain },
  operators: { label: "Operators", meaning: "Who or what took each reading", cell: "setting" },
  repeatabilitySd: { label: "Repeatability SD", meaning: "Standard deviation of one operator's readings" },
  operatorSd: { label: "Between-operator SD", meaning: "Standard deviation between operators" },
  reproducibilitySd: { label: "Reproducibility SD", meaning: "Standard deviation of readings by different operators" },
  repeatabilityLimit: { label: "r", meaning: "Repeatability limit" },
  reproducibilityLimit: { label: "R", meaning: "Reproducibility limit" },

  // dialin
  settings: { label: "Settings", meaning: "Settings tried", ...plain },
  times: { label: "Times", meaning: "Shot times at those settings", ...shotTime },
  setting: { label: "Setting", meaning: "Setting of the grinder", ...plain },
  pressures: { label: "Pressures", meaning: "Brew pressures of the shots, gauge", measure: "pressure", above: 0, most: 30, zeroIsBlank: true },
  pressure: { label: "Pressure", meaning: "Brew pressure, gauge", measure: "pressure", above: 0, most: 30, zeroIsBlank: true },
  flows: { label: "Flows", meaning: "Flows at those pressures", unit: "g/s", above: 0, most: 1000, zeroIsBlank: true },
  x: { label: "x", meaning: "Values along the curve", ...plain },
  y: { label: "y", meaning: "Values of the curve at each x", ...plain },
  at: { label: "At", meaning: "Where the curve is wanted", ...plain },
  curveMethod: { label: "Method", meaning: "How the curve runs between its points", options: ["linear", "monotone"] },
  curveValue: { label: "Value", meaning: "Value on the curve", ...plain },
  exponent: { label: "Exponent", meaning: "Power of pressure that the flow follows" },
  r2: { label: "R²", meaning: "Part of the variation that the fit explains, 0 to 1" },
  low: { label: "Low", meaning: "Lower end of the interval" },
  high: { label: "High", meaning: "Upper end of the interval" },
  timeLow: { label: "Low", meaning: "Lower end of the interval", measure: "time" },
  timeHigh: { label: "High", meaning: "Upper end of the interval", measure: "time" },

  days: { label: "Days", meaning: "Day of each shot", cell: "setting" },
  tolerance: { label: "Give or take", meaning: "How far a time may be from the one wanted", measure: "time", least: 0, most: 60 },
  branch: { label: "Branch", meaning: "Number of the rule that gave the sentence" },
  sentence: { label: "Sentence", meaning: "What to do", cell: "text" },
  next: { label: "Next", meaning: "What to do after that", cell: "text" },

  // profile
  seconds: { label: "Times", meaning: "Times of the readings", measure: "time", least: 0, most: 86_400 },
  masses: { label: "Masses", meaning: "Readings of the scale", measure: "mass", least: -5000, most: 5000 },
  pressureReadings: { label: "Pressures", meaning: "Readings of the pressure, gauge", measure: "pressure", least: -1, most: 30 },
  beverageTime: { label: "Time at beverage", meaning: "When the beverage mass is reached", measure: "time" },
  meanFlow: { label: "Mean flow", meaning: "Flow from the first drop on", unit: "g/s" },
  greatestFlow: { label: "Greatest flow", meaning: "Greatest flow over any second", unit: "g/s" },
  meanPressure: { label: "Mean pressure", meaning: "Mean pressure from the first drop to the last", measure: "pressure" },
  greatestPressure: { label: "Greatest pressure", meaning: "Greatest pressure read", measure: "pressure" },
  pressureBefore: { label: "Pressure before", meaning: "Mean pressure until the first drop", measure: "pressure" },

  // conversions
  value: { label: "Value", meaning: "Number to convert", ...plain },
  converted: { label: "Converted", meaning: "The number in the unit wanted" },
  pressureUnit: { label: "Unit", meaning: "Unit of pressure", options: Object.keys(units.pressure) },
  temperatureUnit: { label: "Unit", meaning: "Unit of temperature", options: Object.keys(units.temperature) },
  hardnessUnit: { label: "Unit", meaning: "Unit of hardness", options: Object.keys(units.hardness) },
  alkalinityUnit: { label: "Unit", meaning: "Unit of alkalinity", options: Object.keys(units.alkalinity) },
  hardness: { label: "Hardness", meaning: "Total hardness", measure: "hardness", ...waterPart },
  alkalinity: { label: "Alkalinity", meaning: "Total alkalinity", measure: "alkalinity", ...waterPart },
  calcium: { label: "Calcium", meaning: "Calcium in the water", unit: "mg/L", ...waterPart },
  magnesium: { label: "Magnesium", meaning: "Magnesium in the water", unit: "mg/L", ...waterPart },

  // tasting
  correct: { label: "Correct", meaning: "Tasters who answered correctly", least: 0, most: 10_000, whole: true },
  chosen: { label: "Chosen", meaning: "Tasters who chose this sample", least: 0, most: 10_000, whole: true },
  tasters: { label: "Tasters", meaning: "Tasters, each with one answer", least: 1, most: 10_000, whole: true, zeroIsBlank: true },
  sides: { label: "Sides", meaning: "1 where only one answer was thinkable beforehand, 2 where either was", least: 1, most: 2, whole: true, zeroIsBlank: true },
  test: { label: "Test", meaning: "Kind of test", options: discriminationTests },
  needed: { label: "Needed", meaning: "Smallest number of correct answers", unit: "correct" },
  discriminators: { label: "Discriminators", meaning: "Part of all people who tell the difference, 0 to 1", above: 0, most: 1, zeroIsBlank: true },
  df: { label: "df", meaning: "Degrees of freedom" },
  firstTasters: { label: "First", meaning: "First number of tasters that is enough", unit: "tasters" },
  stableTasters: { label: "Stable", meaning: "Number of tasters from which on every number is enough", unit: "tasters" },
  distance: { label: "d′", meaning: "Distance between two samples in units of the tasters' own noise" },
  ranks: { label: "Ranks", meaning: "Ranks, tasters down and samples across, 1 for the first", least: 1, most: 100, zeroIsBlank: true },
  friedman: { label: "Friedman", meaning: "Friedman's statistic, corrected for ties" },
  given: { label: "Given", meaning: "Whether ranks or scores are given", options: rankingGiven },
  leastDifference: { label: "Least difference", meaning: "Least significant difference of two rank sums" },
  page: { label: "Page's L", meaning: "Page's statistic" },
  samples: { label: "Samples", meaning: "Samples for each taster", least: 2, most: 26, whole: true, zeroIsBlank: true },
  panelTasters: { label: "Tasters", meaning: "Tasters on the panel", least: 1, most: 1000, whole: true, zeroIsBlank: true },
  taster: { label: "Taster", meaning: "Number of the taster" },
  serving: { label: "Serving", meaning: "Number of the sample served" },
  count: { label: "Count", meaning: "Codes wanted", least: 1, most: 900, whole: true, zeroIsBlank: true },
  code: { label: "Code", meaning: "Three-digit code" },
  anyTaster: { label: "Taster", meaning: "Who gave each score, a name or a number", cell: "setting" },
  sample: { label: "Sample", meaning: "Sample of each score, a name or a number", cell: "setting" },
  scores: { label: "Scores", meaning: "Scores, the more the higher", ...plain },
  concordance: { label: "W", meaning: "Kendall's coefficient of concordance, 0 to 1" },
  oneTaster: { label: "ICC(2,1)", meaning: "How far one taster's score can stand for another's" },
  oneTasterLevelled: { label: "ICC(3,1)", meaning: "The same with every taster's own level taken out" },
  meanOfTasters: { label: "ICC(3,k)", meaning: "How far the mean of these tasters can be relied on" },
  mostDiscriminators: { label: "Most", meaning: "Part of all people who may tell the difference and still not matter, 0 to 1", above: 0, most: 0.99, zeroIsBlank: true },
  discriminatorsAtMost: { label: "Discriminators at most", meaning: "Part of all people who tell the difference, at most" },
  alike: { label: "Alike", meaning: "TRUE where so few tell the difference that it does not matter" },
  mostCorrect: { label: "Most correct", meaning: "Greatest number of correct answers that still shows it", unit: "correct" },

  // instruments
  instrumentReadings: { label: "Readings", meaning: "Readings of known values", ...plain },
  references: { label: "References", meaning: "The known values", ...plain },
  reading: { label: "Reading", meaning: "Reading whose true value is wanted", ...plain },
  trueValue: { label: "True value", meaning: "Value that the reading stands for" },

  // flow
  boilerPressure: { label: "Pressure", meaning: "Pressure on the boiler's gauge", measure: "pressure", above: 0, most: 30, zeroIsBlank: true },
  altitude: { label: "Altitude", meaning: "Height above sea level", unit: "m", least: -500, most: 9000 },
  diameter: { label: "Diameter", meaning: "Inner diameter of the basket", unit: "mm", least: 10, most: 200, zeroIsBlank: true },
  depth: { label: "Depth", meaning: "Depth of the puck", unit: "mm", least: 1, most: 100, zeroIsBlank: true },
  resistance: { label: "Resistance", meaning: "Pressure taken by each gram a second", unit: "bar·s/g" },
  permeability: { label: "Permeability", meaning: "Effective permeability of the puck", unit: "m²" },
  waterDensity: { label: "Density", meaning: "Density of water", unit: "kg/m³" },
  viscosity: { label: "Viscosity", meaning: "Viscosity of water", unit: "mPa·s" },

  // water
  carbonate: { label: "Carbonate hardness", meaning: "Hardness that alkalinity covers", measure: "hardness" },
  nonCarbonate: { label: "Non-carbonate hardness", meaning: "Hardness beyond alkalinity", measure: "hardness" },
  ph: { label: "pH", meaning: "pH of the water", least: 0, most: 14, zeroIsBlank: true },
  calciumHardness: { label: "Calcium hardness", meaning: "Calcium hardness", measure: "hardness", ...waterPart },
  tds: { label: "Dissolved solids", meaning: "Dissolved solids of the water", unit: "mg/L", ...waterPart },
  indexMethod: { label: "Method", meaning: "Method of the saturation index", options: indexMethods },
  saturationIndex: { label: "Saturation index", meaning: "pH less the pH of saturation" },
  stabilityIndex: { label: "Stability index", meaning: "Twice the pH of saturation less the pH" },
  corrosionRatio: { label: "Larson-Skold index", meaning: "Chloride and sulfate for each equivalent of alkalinity" },
  chloride: { label: "Chloride", meaning: "Chloride in the water", unit: "mg/L", ...waterPart },
  sulfate: { label: "Sulfate", meaning: "Sulfate in the water", unit: "mg/L", ...waterPart },
  sodium: { label: "Sodium", meaning: "Sodium in the water", unit: "mg/L", ...waterPart },
  chlorine: { label: "Chlorine", meaning: "Total chlorine in the water", unit: "mg/L", ...waterPart },
  raw: { label: "Raw", meaning: "What the raw water has", ...waterPart },
  treated: { label: "Treated", meaning: "What the treated water has", ...waterPart },
  blended: { label: "Blend", meaning: "What the blend has", ...waterPart },
  share: { label: "Share", meaning: "Share of raw water in the blend", measure: "percent", least: 0, most: 100 },
  salt: { label: "Salt", meaning: "Formula of a salt with its crystal water", cell: "text" },
  salts: { label: "Salts", meaning: "Formulas of the salts with their crystal water", cell: "text" },
  grams: { label: "Mass", meaning: "Mass of each salt", unit: "g", least: 0, most: 1_000_000 },
  rise: { label: "Rise", meaning: "Hardness or alkalinity to add", unit: "mg/L CaCO3", ...waterPart },
  watervolume: { label: "Volume", meaning: "Volume of water", measure: "watervolume", above: 0, most: 100_000, zeroIsBlank: true },
  magnesiumShare: { label: "Magnesium share", meaning: "Part of the hardness that is magnesium", measure: "percent", least: 0, most: 100 },
  ion: { label: "Ion", meaning: "Ion, or sum over ions", cell: "text" },
  content: { label: "mg/L", meaning: "What a litre holds" },
  conductivity: { label: "Conductivity", meaning: "Conductivity as read", unit: "µS/cm", least: 0, most: 1_000_000 },
  conductivityFactor: { label: "Factor", meaning: "Dissolved solids for each µS/cm", unit: "mg/L", least: 0.3, most: 1 },
  amount: { label: "Amount", meaning: "What this water has" },
  verdict: { label: "Verdict", meaning: "Whether the amount lies in the range", cell: "text" },

  heatedTo: { label: "At", meaning: "Temperature that the water is heated to", measure: "temperature", least: -273.15, most: 1000 },
  air: { label: "Air", meaning: "Whether CO2 can leave to the air", options: airContacts },
  precipitation: { label: "Precipitation potential", meaning: "Calcium carbonate to fall out until the water is saturated", measure: "hardness" },
  phAfter: { label: "pH after", meaning: "pH once it has fallen out" },
  capacity: { label: "Capacity", meaning: "Water until the filter is spent, at its reference hardness", measure: "watervolume", above: 0, most: 1_000_000, zeroIsBlank: true },
  reference: { label: "Reference", meaning: "Hardness that the capacity is stated for", measure: "hardness", above: 0, most: 100_000, zeroIsBlank: true },
  bypass: { label: "Bypass", meaning: "Part of the water that goes round the filter", measure: "percent", least: 0, most: 100 },
  delivered: { label: "Delivered", meaning: "Water until the filter is spent, bypass included", measure: "watervolume" },
  reportItems: { label: "Items", meaning: "What was measured, by the names of STANDARD", cell: "text" },
  reportAmounts: { label: "Amounts", meaning: "Amount of each item, in the units of STANDARD", ...plain },
  litres: { label: "Litres", meaning: "Water used a day", measure: "watervolume", above: 0, most: 100_000, zeroIsBlank: true },
  scaleMass: { label: "Scale", meaning: "Calcium carbonate laid down", measure: "mass" },
  topic: { label: "Topic", meaning: "What the sentence is about", cell: "text" },

  // reading messy logs
  entry: { label: "Entry", meaning: "Cell as it was typed", cell: "any" },
  readPercent: { label: "Percentage", meaning: "Percentage that was read", measure: "percent" },

  // log
  watched: { label: "Values", meaning: "Values in the order of the shots", ...plain },
  centre: { label: "Centre", meaning: "Centre line, the mean" },
  rangeLimit: { label: "Moving-range limit", meaning: "Upper limit of the difference from one value to the next" },
  rules: { label: "Rules", meaning: "Numbers of Nelson's rules", cell: "text" },
  oddMethod: { label: "Method", meaning: "Test of odd values", options: ["esd", "grubbs", "median"] },
  wantedLow: { label: "Low", meaning: "Least value that is wanted", ...plain },
  wantedHigh: { label: "High", meaning: "Greatest value that is wanted", ...plain },
  inside: { label: "Inside", meaning: "Part of the values between the limits", measure: "percent" },
  meanValue: { label: "Mean", meaning: "Mean of the values" },
  sdValue: { label: "SD", meaning: "Standard deviation of the values" },
  baseline: { label: "Baseline", meaning: "How many first values the limits come from", least: 2, most: 1_000_000, whole: true, zeroIsBlank: true },
  aim: { label: "Target", meaning: "Value that is aimed at", ...plain },
  weight: { label: "Weight", meaning: "Weight of the newest value, 0 to 1", least: 0.01, most: 1, zeroIsBlank: true },
  limitWidth: { label: "Width", meaning: "Distance of the limits from the target in standard deviations of the average", above: 0, most: 10, zeroIsBlank: true },
  average: { label: "Average", meaning: "Weighted average up to this value" },
  outside: { label: "Outside", meaning: "TRUE where the average is outside its limits" },
  allowance: { label: "Allowance", meaning: "What is left out of each sum, in spreads", least: 0, most: 10 },
  sumLimit: { label: "Limit", meaning: "Limit of the sums, in spreads", above: 0, most: 100, zeroIsBlank: true },
  above: { label: "Above", meaning: "Sum of what the values are above the target" },
  below: { label: "Below", meaning: "Sum of what the values are below the target" },
  beyond: { label: "Beyond", meaning: "TRUE where a sum is beyond the limit" },
  sdWithin: { label: "SD within", meaning: "Standard deviation from one shot to the next" },
  sdOverall: { label: "SD overall", meaning: "Standard deviation of all values" },
  cp: { label: "Cp", meaning: "Width of the limits for each six SD within" },
  cpk: { label: "Cpk", meaning: "Distance of the mean from the nearer limit for each three SD within" },
  pp: { label: "Pp", meaning: "Width of the limits for each six SD overall" },
  ppk: { label: "Ppk", meaning: "Distance of the mean from the nearer limit for each three SD overall" },
  logRow: { label: "Row", meaning: "Row of the log, counted from 1" },
  grade: { label: "Grade", meaning: "How bad it is", cell: "text" },
  mostFindings: { label: "First", meaning: "How many findings at most", least: 1, most: 10_000, whole: true, zeroIsBlank: true },
  steady: { label: "Steady", meaning: "Whether the log moved", cell: "text" },
  centred: { label: "Centred", meaning: "Whether the mean lies in the middle of what is wanted", cell: "text" },
  tight: { label: "Tight", meaning: "Whether the spread fits what is wanted", cell: "text" },
  valueUnit: { label: "Unit", meaning: "Unit of the values, as it stands beside them", cell: "text" },
  meanRatio: { label: "Ratio, mean", meaning: "Mean ratio" },
  sdRatio: { label: "Ratio, SD", meaning: "Standard deviation of the ratio" },
  meanTime: { label: "Time, mean", meaning: "Mean shot time", measure: "time" },
  sdTime: { label: "Time, SD", meaning: "Standard deviation of the shot time", measure: "time" },
  meanStrength: { label: "Strength, mean", meaning: "Mean strength", measure: "percent" },
  sdStrength: { label: "Strength, SD", meaning: "Standard deviation of the strength", measure: "percent" },
  meanExtraction: { label: "Extraction, mean", meaning: "Mean extraction", measure: "percent" },
  sdExtraction: { label: "Extraction, SD", meaning: "Standard deviation of the extraction", measure: "percent" },

  // about
  functionName: { label: "Name", meaning: "Name of a function, with or without ESPRESSO.", cell: "text" },
  item: { label: "Item", meaning: "What a line of the table is about", cell: "text" },
  words: { label: "In words", meaning: "What is to be said of it", cell: "text" },
  function: { label: "Function", meaning: "Name and arguments of a function", cell: "text" },
  unit: { label: "Unit", meaning: "Unit of the numbers", cell: "text" },
  source: { label: "Source", meaning: "Where it is published", cell: "text" },
  gives: { label: "What it gives", meaning: "What a function gives", cell: "text" },
  search: { label: "Search", meaning: "Words to look for", cell: "text" },
} as const satisfies Record<string, Quantity>;

export type QuantityName = keyof typeof quantities;

export function quantity(name: QuantityName): Quantity {
  return quantities[name];
}

export function isNumber(it: Quantity): it is NumberQuantity {
  return !("options" in it) && !("cell" in it);
}

export function isChoice(it: Quantity): it is ChoiceQuantity {
  return "options" in it;
}
