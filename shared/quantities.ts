/**
 * Every name an argument or a result can have: what it means, its canonical unit and what it can physically be.
 * One name means one thing in every function. The sheet layer reads cells by it and headings take their words from it.
 * What it means is the comment above it: the comments of the functions that take it begin with the same words.
 */
import { discriminationTests } from "./tasting/discrimination";
import { rankingGiven } from "./tasting/ranking";
import { units, type MeasureName } from "./units";
import { indexMethods } from "./water/indices";
import { airContacts } from "./water/scale";

/** A number with a unit. `least` and `most` are what it can be at all, in the canonical unit; formulas narrow that further. */
export interface NumberQuantity {
  /** Its name as a person reads it, where it is shown and is not the name in the code spelled as words. */
  readonly label?: string;
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
  readonly label?: string;
  readonly options: readonly string[];
}

/** A text or any cell as it is typed. */
export interface CellQuantity {
  readonly label?: string;
  readonly cell: "text" | "any" | "setting";
  /** Names, as a rule: a column of them stands left, as texts do. */
  readonly names?: true;
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
  /** Dry coffee. */
  dose: { ...mass, above: 0, zeroIsBlank: true },
  /** Mass in the cup. */
  beverage: { ...mass, above: 0, zeroIsBlank: true },
  /** Dissolved solids in the beverage. */
  strength: { measure: "percent", least: 0.25, most: 60, zeroIsBlank: true },
  /** Water in the ground coffee. */
  moisture: { measure: "percent", least: 0, most: 20 },
  /** Part of the dose that is dissolved in the beverage. */
  extraction: { measure: "percent", least: 1, most: 100, zeroIsBlank: true },
  /** Beverage for each gram of dose. */
  ratio: { unit: "g/g", least: 0.1, most: 100, zeroIsBlank: true },
  /** Shot time. */
  time: { ...shotTime },
  /** Time until the first drop. */
  firstDrip: { measure: "time", least: 0, most: 600 },
  /** Dissolved solids in the cup. */
  solids: { measure: "mass" },
  /** Beverage flow. */
  flow: { unit: "g/s", above: 0, most: 1000, zeroIsBlank: true },
  /** Water used or added. */
  water: { ...mass, least: 0 },
  /** Water poured on the coffee. */
  brewWater: { ...mass, above: 0, zeroIsBlank: true },
  /** Liquid kept by each gram of coffee. */
  retained: { unit: "g/g", least: 0, most: 10 },
  /** Spent coffee after drying in an oven. */
  puck: { ...mass, above: 0, zeroIsBlank: true },
  /** Reading of a sugar refractometer. */
  brix: { unit: "°Bx", least: 0, most: 95 },
  /** Strength for each degree Brix. */
  brixSlope: { unit: "%/°Bx", above: 0, most: 2 },
  /** Density of the beverage. */
  density: { unit: "g/mL" },
  /** Volume of the beverage without foam. */
  volume: { measure: "volume", above: 0, most: 5000, zeroIsBlank: true },
  /** Temperature. */
  temperature: { measure: "temperature", least: -273.15, most: 1000 },
  /** Words to look for in the names of the standards. */
  standardName: { cell: "text" },

