/** Guided modes of a channel: effective indices and fields, from the field matrices by Arnoldi's method. */
import { arnoldi } from "../../../numerics/arnoldi.ts";
import { type Band, factorBand, solveBand } from "../../../numerics/bandLu.ts";
import type { CrossSection, Polarization } from "./crossSection.ts";
import { type Component, couple, massOf, ownBlock, type Sampled, type Unknowns, unknownsOf } from "./fieldMatrices.ts";
import { type Decay, decayOf, sampleSection } from "./modeGrid.ts";

/**
 * "vectorial": both transverse components, every interface condition: exact up to the grid. "semivectorial": the main one alone;
 * against the vectorial index its error is of second order in the coupling (docs/theory/modes.md prints it for some guides).
 * "scalar": weak guidance.
 */
export type FieldKind = "vectorial" | "semivectorial" | "scalar";

export interface Mode {
  readonly polarization: Polarization;
  /** Effective index N [-]. */
  readonly index: number;
  /** Whether the main field is odd across. */
  readonly odd: boolean;
  /** Main magnetic component at the grid's nodes, x fastest, zeros on the outer edges included. */
  readonly field: Float64Array;
  readonly sampled: Sampled;
  /** Wavenumber that the grid's lengths are multiplied with [1/m]. */
  readonly wavenumber: number;
  /** Index on the coarse grid that was solved before, of degree 3 [-]: how far it lies off bounds this one's error; null: this is that grid's. */
  readonly coarser: number | null;
  /** Applications of the operator, and the residual that they ended with. */
  readonly steps: number;
  readonly residual: number;
}

export interface ModeQuestion {
  readonly wavelength: number;
  readonly polarization: Polarization;
  readonly field: FieldKind;
  /** Even or odd across. */
  readonly odd: boolean;
  /** At most so many modes, those of the highest index. */
  readonly count: number;
  /** Degree of the elements' polynomials. */
  readonly degree: number;
}

/**
 * Guided modes, highest index first; none where nothing is guided.
 *
 * A coarse grid finds how far the fields reach, until it holds them; the fine one then starts close to the answer.
 */
export function solveModes(section: CrossSection, question: ModeQuestion): readonly Mode[] {
  const { polarization } = question;
  const [low, high] = [section.cutoff[polarization] ** 2, section.highest[polarization] ** 2];
  if (!(high > low)) return [];
  const rough: ModeQuestion = { ...question, field: coarseField(question), degree: coarseDegree };
  // Squares of index above the cut-off: the slowest decay that the grid holds, and the mode nearest to the shift.
  let held = 0.15 * (high - low);
  let top = high - low;
  let before: readonly Mode[] = [];
  for (let round = 0; round < 5; round++) {
    const shift = low + Math.min(high - low, 1.3 * top);
    const modes = modesOnGrid(section, rough, { decay: decayFor(section, polarization, held), shift, within: 1e-5 });
    before = modes;
    const squares = modes.map(({ index }) => index ** 2 - low);
    const slowest = squares.at(-1);
    if (slowest === undefined) {
      // Nothing guided on this grid: a wider one may still find a mode just above the cut-off.
      if (round >= 2) return [];
      held /= 8;
      continue;
    }
    top = squares[0]!;
    const ratio = Math.sqrt(slowest / held);
    // 0.8: cut where the field is e^-10 of itself; 4: more empty space than that costs resolution.
    const fits = ratio > 0.8 && ratio < 4;
    // What was asked may be no finer than this: then it is the answer.
    if (fits && question.degree <= coarseDegree && question.field === rough.field) return modes;
    held = 0.9 * slowest;
    if (fits) break;
  }
  const shift = low + Math.min(high - low, 1.3 * top);
  const fine = modesOnGrid(section, question, { decay: decayFor(section, polarization, held), shift, within: 1e-10 });
  return fine.map((mode, i) => ({ ...mode, coarser: before[i]?.index ?? null }));
}

const coarseDegree = 3;
const coarseField = ({ field }: ModeQuestion): FieldKind => (field === "vectorial" ? "semivectorial" : field);

const decayFor = (section: CrossSection, polarization: Polarization, square: number): Decay =>
  decayOf(section, polarization, Math.sqrt(section.cutoff[polarization] ** 2 + square));

const mostSteps = 90;

function modesOnGrid(
  section: CrossSection,
  question: ModeQuestion,
  { decay, shift, within }: { readonly decay: Decay; readonly shift: number; readonly within: number },
): Mode[] {
  const { polarization, odd, degree } = question;
  const wavenumber = (2 * Math.PI) / question.wavelength;
  const sampled = sampleSection(section, { polarization, wavenumber, decay, degree });
  const main = blockOf(sampled, mainComponent(question), odd, shift);
  const cutoff = section.cutoff[polarization] ** 2;
  const found = arnoldi((field) => solved(main, weighted(main, field)), guess(sampled, main.unknowns), {
    count: question.count,
    above: 1 / (shift - cutoff),
    within: question.field === "vectorial" ? 1e-6 : within,
    most: mostSteps,
  });
  const guided = found.values
    .map((value, i) => ({ square: shift - 1 / value, vector: found.vectors[i]!, residual: found.residuals[i]! }))
    .filter(({ square }) => square > cutoff)
    .slice(0, question.count);
  const modes = guided.map(
    ({ square, vector, residual }): Mode => ({
      polarization,
      index: Math.sqrt(square),
      odd,
      field: onNodes(sampled, main.unknowns, vector),
      sampled,
      wavenumber,
      coarser: null,
      steps: found.steps,
      residual,
    }),
  );
  // In a slab the components do not couple: one is exact.
  return question.field === "vectorial" && modes.length > 0 && !section.slab
    ? vectorial(sampled, main, { question, shift, cutoff, starts: guided.map(({ vector }) => vector), modes })
    : modes;
}

