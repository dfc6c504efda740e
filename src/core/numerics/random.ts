import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

const twoTo32 = 4294967296;

/** Numbers from 0 to 1 in a sequence fixed by the seed. */
export function seededUniform(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  // The first few follow the seed too closely.
  for (let i = 0; i < 8; i++) generator.next();
  return () => (generator.next() >>> 0) / twoTo32;
}

/** Standard normal numbers in a sequence fixed by the seed: the polar method, Marsaglia 1964 (from memory, to be confirmed). */
export function seededNormal(seed: number): () => number {
  const uniform = seededUniform(seed);
  let kept: number | null = null;
  return () => {
    if (kept !== null) {
      const value = kept;
      kept = null;
      return value;
    }
    for (;;) {
      const [u, v] = [2 * uniform() - 1, 2 * uniform() - 1];
      const squared = u * u + v * v;
      if (squared >= 1 || squared === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(squared)) / squared);
      kept = v * factor;
      return u * factor;
    }
  };
}
