// ml-regression brings no types; the tests use this much of it.
declare module "ml-regression" {
  export class SimpleLinearRegression {
    constructor(x: readonly number[], y: readonly number[]);
    readonly slope: number;
    readonly intercept: number;
  }
  export class MultivariateLinearRegression {
    constructor(x: readonly (readonly number[])[], y: readonly (readonly number[])[]);
    /** A row for each column of x, and the last for the intercept. */
    readonly weights: readonly (readonly number[])[];
    readonly stdErrors: readonly number[];
    /** Standard deviation of the residuals. */
    readonly stdError: number;
  }
}
