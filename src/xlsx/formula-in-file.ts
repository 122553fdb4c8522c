/**
 * How a formula is spelled in an .xlsx file and how a person types it. In the file, functions newer than the format carry "_xlfn.",
 * the names of LET and LAMBDA carry "_xlpm.", and an add-in's function carries "_xldudf_" with its dots as underscores,
 * which is how Excel keeps it until the add-in has loaded (OfficeDev/office-js, issues 3558 and 5611). A Google Sheet, which knows no dots in
 * names, writes its own underscores without a prefix.
 */
import { isFunctionName, joined, partsOf, type Part } from "../sheet/formula-text";
import { namespace } from "../sheet/spelling";

/** The functions of the page, in full and in capitals, as in "ESPRESSO.RATIO". */
export type FunctionNames = ReadonlySet<string>;

/** Functions that came after the file format was fixed: Excel looks for these only under their prefix. ECMA-376 part 1 lacks them. */
const newerFunctions = new Set(
  `ACOT ACOTH AGGREGATE ARABIC ARRAYTOTEXT BASE BETA.DIST BETA.INV BINOM.DIST BINOM.DIST.RANGE BINOM.INV BITAND BITLSHIFT BITOR BITRSHIFT BITXOR
  BYCOL BYROW CEILING.MATH CEILING.PRECISE CHISQ.DIST CHISQ.DIST.RT CHISQ.INV CHISQ.INV.RT CHISQ.TEST CHOOSECOLS CHOOSEROWS COMBINA CONCAT
  CONFIDENCE.NORM CONFIDENCE.T COT COTH COVARIANCE.P COVARIANCE.S CSC CSCH DAYS DECIMAL DROP ECMA.CEILING ENCODEURL ERF.PRECISE ERFC.PRECISE EXPAND
  EXPON.DIST F.DIST F.DIST.RT F.INV F.INV.RT F.TEST FIELDVALUE FILTERXML FLOOR.MATH FLOOR.PRECISE FORECAST.ETS FORECAST.ETS.CONFINT
  FORECAST.ETS.SEASONALITY FORECAST.ETS.STAT FORECAST.LINEAR FORMULATEXT GAMMA GAMMA.DIST GAMMA.INV GAMMALN.PRECISE GAUSS GROUPBY HSTACK
  HYPGEOM.DIST IFNA IFS IMAGE IMCOSH IMCOT IMCSC IMCSCH IMSEC IMSECH IMSINH IMTAN ISFORMULA ISO.CEILING ISOMITTED ISOWEEKNUM LAMBDA LET
  LOGNORM.DIST LOGNORM.INV MAKEARRAY MAP MAXIFS MINIFS MODE.MULT MODE.SNGL MUNIT NEGBINOM.DIST NETWORKDAYS.INTL NORM.DIST NORM.INV NORM.S.DIST
  NORM.S.INV NUMBERVALUE PDURATION PERCENTILE.EXC PERCENTILE.INC PERCENTOF PERCENTRANK.EXC PERCENTRANK.INC PERMUTATIONA PHI PIVOTBY POISSON.DIST
  QUARTILE.EXC QUARTILE.INC RANDARRAY RANK.AVG RANK.EQ REDUCE REGEXEXTRACT REGEXREPLACE REGEXTEST RRI SCAN SEC SECH SEQUENCE SHEET SHEETS SKEW.P
  SORTBY STDEV.P STDEV.S SWITCH T.DIST T.DIST.2T T.DIST.RT T.INV T.INV.2T T.TEST TAKE TEXTAFTER TEXTBEFORE TEXTJOIN TEXTSPLIT TOCOL TOROW
  TRANSLATE TRIMRANGE UNICHAR UNICODE UNIQUE VALUETOTEXT VAR.P VAR.S VSTACK WEBSERVICE WEIBULL.DIST WORKDAY.INTL WRAPCOLS WRAPROWS XLOOKUP XMATCH
  XOR Z.TEST ANCHORARRAY SINGLE`.split(/\s+/),
);
/** These two carry a second prefix. */
const worksheetFunctions = new Set(["SORT", "FILTER"]);

export function formulaToFile(formula: string, ours: FunctionNames): string {
  const parts = partsOf(formula);
  const scopes = parameterScopes(parts);
  return joined(
    parts.map((part, index) => {
      if (part.kind !== "name") return part;
      const name = part.text.toUpperCase();
      if (scopes.some((scope) => scope.names.has(name) && index > scope.start && index < scope.end)) return { ...part, text: `_xlpm.${part.text}` };
      if (!isFunctionName(parts, index)) return part;
      if (ours.has(name)) return { ...part, text: `_xldudf_${name.replaceAll(".", "_")}` };
      if (worksheetFunctions.has(name)) return { ...part, text: `_xlfn._xlws.${name}` };
      if (newerFunctions.has(name)) return { ...part, text: `_xlfn.${name}` };
      return part;
    }),
  );
}

const differs = new RegExp(`_xl|${namespace}_`, "i");

