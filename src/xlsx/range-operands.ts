/**
 * How a formula that is not marked as an array formula uses ranges. Excel reads such a formula the old way: where one value is wanted it takes
 * from a range the one cell in the formula's own row or column. This finds whether it would.
 */
import { isFunctionName, type Part } from "../sheet/formula-text";

/** Functions that go through ranges cell by cell even in calculations between their brackets. */
const arrayEvaluating = new Set(
  `SUMPRODUCT MMULT MDETERM MINVERSE LOOKUP INDEX FREQUENCY TREND GROWTH LINEST LOGEST CORREL PEARSON RSQ SLOPE INTERCEPT FORECAST STEYX COVAR
  SUMX2MY2 SUMX2PY2 SUMXMY2 TTEST FTEST ZTEST CHITEST PROB MODE AGGREGATE T.TEST F.TEST Z.TEST CHISQ.TEST COVARIANCE.P COVARIANCE.S FORECAST.LINEAR
  IRR MIRR NPV XIRR XNPV XLOOKUP XMATCH FILTER SORT SORTBY UNIQUE SEQUENCE LET LAMBDA MAP BYROW BYCOL REDUCE SCAN MAKEARRAY TEXTJOIN CONCAT
  VSTACK HSTACK TOCOL TOROW TAKE DROP CHOOSECOLS CHOOSEROWS EXPAND WRAPROWS WRAPCOLS TEXTSPLIT IFS SWITCH MAXIFS MINIFS`.split(/\s+/),
);

/** Functions that want one value in each argument. */
const scalar = new Set(
  `ABS ACOS ACOSH ASIN ASINH ATAN ATAN2 ATANH CEILING COS COSH DEGREES EVEN EXP FACT FLOOR INT LN LOG LOG10 MOD ODD PI POWER QUOTIENT RADIANS ROUND
  ROUNDDOWN ROUNDUP SIGN SIN SINH SQRT TAN TANH TRUNC MROUND COMBIN PERMUT BIN2DEC DEC2BIN DEC2HEX HEX2DEC CHAR CLEAN CODE CONCATENATE DOLLAR EXACT
  FIND FIXED LEFT LEN LOWER MID PROPER REPLACE REPT RIGHT SEARCH SUBSTITUTE T TEXT TRIM UPPER VALUE DATE DATEVALUE DAY DAYS360 EDATE EOMONTH HOUR
  MINUTE MONTH SECOND TIME TIMEVALUE WEEKDAY WEEKNUM YEAR YEARFRAC DATEDIF ISBLANK ISERR ISERROR ISEVEN ISLOGICAL ISNA ISNONTEXT ISNUMBER ISODD
  ISTEXT N NOT CHOOSE FV PMT PV NPER RATE IPMT PPMT SLN SYD NORMDIST NORMSDIST NORMINV NORMSINV TDIST TINV FDIST FINV CHIDIST CHIINV BINOMDIST
  POISSON EXPONDIST CONFIDENCE STANDARDIZE FISHER FISHERINV GAMMALN`.split(/\s+/),
);

/** Others want one value in these arguments, counted from 0. */
const scalarArguments: Record<string, (index: number) => boolean> = {
  IF: (index) => index === 0,
  VLOOKUP: (index) => index !== 1,
  HLOOKUP: (index) => index !== 1,
  MATCH: (index) => index === 0,
  LOOKUP: (index) => index === 0,
  INDEX: (index) => index === 1 || index === 2,
  OFFSET: (index) => index > 0,
  SUMIF: (index) => index === 1,
  COUNTIF: (index) => index === 1,
  AVERAGEIF: (index) => index === 1,
  SUMIFS: (index) => index > 0 && index % 2 === 0,
  AVERAGEIFS: (index) => index > 0 && index % 2 === 0,
  COUNTIFS: (index) => index % 2 === 1,
  RANK: (index) => index === 0,
  SMALL: (index) => index === 1,
  LARGE: (index) => index === 1,
};

/** A function's argument, or the formula itself, as far as it has been gone through. */
interface Stretch {
  /** In capitals; "" for the formula itself. */
  readonly caller: string;
  /** In a function that goes through ranges, at any depth. */
  readonly throughRanges: boolean;
  argument: number;
  calculates: boolean;
  ranges: boolean;
}

/** `isRange` tells whether a name stands for more than a cell. */
export function cutsARange(parts: readonly Part[], isRange: (name: string) => boolean): boolean {
  const stack: Stretch[] = [{ caller: "", throughRanges: false, argument: 0, calculates: false, ranges: false }];
  /** For each bracket, whether it opened a function. */
  const brackets: boolean[] = [];
  let constants = 0;
  const cut = ({ caller, throughRanges, argument, calculates, ranges }: Stretch): boolean => {
    if (!ranges || throughRanges) return false;
    if (calculates || caller === "") return !arrayEvaluating.has(caller);
    return scalar.has(caller) || (scalarArguments[caller]?.(argument) ?? false);
  };
  for (const [index, part] of parts.entries()) {
    const top = stack.at(-1)!;
    const { kind, text } = part;
    if (text === "{") constants++;
    else if (text === "}") constants--;
    else if (constants > 0 || text.trim() === "") continue;
    else if (text === "(") {
      const isCall = isFunctionName(parts, lastBefore(parts, index));
      brackets.push(isCall);
      if (!isCall) continue;
      const caller = parts[lastBefore(parts, index)]!.text.toUpperCase().replace(/^(?:_XLFN\.|_XLWS\.)+/, "");
      const throughRanges = top.throughRanges || arrayEvaluating.has(top.caller);
      stack.push({ caller, throughRanges, argument: 0, calculates: false, ranges: false });
    } else if (text === ")") {
      if (brackets.pop() === false || stack.length === 1) continue;
      if (cut(top)) return true;
      stack.pop();
    } else if (text === "," && brackets.at(-1) !== false) {
      if (cut(top)) return true;
      Object.assign(top, { argument: top.argument + 1, calculates: false, ranges: false });
    } else if (kind === "other" && /^[-+*/^&=<>%]$/.test(text)) top.calculates = true;
    else if (text === ":" || (kind === "structured" && !/#(?:This Row|Headers|Totals)|^\[@/i.test(text))) top.ranges = true;
    else if (kind === "name" && parts[index + 1]?.kind !== "structured" && !isFunctionName(parts, index) && isRange(text)) top.ranges = true;
  }
  return cut(stack[0]!);
}

function lastBefore(parts: readonly Part[], index: number): number {
  let at = index - 1;
  while (at > 0 && parts[at]!.text.trim() === "") at--;
  return at;
}