  // uncertainty
  /** Standard uncertainty of the dose. */
  doseError: { ...mass, least: 0, most: 100 },
  /** Standard uncertainty of the beverage mass. */
  beverageError: { ...mass, least: 0, most: 100 },
  /** Standard uncertainty of the strength. */
  strengthError: { measure: "percent", least: 0, most: 5 },
  /** Coverage factor. */
  coverage: { least: 0.1, most: 10 },
  /** Expanded uncertainty of the extraction. */
  uncertainty: { measure: "percent" },
  /** Part of the variance that comes from the dose. */
  doseShare: { label: "From the dose", measure: "percent" },
  /** Part of the variance that comes from the beverage mass. */
  beverageShare: { label: "From the beverage", measure: "percent" },
  /** Part of the variance that comes from the strength. */
  strengthShare: { label: "From the strength", measure: "percent" },
  /** Difference between two settings. */
  difference: { above: 0, most: sizeLimit },
  /** Standard deviation from shot to shot. */
  spread: { above: 0, most: sizeLimit, zeroIsBlank: true },
  /** Shots for each setting. */
  shots: { least: 2, most: 100_000, whole: true, zeroIsBlank: true },
  /** Settings compared. */
  settingCount: { least: 2, most: 60, whole: true, zeroIsBlank: true },
  /** Chance of finding a difference that is there. */
  power: { ...fraction },
  /** Chance of an alarm where there is no difference. */
  significance: { ...fraction },
  /** Confidence of the interval. */
  confidence: { ...fraction },
  /** Mean of second less first. */
  meanDifference: {},
  /** Standard deviation of the differences. */
  differenceSd: { label: "SD of differences" },
  /** Lower limit of agreement. */
  lowerLimit: {},
  /** Upper limit of agreement. */
  upperLimit: {},

  // comparison
  /** Setting of each shot, a number or a name. */
  anySetting: { label: "Setting", cell: "setting" },
  /** Results of the shots. */
  results: { ...plain },
  /** First list. */
  first: { ...plain },
  /** Second list. */
  second: { ...plain },
  /** Letters of the groups that the setting belongs to. */
  group: {},
  /** How the settings are tested. */
  testMethod: { options: ["unequal", "equal", "rank"] },
  /** How the pairs are compared. */
  pairsMethod: { options: ["unequal", "equal"] },
  /** Statistic of the test. */
  statistic: {},
  /** Block of each shot. */
  blocks: { cell: "setting" },
  /** How the settings were tested. */
  methodUsed: { label: "Method", cell: "text" },
  /** F statistic of the settings. */
  f: {},
  /** Degrees of freedom between the settings. */
  df1: { label: "df 1" },
  /** Degrees of freedom of the spread. */
  df2: { label: "df 2" },
  /** Chance of a result as marked as this where there is no difference. */
  p: { label: "p" },
  /** Chance of slopes this far apart where they are the same. */
  slopesP: { label: "p of slopes" },
  /** What else differed from shot to shot. */
  covariates: { ...plain },
  /** Mean as if all shots had had the same covariates. */
  adjustedMean: {},
  /** Standard error of the adjusted mean. */
  standardError: {},
  /** Difference that does not matter. */
  margin: { above: 0, most: sizeLimit, zeroIsBlank: true },
  /** TRUE where the whole interval lies inside the margin. */
  equivalent: {},
  /** Result to expect. */
  result: {},
  /** Shape of the surface: peak, valley, saddle or ridge. */
  kind: { cell: "text" },
  /** Numbers of the runs, in the order pulled. */
  runs: { ...plain },
  /** Change of the result from one run to the next. */
  change: {},
  /** Names of the outcomes. */
  outcomes: { cell: "setting" },
  /** What the rows are. */
  trialKind: { options: ["shots", "tasters"] },
  /** Unit of the settings. */
  settingUnit: { cell: "text" },
  /** Difference worth having. */
  worth: { above: 0, most: sizeLimit, zeroIsBlank: true },
  /** Shots planned for each setting. */
  planned: { above: 0, most: 1000, zeroIsBlank: true },
  /** What to do. */
  decision: { cell: "text" },
  /** How sure that is. */
  sure: { label: "How sure", cell: "text" },
  /** Title of the chart of this outcome. */
  chartTitle: { label: "Chart", cell: "text" },
  /** Spearman's rank correlation, -1 to 1. */
  rho: { label: "rho" },
  /** Shots of each setting. */
  repeats: { least: 1, most: 1000, whole: true, zeroIsBlank: true },
  /** Number that fixes the order. */
  seed: { least: 1, most: 2147483647, whole: true, zeroIsBlank: true },
  /** Number of the run. */
  run: {},
  /** Readings of the same thing. */
  readings: { ...plain },
  /** Who or what took each reading. */
  operators: { cell: "setting", names: true },
  /** Standard deviation of one operator's readings. */
  repeatabilitySd: { label: "Repeatability SD" },
  /** Standard deviation between operators. */
  operatorSd: { label: "Between-operator SD" },
  /** Standard deviation of readings by different operators. */
  reproducibilitySd: { label: "Reproducibility SD" },
  /** Repeatability limit. */
  repeatabilityLimit: { label: "r" },
  /** Reproducibility limit. */
  reproducibilityLimit: { label: "R" },

