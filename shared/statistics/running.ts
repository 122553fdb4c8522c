/** Mean and standard deviation of values that come one by one, without keeping them. */
import { Problem } from "../problem";

/** What is known of the values so far: how many, their mean, and the sum of squares about it. Plain data, for files and other machines. */
export type RunningState = readonly [count: number, mean: number, squares: number];

/**
 * Values one by one by Welford (1962), Technometrics 4:419; two lots of values by Chan, Golub and LeVeque (1983), The American Statistician 37:242.
 * Neither subtracts large sums of squares from one another, so that no digits are lost to a common offset.
 */
export class Running {
  private count = 0;
  private average = 0;
  private squares = 0;

  static of([count, mean, squares]: RunningState): Running {
    const running = new Running();
    [running.count, running.average, running.squares] = [count, mean, squares];
    return running;
  }

  add(value: number): void {
    this.count++;
    const before = value - this.average;
    this.average += before / this.count;
    this.squares += before * (value - this.average);
  }

  /** As if the values of the other had come after its own. */
  merge(other: Running): void {
    if (other.count === 0) return;
    const count = this.count + other.count;
    const apart = other.average - this.average;
    this.squares += other.squares + apart * apart * this.count * (other.count / count);
    this.average += apart * (other.count / count);
    this.count = count;
  }

  get state(): RunningState {
    return [this.count, this.average, this.squares];
  }

  get mean(): number | Problem {
    return this.count > 0 ? this.average : new Problem("no answer", "None of these shots has what this needs.");
  }

  get sd(): number | Problem {
    return this.count > 1 ? Math.sqrt(this.squares / (this.count - 1)) : new Problem("no answer", "A standard deviation needs two shots or more.");
  }
}
