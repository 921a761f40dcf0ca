// ml-regression brings no types; the tests use this much of it.
declare module "ml-regression" {
  export class SimpleLinearRegression {
    constructor(x: readonly number[], y: readonly number[]);
    readonly slope: number;
    readonly intercept: number;
  }
}
