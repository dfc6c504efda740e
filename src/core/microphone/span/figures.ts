/**
 * Numbers beside the response that vary smoothly from device to device, so that some devices tell those of all between them:
 * where the sheet is stressed, what stretching does to the light, the power of the heat. Each with the error that devices left
 * out in turn show; where it is too large the number is computed for every device.
 */
import { cube, fourth } from "../../numerics/power.ts";
import { between, type Scattered, scattered } from "../../numerics/scattered.ts";
import { type LineSeries, largeDeflection } from "../../parts/diaphragm/largeDeflection.ts";
import { plateScales, plateShape, stretchNumbers } from "../../parts/diaphragm/shape.ts";
import { staticPlate } from "../../parts/diaphragm/statics.ts";
import { effectiveArea, type StressedArea } from "../../parts/diaphragm/weibull.ts";
import type { FlatStretch } from "../loudest/phaseSeries.ts";
import type { Microphone } from "../microphone.ts";
import { heatPower, lightPower } from "../noise/heatPower.ts";
import { lightOf } from "../noise/noise.ts";
import { restingBias } from "../rest/restingBias.ts";

/** A device and where it lies: the numbers in which it differs from the others [SI]. */
export interface Placed {
  readonly values: readonly number[];
  readonly microphone: Microphone;
}

export interface FigureQuestion {
  /** Weibull's modulus that the stressed area is counted with; null: strength is not asked. */
  readonly modulus: number | null;
  /** Whether distortion is asked, and whether noise. */
  readonly series: boolean;
  readonly heat: boolean;
}

/** Plain data, so that it travels to workers; null: too few devices. */
export interface Figures {
  readonly question: FigureQuestion;
  /** Numbers of the shape over what it depends on; the heat's over the numbers in which devices differ. */
  readonly ofShape: Scattered | null;
  readonly ofHeat: Scattered | null;
  /** Whether the errors allow to read stress and series from the map. */
  readonly stress: boolean;
  readonly series: boolean;
  /** Largest `volume` that is mapped: beyond, next to buckling, shapes change fast. */
  readonly reach: number;
}

/** Largest `volume` that is mapped, over the middle one of all; not derived. */
const reaching = 3;

/** Largest errors at devices left out: of ln stress, of ln area (its 1 / modulus counts), of the series against its mean. */
const within = { stress: 1e-3, area: 1e-2, series: 1e-2 } as const;

/** Polynomials of the stress field, and of the plate that stretches. */
const functions = 16;

/** Stress and area of a device by itself. */
export const stressedBy = ({ diaphragm }: Microphone, modulus: number): StressedArea =>
  effectiveArea(diaphragm, { modulus, functions });

/** What stretching does to a device by itself, without a static load. */
function flatStretch({ diaphragm, guides }: Microphone): FlatStretch {
  const plate = largeDeflection(diaphragm, { functions: 5, fine: 12 });
  const { linear, cubic } = plate.stiffening;
  return { cube: cubic / cube(linear), lines: guides.map(({ at }) => plate.series(at)) };
}

/** The plate at rest: deflection at the center over its mean, and F^T K^-1 F as `Judgeable` has it. */
function atRest({ diaphragm }: Microphone): { readonly centerOverMean: number; readonly volume: number } {
  const plate = staticPlate(diaphragm, { functions: 8 });
  return {
    centerOverMean: plate.deflection(0, 0) / plate.meanDeflection,
    volume: (4 * plate.meanDeflection) / plateScales(diaphragm).deflection,
  };
}

/**
 * Scales that leave numbers of the shape alone, and hardly those: next to buckling all grow with the deflection, the stretch with
 * its square, the stiffening with its fourth power.
 */
function scalesOf({ diaphragm }: Microphone, volume: number) {
  const { across: a, along: b, thickness: h } = diaphragm;
  const { perPressure } = stretchNumbers(diaphragm);
  return {
    stress: (a / h) ** 2 * volume,
    area: a * b,
    straining: ((h * h) / (a * a)) * (perPressure * volume) ** 2,
    cubing: ((4 * h) / (a * a)) * cube(perPressure) * fourth(volume),
    stiffening: perPressure ** 2 * cube(volume),
  };
}

