/** The elements for one cross-section: cut at its lines, fine in the core, long where the field only decays. */
import type { CrossSection, Polarization } from "./crossSection.ts";
import { cut, elementsOf } from "./elements.ts";
import type { Sampled } from "./fieldMatrices.ts";

/**
 * Decay lengths of the field in substrate and cover that the grid must hold, for a mode of index N [-], times 1 / k.
 *
 *     1 / sqrt(N^2 - n^2)
 */
export interface Decay {
  readonly substrate: number;
  readonly cover: number;
}

export function decayOf(section: CrossSection, polarization: Polarization, index: number): Decay {
  const away = (other: number) => 1 / Math.sqrt(Math.max(index ** 2 - other ** 2, 1e-9));
  return { substrate: away(section.cutoff[polarization]), cover: away(section.cover) };
}

/** Ends of a field that decays, in decay lengths: short elements first; beyond the last, e^-12 of it is cut off. */
const tail = [1.5, 5, 12];

/** The same for fields of any decay up to that length: elements that grow from a share of it, five lengths in all. */
function anyTail(shortest: number): readonly number[] {
  const ends = [shortest];
  for (let end = shortest; end < 5; ) {
    end = Math.min(5, 3.5 * end);
    ends.push(end);
  }
  return ends;
}

/** The section on a grid; lengths times the wavenumber k. */
export function sampleSection(
  section: CrossSection,
  options: {
    readonly polarization: Polarization;
    readonly wavenumber: number;
    readonly decay: Decay;
    readonly degree: number;
    /** Holds fields that decay faster as well; false: made for one decay. */
    readonly anyDecay?: boolean;
  },
): Sampled {
  const { polarization, wavenumber: k, decay, degree, anyDecay = false } = options;
  const contrast = section.highest[polarization] ** 2 - section.cutoff[polarization] ** 2;
  // Four over the largest transverse wavenumber: a little more than a half wave to an element.
  const longest = 4 / Math.sqrt(contrast);
  const scaled = (lines: readonly number[]) => lines.map((line) => line * k);
  const ends = (length: number) => (anyDecay && length > longest ? anyTail(longest / length) : tail);
  const beyond = (last: number) => ends(decay.substrate).map((part) => last + part * decay.substrate);
  const xLines = cut([0, ...scaled(section.across)], longest);
  const zLines = cut([0, ...scaled(section.depth).filter((z) => z > 0)], longest);
  const across = elementsOf(section.slab ? [0, 1] : [...xLines, ...beyond(xLines.at(-1)!)], degree);
  const depth = elementsOf(
    [
      ...ends(decay.cover)
        .map((part) => -part * decay.cover)
        .reverse(),
      ...zLines,
      ...beyond(zLines.at(-1)!),
    ],
    degree,
  );
  const side = degree + 1;
  const [countX, countZ] = [across.ends.length - 1, depth.ends.length - 1];
  const permittivity = new Float64Array(countX * countZ * side * side);
  for (let ez = 0; ez < countZ; ez++) {
    for (let ex = 0; ex < countX; ex++) {
      for (let c = 0; c < side; c++) {
        const z = inside(depth.nodes[ez * degree + c]!, depth.ends[ez]!, depth.ends[ez + 1]!) / k;
        for (let a = 0; a < side; a++) {
          const x = inside(across.nodes[ex * degree + a]!, across.ends[ex]!, across.ends[ex + 1]!) / k;
          const n = z < 0 ? section.cover : section.index(x, z, polarization);
          permittivity[((ez * countX + ex) * side + c) * side + a] = n * n;
        }
      }
    }
  }
  return { across, depth, permittivity };
}

/** A node on an element's end is asked a hair inside it, so that it gets this element's side of a jump. */
const inside = (at: number, from: number, to: number) => at + 1e-9 * ((from + to) / 2 - at);