  // dialin
  /** Settings tried. */
  settings: { ...plain },
  /** Shot times at those settings. */
  times: { ...shotTime },
  /** Setting of the grinder. */
  setting: { ...plain },
  /** Brew pressures of the shots, gauge. */
  pressures: { measure: "pressure", above: 0, most: 30, zeroIsBlank: true },
  /** Brew pressure, gauge. */
  pressure: { measure: "pressure", above: 0, most: 30, zeroIsBlank: true },
  /** Flows at those pressures. */
  flows: { unit: "g/s", above: 0, most: 1000, zeroIsBlank: true },
  /** Values along the curve. */
  x: { ...plain },
  /** Values of the curve at each x. */
  y: { ...plain },
  /** Where the curve is wanted. */
  at: { ...plain },
  /** How the curve runs between its points. */
  curveMethod: { options: ["linear", "monotone"] },
  /** Value on the curve. */
  curveValue: { label: "Value", ...plain },
  /** Power of pressure that the flow follows. */
  exponent: {},
  /** Part of the variation that the fit explains, 0 to 1. */
  r2: { label: "R²" },
  /** Lower end of the interval. */
  low: {},
  /** Upper end of the interval. */
  high: {},
  /** Lower end of the interval. */
  timeLow: { label: "Low", measure: "time" },
  /** Upper end of the interval. */
  timeHigh: { label: "High", measure: "time" },

  /** Day of each shot. */
  days: { cell: "setting", names: true },
  /** How far a time may be from the one wanted. */
  tolerance: { measure: "time", least: 0, most: 60 },
  /** Number of the rule that gave the sentence. */
  branch: {},
  /** What to do. */
  sentence: { cell: "text" },
  /** What to do after that. */
  next: { cell: "text" },

  /** Coffee of each shot. */
  coffees: { cell: "setting", names: true },
  /** Coffees that have a target. */
  targetCoffees: { cell: "setting", names: true },
  /** Dose wanted of each coffee. */
  doseTargets: { ...mass, above: 0, zeroIsBlank: true },
  /** Beverage mass wanted of each coffee. */
  beverageTargets: { ...mass, above: 0, zeroIsBlank: true },
  /** Time wanted of each coffee. */
  timeTargets: { ...shotTime },
  /** How far a dose may be from the one wanted. */
  doseTolerance: { measure: "mass", least: 0, most: 100 },
  /** How far a beverage mass may be from the one wanted. */
  beverageTolerance: { measure: "mass", least: 0, most: 1000 },
  /** Time wanted of the shot's coffee. */
  wantedTime: { label: "Time wanted", measure: "time" },

  // profile
  /** Times of the readings. */
  seconds: { measure: "time", least: 0, most: 86_400 },
  /** Readings of the scale. */
  masses: { measure: "mass", least: -5000, most: 5000 },
  /** Readings of the pressure, gauge. */
  pressureReadings: { measure: "pressure", least: -1, most: 30 },
  /** When the beverage mass is reached. */
  beverageTime: { label: "Time at beverage", measure: "time" },
  /** Flow from the first drop on. */
  meanFlow: { unit: "g/s" },
  /** Greatest flow over any second. */
  greatestFlow: { unit: "g/s" },
  /** Mean pressure from the first drop to the last. */
  meanPressure: { measure: "pressure" },
  /** Greatest pressure read. */
  greatestPressure: { measure: "pressure" },
  /** Mean pressure until the first drop. */
  pressureBefore: { measure: "pressure" },

