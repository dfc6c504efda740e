/** The kernel: one 64 x 64 complex symmetric system factored and solved, the yardstick of every other row. */
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { complexVector, factorSymmetric, solveFactored, symmetricWork } from "../src/core/numerics/complexSymmetric.ts";
import type { Repeated } from "./task.ts";

const size = 64;

export const kernel: Repeated = {
  kind: "repeated",
  name: "kernel: 64 x 64 complex symmetric solve",
  make: () => {
    const random = xoroshiro128plus(64);
    const re = new Float64Array(size * size);
    const im = new Float64Array(size * size);
    for (let i = 0; i < size; i++) {
      for (let j = 0; j <= i; j++) {
        re[i * size + j] = re[j * size + i] = uniformFloat64(random) - 0.5 + (i === j ? size : 0);
        im[i * size + j] = im[j * size + i] = uniformFloat64(random) - 0.5;
      }
    }
    const work = symmetricWork(size);
    const x = complexVector(size);
    return (i) => {
      re[0] = size + 1e-6 * i;
      x.re.fill(1);
      x.im.fill(0);
      factorSymmetric(work, re, im);
      solveFactored(work, x);
    };
  },
};
