/**
 * Grind setting and shot time: which setting lands on a time, at which pressure. Shot time is taken as log-linear in the setting, so that one
 * step of the grinder changes it by a constant share.
 */
import { noAnswer, Problem } from "../problem";
import { tQuantileTwoSided } from "../statistics/distributions";
import { leverageAt, residualSd, valueAt, type Fit } from "../statistics/fit";
import { inverseInterval } from "../statistics/inverse-interval";
import { fitOrRefuse, insideOf, requireShots, twoShotsOnly, type Numbers } from "./shots";

/**
 * The setting for a time, with the interval for one new shot by inverting its prediction interval.
 * Source: Draper & Smith, Applied Regression Analysis; Greenwell & Schubert Kabban (2014), The R Journal 6(1):90.
 */
export function grindForTime({ settings, times }: { settings: Numbers; times: Numbers }): (
  asked: { target: number; confidence?: number },
) => { setting: number; low: number | Problem; high: number | Problem } {
  requireShots(settings, 2, "settings");
  const requireTried = insideOf(times, "time", "times of the shots");
  const fit = fitOrRefuse([settings], times.map(Math.log), "the settings");
  const slope = fit.slopes[0]!;
  const centre = fit.centres[0]!;
  return ({ target, confidence = 0.95 }) => {
    requireTried("target", target);
    if (slope === 0) noAnswer("The times do not change with the setting, so no setting follows from a time.");
    const setting = centre + (Math.log(target) - fit.mean) / slope;
    const interval = settingInterval(fit, setting, confidence);
    return interval instanceof Problem ? { setting, low: interval, high: interval } : { setting, ...interval };
  };
}

function settingInterval(fit: Fit, setting: number, confidence: number): { low: number; high: number } | Problem {
  if (fit.df < 1) return twoShotsOnly;
  const line = { slope: fit.slopes[0]!, slopeVariance: fit.unscaledCovariance[0]![0]!, centre: fit.centres[0]!, variance: 1 + 1 / fit.count };
  return inverseInterval({ ...line, spread: residualSd(fit), df: fit.df }, setting, confidence) ??
    new Problem("no answer", "The shots scatter too much for an interval: the grind's effect on time is not certain at this confidence. Pull more shots, further apart.");
}

/** The time at a setting, with the prediction interval for one new shot. */
export function timeForGrind({ settings, times }: { settings: Numbers; times: Numbers }): (
  asked: { setting: number; confidence?: number },
) => { time: number; timeLow: number | Problem; timeHigh: number | Problem } {
  requireShots(settings, 2, "settings");
  const requireTried = insideOf(settings, "setting", "settings tried");
  const fit = fitOrRefuse([settings], times.map(Math.log), "the settings");
  return ({ setting, confidence = 0.95 }) => {
    requireTried("setting", setting);
    const middle = valueAt(fit, [setting]);
    if (fit.df < 1) return { time: Math.exp(middle), timeLow: twoShotsOnly, timeHigh: twoShotsOnly };
    const half = tQuantileTwoSided(1 - confidence, fit.df) * residualSd(fit) * Math.sqrt(1 + leverageAt(fit, [setting]));
    return { time: Math.exp(middle), timeLow: Math.exp(middle - half), timeHigh: Math.exp(middle + half) };
  };
}

/** The setting that holds a time at another pressure: ln time is fitted linearly to the setting and to ln pressure. */
export function grindForPressure({ settings, pressures, times }: { settings: Numbers; pressures: Numbers; times: Numbers }): (
  asked: { pressure: number; target: number },
) => number {
  requireShots(settings, 3, "settings and pressures");
  const requirePressureTried = insideOf(pressures, "pressure", "pressures of the shots");
  const requireTimeTried = insideOf(times, "time", "times of the shots");
  const requireSettingTried = insideOf(settings, "setting", "settings tried; pull a shot near it and ask again");
  const fit = fitOrRefuse([settings, pressures.map(Math.log)], times.map(Math.log), "setting and pressure apart");
  const [perSetting, perPressure] = fit.slopes as [number, number];
  return ({ pressure, target }) => {
    requirePressureTried("pressure", pressure);
    requireTimeTried("target", target);
    if (perSetting === 0) noAnswer("The times do not change with the setting, so no setting follows from a time.");
    const setting = (Math.log(target) - fit.intercept - perPressure * Math.log(pressure)) / perSetting;
    requireSettingTried("The setting found,", setting);
    return setting;
  };
}