  // conversions
  /** Number to convert. */
  value: { ...plain },
  /** The number in the unit wanted. */
  converted: {},
  /** Unit of pressure. */
  pressureUnit: { options: Object.keys(units.pressure) },
  /** Unit of temperature. */
  temperatureUnit: { options: Object.keys(units.temperature) },
  /** Unit of hardness. */
  hardnessUnit: { options: Object.keys(units.hardness) },
  /** Unit of alkalinity. */
  alkalinityUnit: { options: Object.keys(units.alkalinity) },
  /** Total hardness. */
  hardness: { measure: "hardness", ...waterPart },
  /** Total alkalinity. */
  alkalinity: { measure: "alkalinity", ...waterPart },
  /** Calcium in the water. */
  calcium: { unit: "mg/L", ...waterPart },
  /** Magnesium in the water. */
  magnesium: { unit: "mg/L", ...waterPart },

  // tasting
  /** Tasters who answered correctly. */
  correct: { least: 0, most: 10_000, whole: true },
  /** Tasters who chose this sample. */
  chosen: { least: 0, most: 10_000, whole: true },
  /** Tasters, each with one answer. */
  tasters: { least: 1, most: 10_000, whole: true, zeroIsBlank: true },
  /** 1 where only one answer was thinkable beforehand, 2 where either was. */
  sides: { least: 1, most: 2, whole: true, zeroIsBlank: true },
  /** Kind of test. */
  test: { options: discriminationTests },
  /** Smallest number of correct answers. */
  needed: { unit: "correct" },
  /** Part of all people who tell the difference, 0 to 1. */
  discriminators: { above: 0, most: 1, zeroIsBlank: true },
  /** Degrees of freedom. */
  df: { label: "df" },
  /** First number of tasters that is enough. */
  firstTasters: { label: "First", unit: "tasters" },
  /** Number of tasters from which on every number is enough. */
  stableTasters: { label: "Stable", unit: "tasters" },
  /** Distance between two samples in units of the tasters' own noise. */
  distance: { label: "d′" },
  /** Ranks, tasters down and samples across, 1 for the first. */
  ranks: { least: 1, most: 100, zeroIsBlank: true },
  /** Friedman's statistic, corrected for ties. */
  friedman: {},
  /** Whether ranks or scores are given. */
  given: { options: rankingGiven },
  /** Least significant difference of two rank sums. */
  leastDifference: {},
  /** Page's statistic. */
  page: { label: "Page's L" },
  /** Samples for each taster. */
  samples: { least: 2, most: 26, whole: true, zeroIsBlank: true },
  /** Tasters on the panel. */
  panelTasters: { label: "Tasters", least: 1, most: 1000, whole: true, zeroIsBlank: true },
  /** Number of the taster. */
  taster: {},
  /** Number of the sample served. */
  serving: {},
  /** Codes wanted. */
  count: { least: 1, most: 900, whole: true, zeroIsBlank: true },
  /** Three-digit code. */
  code: {},
  /** Who gave each score, a name or a number. */
  anyTaster: { cell: "setting", names: true },
  /** Sample of each score, a name or a number. */
  sample: { cell: "setting", names: true },
  /** Scores, the more the higher. */
  scores: { ...plain },
  /** Kendall's coefficient of concordance, 0 to 1. */
  concordance: { label: "W" },
  /** How far one taster's score can stand for another's. */
  oneTaster: { label: "ICC(2,1)" },
  /** The same with every taster's own level taken out. */
  oneTasterLevelled: { label: "ICC(3,1)" },
  /** How far the mean of these tasters can be relied on. */
  meanOfTasters: { label: "ICC(3,k)" },
  /** Part of all people who may tell the difference and still not matter, 0 to 1. */
  mostDiscriminators: { above: 0, most: 0.99, zeroIsBlank: true },
  /** Part of all people who tell the difference, at most. */
  discriminatorsAtMost: {},
  /** TRUE where so few tell the difference that it does not matter. */
  alike: {},
  /** Greatest number of correct answers that still shows it. */
  mostCorrect: { unit: "correct" },