/** What the numbers of a shape depend on, without dimension; edges and tensions drawn together where they are large. */
function shapeOf({ diaphragm, guides }: Microphone): number[] {
  const { aspect, mixed, ratio, sides, ends, tensionAcross, tensionAlong } = plateShape(diaphragm);
  const held = (edge: number) => (edge === Number.POSITIVE_INFINITY ? 1 : edge / (edge + 10));
  const { mu, ratios } = stretchNumbers(diaphragm);
  return [
    Math.log(aspect),
    mixed,
    ratio,
    held(sides),
    held(ends),
    Math.asinh(tensionAcross / 50),
    Math.asinh(tensionAlong / 50),
    mu,
    ratios.c12,
    ratios.c22,
    ratios.c66,
    ...guides.map(({ at }) => (2 * at) / diaphragm.across),
  ];
}

function numbersOf(microphone: Microphone, { modulus, series }: FigureQuestion): number[] {
  const { centerOverMean, volume } = atRest(microphone);
  const scales = scalesOf(microphone, volume);
  const numbers = [centerOverMean];
  if (modulus !== null) {
    const { largest, area } = stressedBy(microphone, modulus);
    numbers.push(Math.log(largest.stress / scales.stress), Math.log(area / scales.area));
  }
  if (series) {
    const { lines, cube: stiffening } = flatStretch(microphone);
    for (const { quadratic, cubic } of lines) {
      numbers.push(quadratic.stretchX / scales.straining, quadratic.stretchY / scales.straining);
      numbers.push(cubic.xx / scales.cubing, cubic.yy / scales.cubing);
    }
    numbers.push(stiffening / scales.stiffening);
  }
  return numbers;
}

/** Coordinates of the heat: logarithms of what is above 0. */
const heatPlace = (values: readonly number[]): number[] => values.map((value) => (value > 0 ? Math.log(value) : value));

/**
 * Maps the numbers of some devices, and the heat of as few of them, from the first on, as its share in the noise allows: each
 * beginning of the list should reach as far as all of it. Yields after each device.
 */
export function* mapFigures(
  placed: readonly Placed[],
  question: FigureQuestion,
): Generator<{ readonly done: number; readonly of: number }, Figures> {
  const volumes = placed.map(({ microphone }) => atRest(microphone).volume);
  const reach = reaching * [...volumes].sort((a, b) => a - b)[placed.length >> 1]!;
  const mapped = placed.filter((_, i) => volumes[i]! <= reach).map(({ microphone }) => microphone);
  const lists: number[][] = [];
  for (const microphone of mapped) {
    lists.push(numbersOf(microphone, question));
    yield { done: lists.length, of: 2 * placed.length };
  }
  const columns = (lists[0] ?? []).map((_, k) => lists.map((list) => list[k]!));
  const ofShape = scattered(mapped.map(shapeOf), columns);
  const ofHeat = question.heat ? yield* heatMap(placed) : null;
  return { question, ofShape, ofHeat, reach, ...trusted(ofShape, columns, question) };
}

/** Error of the noise level up to which mapped heat is good enough [dB]. */
export const noiseWithinDb = 0.02;

/** Error of a noise level by an error of the heat [dB]. */
export const noiseErrorDb = ({ power, error }: { power: number; error: number }, byLight: number): number =>
  ((10 / Math.LN10) * power * error) / (byLight + power);

/** Devices that the heat's map begins with; twice as many each time that its error is too large. */
const begin = 8;
/** Error that the map aims at, over the one that is good enough: between its devices the share may be larger. */
const aimed = 0.25;

