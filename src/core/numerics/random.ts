import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** Numbers from 0 to 1 in a sequence fixed by the seed. */
export function seededUniform(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  // The first few follow the seed too closely.
  for (let i = 0; i < 8; i++) generator.next();
  return () => (generator.next() >>> 0) / 2 ** 32;
}