  // instruments
  /** Readings of known values. */
  instrumentReadings: { ...plain },
  /** The known values. */
  references: { ...plain },
  /** Reading whose true value is wanted. */
  reading: { ...plain },
  /** Value that the reading stands for. */
  trueValue: {},
  /** Readings of one cup. */
  repeatReadings: { measure: "percent", least: 0, most: 100 },
  /** Standard uncertainty of the scale. */
  scaleError: { ...mass, least: 0, most: 100 },

  // recipe
  /** Coffee in a bag. */
  bag: { measure: "mass", above: 0, most: 100_000, zeroIsBlank: true },
  /** Price of the bag. */
  price: { above: 0, most: sizeLimit, zeroIsBlank: true },
  /** Name of the currency. */
  currency: { cell: "text" },
  /** Part of the coffee that is lost to dialling in and spills. */
  wasted: { label: "Lost", measure: "percent", least: 0, most: 90 },

  // flow
  /** Pressure on the boiler's gauge. */
  boilerPressure: { measure: "pressure", above: 0, most: 30, zeroIsBlank: true },
  /** Height above sea level. */
  altitude: { unit: "m", least: -500, most: 9000 },
  /** Inner diameter of the basket. */
  diameter: { unit: "mm", least: 10, most: 200, zeroIsBlank: true },
  /** Depth of the puck. */
  depth: { unit: "mm", least: 1, most: 100, zeroIsBlank: true },
  /** Pressure taken by each gram a second. */
  resistance: { unit: "bar·s/g" },
  /** Effective permeability of the puck. */
  permeability: { unit: "m²" },
  /** Density of water. */
  waterDensity: { label: "Density", unit: "kg/m³" },
  /** Viscosity of water. */
  viscosity: { unit: "mPa·s" },

  // water
  /** Hardness that alkalinity covers. */
  carbonate: { label: "Carbonate hardness", measure: "hardness" },
  /** Hardness beyond alkalinity. */
  nonCarbonate: { label: "Non-carbonate hardness", measure: "hardness" },
  /** pH of the water. */
  ph: { label: "pH", least: 0, most: 14, zeroIsBlank: true },
  /** Calcium hardness. */
  calciumHardness: { measure: "hardness", ...waterPart },
  /** Dissolved solids of the water. */
  tds: { label: "Dissolved solids", unit: "mg/L", ...waterPart },
  /** Method of the saturation index. */
  indexMethod: { options: indexMethods },
  /** pH less the pH of saturation. */
  saturationIndex: {},
  /** Twice the pH of saturation less the pH. */
  stabilityIndex: {},
  /** Chloride and sulfate for each equivalent of alkalinity. */
  corrosionRatio: { label: "Larson-Skold index" },
  /** Chloride in the water. */
  chloride: { unit: "mg/L", ...waterPart },
  /** Sulfate in the water. */
  sulfate: { unit: "mg/L", ...waterPart },
  /** Sodium in the water. */
  sodium: { unit: "mg/L", ...waterPart },
  /** Total chlorine in the water. */
  chlorine: { unit: "mg/L", ...waterPart },
  /** What the raw water has. */
  raw: { ...waterPart },
  /** What the treated water has. */
  treated: { ...waterPart },
  /** What the blend has. */
  blended: { label: "Blend", ...waterPart },
  /** Share of raw water in the blend. */
  share: { measure: "percent", least: 0, most: 100 },
  /** Formula of a salt with its crystal water. */
  salt: { cell: "text" },
  /** Formulas of the salts with their crystal water. */
  salts: { cell: "text" },
  /** Mass of each salt. */
  grams: { label: "Mass", unit: "g", least: 0, most: 1_000_000 },
  /** Hardness or alkalinity to add. */
  rise: { unit: "mg/L CaCO3", ...waterPart },
  /** Volume of water. */
  watervolume: { label: "Volume", measure: "watervolume", above: 0, most: 100_000, zeroIsBlank: true },
  /** Part of the hardness that is magnesium. */
  magnesiumShare: { measure: "percent", least: 0, most: 100 },
  /** Ion, or sum over ions. */
  ion: { cell: "text" },
  /** What a litre holds. */
  content: { label: "mg/L" },
  /** Conductivity as read. */
  conductivity: { unit: "µS/cm", least: 0, most: 1_000_000 },
  /** Dissolved solids for each µS/cm. */
  conductivityFactor: { unit: "mg/L", least: 0.3, most: 1 },
  /** What this water has. */
  amount: {},
  /** Whether the amount lies in the range. */
  verdict: { cell: "text" },