/** ln heat over the numbers in which devices differ; null: the noise is not known, or too few devices. */
function* heatMap(
  placed: readonly Placed[],
): Generator<{ readonly done: number; readonly of: number }, Scattered | null> {
  const signs = ({ values }: Placed) => values.map((value) => value > 0).join();
  if (new Set(placed.map(signs)).size > 1) return null;
  const known: { readonly power: number; readonly byLight: number }[] = [];
  let map: Scattered | null = null;
  for (let count = begin; known.length < placed.length; count *= 2) {
    for (const { microphone } of placed.slice(known.length, count)) {
      const { light } = lightOf(microphone, restingBias(microphone));
      if (light === null) return null;
      known.push({ power: heatPower(microphone), byLight: lightPower(light) });
      yield { done: placed.length + known.length, of: 2 * placed.length };
    }
    const logs = known.map(({ power }) => Math.log(Math.max(Number.MIN_VALUE, power)));
    map = scattered(
      known.map((_, i) => heatPlace(placed[i]!.values)),
      [logs],
    );
    const error = map?.errors[0] ?? Number.POSITIVE_INFINITY;
    const worst = Math.max(...known.map(({ power, byLight }) => noiseErrorDb({ power, error }, byLight)));
    if (worst < aimed * noiseWithinDb) break;
  }
  return map;
}

/** Whether the errors at devices left out are small enough. */
function trusted(
  map: Scattered | null,
  columns: readonly (readonly number[])[],
  { modulus, series }: FigureQuestion,
): { readonly stress: boolean; readonly series: boolean } {
  if (map === null) return { stress: false, series: false };
  const { errors } = map;
  const from = modulus === null ? 1 : 3;
  const meanSquare = (k: number) => columns[k]!.reduce((sum, value) => sum + value ** 2, 0) / columns[k]!.length;
  // Both strains of a line are read, and both curvatures: what one lacks the other has.
  const pairs = Array.from({ length: Math.floor((columns.length - from) / 2) }, (_, i) => from + 2 * i);
  const last = columns.length - 1;
  const stiff = last < from || errors[last]! <= within.series * Math.sqrt(meanSquare(last));
  const small = pairs.every(
    (k) => Math.hypot(errors[k]!, errors[k + 1]!) <= within.series * Math.sqrt(meanSquare(k) + meanSquare(k + 1)),
  );
  const stress = modulus === null || (errors[1]! < within.stress && errors[2]! < within.area);
  return { stress, series: series && small && stiff };
}

/** The numbers of one device among those that were mapped; null: not mapped well enough, compute them. */
export interface FiguresHere {
  readonly centerOverMean: number;
  readonly stressed: StressedArea | null;
  readonly stretch: FlatStretch | null;
  /** Power of the heat [rad^2], and its relative error. */
  readonly heat: { readonly power: number; readonly error: number } | null;
}

/** `volume`: that of the device (judgeable.ts). */
export function figuresAt(
  { question, ofShape, ofHeat, stress, series, reach }: Figures,
  { values, microphone }: Placed,
  volume: number,
): FiguresHere {
  const heat = ofHeat && { power: Math.exp(between(ofHeat, heatPlace(values))[0]!), error: ofHeat.errors[0]! };
  if (ofShape === null || volume > reach)
    return { centerOverMean: atRest(microphone).centerOverMean, stressed: null, stretch: null, heat };
  const numbers = between(ofShape, shapeOf(microphone));
  const scales = scalesOf(microphone, volume);
  const from = question.modulus === null ? 1 : 3;
  // Where on the plate is not mapped: no verdict asks for it.
  const largest = {
    stress: Math.exp(numbers[1] ?? 0) * scales.stress,
    face: "front",
    x: 0,
    y: 0,
    axis: "across",
  } as const;
  const lines = microphone.guides.map((_, i): LineSeries => {
    const [x = 0, y = 0, xx = 0, yy = 0] = numbers.slice(from + 4 * i, from + 4 * i + 4);
    return {
      linear: { xx: 0, yy: 0 },
      quadratic: { stretchX: x * scales.straining, stretchY: y * scales.straining },
      cubic: { xx: xx * scales.cubing, yy: yy * scales.cubing },
    };
  });
  return {
    centerOverMean: numbers[0]!,
    stressed: stress && from === 3 ? { area: Math.exp(numbers[2]!) * scales.area, largest } : null,
    stretch: series ? { lines, cube: (numbers[from + 4 * lines.length] ?? 0) * scales.stiffening } : null,
    heat,
  };
}
