declare module "fft.js" {
  /** Complex transform of 2^n points; complex lists are re, im by turns. */
  export default class FFT {
    constructor(size: number);
    /** cos and -sin of 2 pi k / size by turns. */
    readonly table: number[];
    createComplexArray(): number[];
    transform(out: number[] | Float64Array, data: ArrayLike<number>): void;
    inverseTransform(out: number[] | Float64Array, data: ArrayLike<number>): void;
  }
}