  /** Temperature that the water is heated to. */
  heatedTo: { measure: "temperature", least: -273.15, most: 1000 },
  /** Whether CO2 can leave to the air. */
  air: { options: airContacts },
  /** Calcium carbonate to fall out until the water is saturated. */
  precipitation: { label: "Precipitation potential", measure: "hardness" },
  /** pH once it has fallen out. */
  phAfter: { label: "pH after" },
  /** Water until the filter is spent, at its reference hardness. */
  capacity: { measure: "watervolume", above: 0, most: 1_000_000, zeroIsBlank: true },
  /** Hardness that the capacity is stated for. */
  reference: { measure: "hardness", above: 0, most: 100_000, zeroIsBlank: true },
  /** Part of the water that goes round the filter. */
  bypass: { measure: "percent", least: 0, most: 100 },
  /** Water until the filter is spent, bypass included. */
  delivered: { measure: "watervolume" },
  /** What was measured, by the names of STANDARD. */
  reportItems: { label: "Items", cell: "text" },
  /** Amount of each item, in the units of STANDARD. */
  reportAmounts: { ...plain },
  /** Water used a day. */
  litres: { measure: "watervolume", above: 0, most: 100_000, zeroIsBlank: true },
  /** Calcium carbonate laid down. */
  scaleMass: { measure: "mass" },
  /** What the sentence is about. */
  topic: { cell: "text" },

  // reading messy logs
  /** Cell as it was typed. */
  entry: { cell: "any" },
  /** Percentage that was read. */
  readPercent: { label: "Percentage", measure: "percent" },