const mainComponent = ({ field, polarization }: ModeQuestion): Component =>
  field === "scalar" ? "scalar" : polarization === "TE" ? "z" : "x";

interface Block {
  readonly unknowns: Unknowns;
  readonly mass: Float64Array;
  readonly factor: Band;
}

function blockOf(sampled: Sampled, component: Component, odd: boolean, shift: number): Block {
  const unknowns = unknownsOf(sampled, component, odd);
  const factor = ownBlock(sampled, unknowns, shift);
  if (!factorBand(factor)) throw new Error("modes: a block shifted above the highest index is not definite");
  return { unknowns, mass: massOf(sampled, unknowns), factor };
}

const weighted = ({ mass }: Block, field: Float64Array) => field.map((value, i) => value * mass[i]!);

function solved({ factor }: Block, right: Float64Array): Float64Array {
  solveBand(factor, right);
  return right;
}

/** Both components: the other one follows the main one through the coupling, by turns until nothing moves. */
function vectorial(
  sampled: Sampled,
  main: Block,
  given: {
    readonly question: ModeQuestion;
    readonly shift: number;
    readonly cutoff: number;
    readonly starts: readonly Float64Array[];
    readonly modes: readonly Mode[];
  },
): Mode[] {
  const { question, shift, cutoff } = given;
  const minor = blockOf(sampled, main.unknowns.component === "z" ? "x" : "z", !question.odd, shift);
  const size = main.mass.length;
  const apply = (both: Float64Array): Float64Array => {
    const rightMain = weighted(main, both.subarray(0, size));
    const rightMinor = weighted(minor, both.subarray(size));
    let [here, there] = [solved(main, Float64Array.from(rightMain)), solved(minor, Float64Array.from(rightMinor))];
    for (let turn = 0; turn < 40; turn++) {
      const fromMain = couple(sampled, minor.unknowns, main.unknowns, here);
      const nextThere = solved(
        minor,
        rightMinor.map((value, i) => value - fromMain[i]!),
      );
      const fromMinor = couple(sampled, main.unknowns, minor.unknowns, nextThere);
      const next = solved(
        main,
        rightMain.map((value, i) => value - fromMinor[i]!),
      );
      const change = largestChange(next, here);
      [here, there] = [next, nextThere];
      if (change < 1e-11) break;
    }
    const result = new Float64Array(both.length);
    result.set(here);
    result.set(there, size);
    return result;
  };
  const start = new Float64Array(size + minor.mass.length);
  for (const vector of given.starts) for (let i = 0; i < size; i++) start[i]! += vector[i]!;
  const found = arnoldi(apply, start, {
    count: question.count,
    above: 1 / (shift - cutoff),
    within: 1e-10,
    most: mostSteps,
  });
  const modes: Mode[] = [];
  found.values.forEach((value, i) => {
    const square = shift - 1 / value;
    if (square <= cutoff || modes.length >= question.count) return;
    modes.push({
      ...given.modes[0]!,
      index: Math.sqrt(square),
      field: onNodes(sampled, main.unknowns, found.vectors[i]!.subarray(0, size)),
      steps: found.steps,
      residual: found.residuals[i]!,
    });
  });
  return modes;
}

function largestChange(next: Float64Array, before: Float64Array): number {
  let [change, size] = [0, 0];
  for (let i = 0; i < next.length; i++) {
    change = Math.max(change, Math.abs(next[i]! - before[i]!));
    size = Math.max(size, Math.abs(next[i]!));
  }
  return change / size;
}

/** A start that no mode is orthogonal to: more where the index is high, no symmetry in depth. */
function guess({ across, depth }: Sampled, { nx, nz, firstX }: Unknowns): Float64Array {
  const field = new Float64Array(nx * nz);
  const widthX = across.ends.at(-4) ?? across.ends.at(-1)!;
  const zero = depth.ends.findIndex((z) => z >= -1e-12);
  const widthZ = depth.ends.at(-4)! - depth.ends[zero]!;
  for (let row = 0; row < nz; row++) {
    const z = (depth.nodes[row + 1]! - 0.3 * widthZ) / widthZ;
    for (let column = 0; column < nx; column++) {
      const x = across.nodes[column + firstX]! / widthX;
      field[row * nx + column] = Math.exp(-2 * x * x - 2 * z * z) * (1 + 0.3 * z) * (firstX === 1 ? x : 1);
    }
  }
  return field;
}

function onNodes({ across, depth }: Sampled, { nx, nz, firstX }: Unknowns, free: Float64Array): Float64Array {
  const width = across.nodes.length;
  const field = new Float64Array(width * depth.nodes.length);
  for (let row = 0; row < nz; row++) {
    for (let column = 0; column < nx; column++) field[(row + 1) * width + column + firstX] = free[row * nx + column]!;
  }
  return field;
}