export function formulaFromFile(formula: string, ours: FunctionNames): string {
  // Only prefixed names differ, and ours where another program has written the file.
  if (!differs.test(formula)) return formula;
  const parts = partsOf(formula).map((part): Part => (part.kind === "name" ? { ...part, text: nameFromFile(part.text, ours) } : part));
  return joined(parts);
}

/** A function's or parameter's name as typed. */
export function nameFromFile(name: string, ours: FunctionNames): string {
  return spelledInFile(ours).get(name.toUpperCase()) ?? name.replace(/^(?:_xlfn\.|_xlws\.|_xlpm\.|_xludf\.)+/i, "");
}

const spellings = new WeakMap<FunctionNames, ReadonlyMap<string, string>>();

/** Our functions by how the file spells them. */
function spelledInFile(ours: FunctionNames): ReadonlyMap<string, string> {
  let known = spellings.get(ours);
  if (!known) {
    // Without the prefix as a program writes them that knows no dots in names.
    known = new Map([...ours].flatMap((name) => ["_XLDUDF_", ""].map((prefix) => [`${prefix}${name.replaceAll(".", "_")}`, name] as const)));
    spellings.set(ours, known);
  }
  return known;
}

interface Scope {
  readonly names: Set<string>;
  readonly start: number;
  readonly end: number;
}

/** Where LET and LAMBDA give names their meaning: every name that stands alone as an argument that they define. */
function parameterScopes(parts: readonly Part[]): Scope[] {
  const scopes: Scope[] = [];
  for (let index = 0; index < parts.length; index++) {
    const kind = parts[index]!.text.toUpperCase();
    if ((kind !== "LET" && kind !== "LAMBDA") || !isFunctionName(parts, index)) continue;
    const { args, end } = argumentsAfter(parts, index);
    const defining = args.slice(0, -1).filter((_, position) => kind === "LAMBDA" || position % 2 === 0);
    const names = new Set(defining.filter((arg) => arg.length === 1 && arg[0]!.kind === "name").map((arg) => arg[0]!.text.toUpperCase()));
    scopes.push({ names, start: index, end });
  }
  return scopes;
}

/** The arguments of the function at this place, each as its parts without spaces, and where its bracket closes. */
function argumentsAfter(parts: readonly Part[], index: number): { args: Part[][]; end: number } {
  const args: Part[][] = [[]];
  let depth = 0;
  for (let at = index + 1; at < parts.length; at++) {
    const { kind, text } = parts[at]!;
    if (kind === "other" && (text === "(" || text === "{")) {
      if (depth++ === 0) continue;
    } else if (kind === "other" && (text === ")" || text === "}")) {
      if (--depth === 0) return { args, end: at };
    } else if (kind === "other" && text === "," && depth === 1) {
      args.push([]);
      continue;
    }
    if (depth > 0 && text.trim() !== "") args.at(-1)!.push(parts[at]!);
  }
  return { args, end: parts.length };
}

/** Functions that take whole ranges by nature, so that a formula of theirs means the same with and without array evaluation. */
const rangeFunctions = new Set(
  `SUM AVERAGE MIN MAX COUNT COUNTA COUNTBLANK MEDIAN STDEV VAR PRODUCT LARGE SMALL RANK SUMIF SUMIFS COUNTIF COUNTIFS AVERAGEIF AVERAGEIFS SUBTOTAL
  STDEV.S STDEV.P VAR.S VAR.P SUMPRODUCT CORREL SLOPE INTERCEPT RSQ ROWS COLUMNS AND OR XOR CONCAT TEXTJOIN AGGREGATE`.split(/\s+/),
);

/**
 * Whether the file has to mark the formula as an array formula for Excel to calculate it as the grid does. Unmarked formulas are read
 * the old way: a range where one value is wanted is cut to the formula's own row or column, and "@" appears before our functions.
 */
export function needsArrayMark(formula: string, ours: FunctionNames): boolean {
  const parts = partsOf(formula);
  const callers: string[] = [];
  for (const [index, { kind, text }] of parts.entries()) {
    const name = text.toUpperCase();
    if (kind === "structured" || text === "{") return true;
    if (kind === "name") {
      const isFunction = isFunctionName(parts, index);
      if (!isFunction && name !== "TRUE" && name !== "FALSE") return true;
      if (isFunction && (ours.has(name) || worksheetFunctions.has(name) || (newerFunctions.has(name) && !rangeFunctions.has(name)))) return true;
    }
    if (text === "(") callers.push(isFunctionName(parts, index - 1) ? parts[index - 1]!.text.toUpperCase() : "");
    else if (text === ")") callers.pop();
    else if (text === ":" && !(rangeFunctions.has(callers.at(-1) ?? "") && standsAlone(parts, index))) return true;
  }
  return false;
}

/** Whether the range around this colon is an argument by itself, not part of a calculation. */
function standsAlone(parts: readonly Part[], colon: number): boolean {
  const isRange = (part: Part | undefined) => part?.kind === "reference" || part?.kind === "sheet" || part?.text.trim() === "";
  let start = colon - 1;
  while (isRange(parts[start])) start--;
  let end = colon + 1;
  while (isRange(parts[end])) end++;
  return ["(", ","].includes(parts[start]?.text ?? "") && [")", ","].includes(parts[end]?.text ?? "");
}