  // log
  /** Values in the order of the shots. */
  watched: { ...plain },
  /** Row of each value in the log. */
  rows: { least: 1, most: sizeLimit, whole: true },
  /** Centre line, the mean. */
  centre: {},
  /** Upper limit of the difference from one value to the next. */
  rangeLimit: { label: "Moving-range limit" },
  /** Numbers of Nelson's rules. */
  rules: { cell: "text" },
  /** Test of odd values. */
  oddMethod: { options: ["esd", "grubbs", "median"] },
  /** Least value that is wanted. */
  wantedLow: { label: "Low", ...plain },
  /** Greatest value that is wanted. */
  wantedHigh: { label: "High", ...plain },
  /** Part of the values between the limits. */
  inside: { measure: "percent" },
  /** Mean of the values. */
  meanValue: { label: "Mean" },
  /** Standard deviation of the values. */
  sdValue: { label: "SD" },
  /** How many first values the limits come from. */
  baseline: { least: 2, most: 1_000_000, whole: true, zeroIsBlank: true },
  /** Value that is aimed at. */
  aim: { ...plain },
  /** Weight of the newest value, 0 to 1. */
  weight: { least: 0.01, most: 1, zeroIsBlank: true },
  /** Distance of the limits from the target in standard deviations of the average. */
  limitWidth: { above: 0, most: 10, zeroIsBlank: true },
  /** Weighted average up to this value. */
  average: {},
  /** TRUE where the average is outside its limits. */
  outside: {},
  /** What is left out of each sum, in spreads. */
  allowance: { least: 0, most: 10 },
  /** Limit of the sums, in spreads. */
  sumLimit: { above: 0, most: 100, zeroIsBlank: true },
  /** Sum of what the values are above the target. */
  above: {},
  /** Sum of what the values are below the target. */
  below: {},
  /** TRUE where a sum is beyond the limit. */
  beyond: {},
  /** Standard deviation from one shot to the next. */
  sdWithin: { label: "SD within" },
  /** Standard deviation of all values. */
  sdOverall: { label: "SD overall" },
  /** Width of the limits for each six SD within. */
  cp: {},
  /** Distance of the mean from the nearer limit for each three SD within. */
  cpk: {},
  /** Width of the limits for each six SD overall. */
  pp: {},
  /** Distance of the mean from the nearer limit for each three SD overall. */
  ppk: {},
  /** Row of the log, counted from 1. */
  logRow: { label: "Row" },
  /** How bad it is. */
  grade: { cell: "text" },
  /** Why the row is left out. */
  leftOut: { label: "Left out because", cell: "text" },
  /** How many rows of the log are not among the values because they look wrong. */
  excluded: { least: 0, most: 10_000_000, whole: true },
  /** How many findings at most. */
  mostFindings: { least: 1, most: 10_000, whole: true, zeroIsBlank: true },
  /** Whether the log moved. */
  steady: { cell: "text" },
  /** Whether the mean lies in the middle of what is wanted. */
  centred: { cell: "text" },
  /** Whether the spread fits what is wanted. */
  tight: { cell: "text" },
  /** Unit of the values, as it stands beside them. */
  valueUnit: { cell: "text" },
  /** Mean ratio. */
  meanRatio: { label: "Ratio, mean" },
  /** Standard deviation of the ratio. */
  sdRatio: { label: "Ratio, SD" },
  /** Mean shot time. */
  meanTime: { label: "Time, mean", measure: "time" },
  /** Standard deviation of the shot time. */
  sdTime: { label: "Time, SD", measure: "time" },
  /** Mean strength. */
  meanStrength: { label: "Strength, mean", measure: "percent" },
  /** Standard deviation of the strength. */
  sdStrength: { label: "Strength, SD", measure: "percent" },
  /** Mean extraction. */
  meanExtraction: { label: "Extraction, mean", measure: "percent" },
  /** Standard deviation of the extraction. */
  sdExtraction: { label: "Extraction, SD", measure: "percent" },

  // about
  /** Name of a function, with or without ESPRESSO. */
  functionName: { cell: "text" },
  /** What a line of the table is about. */
  item: { cell: "text" },
  /** What is to be said of it. */
  words: { label: "In words", cell: "text" },
  /** Name and arguments of a function. */
  function: { cell: "text" },
  /** Unit of the numbers. */
  unit: { cell: "text" },
  /** Where it is published. */
  source: { cell: "text" },
  /** What a function gives. */
  gives: { label: "What it gives", cell: "text" },
  /** Words to look for. */
  search: { cell: "text" },
} as const satisfies Record<string, Quantity>;

export type QuantityName = keyof typeof quantities;

export function quantity(name: QuantityName): Quantity {
  return quantities[name];
}

/** The name of a quantity as a person reads it. */
export function labelOf(name: QuantityName): string {
  return quantity(name).label ?? `${name[0]!.toUpperCase()}${name.slice(1).replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)}`;
}

export function isNumber(it: Quantity): it is NumberQuantity {
  return !("options" in it) && !("cell" in it);
}

export function isChoice(it: Quantity): it is ChoiceQuantity {
  return "options" in it;
}
