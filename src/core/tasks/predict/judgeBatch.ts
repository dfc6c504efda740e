/**
 * What is made ready once for many microphones that are held against one brief: a span that answers for all of a kind
 * (shapeSpan.ts), and the numbers that vary smoothly between them (figures.ts).
 */
import { alone, kindOf } from "../../microphone/span/batch.ts";
import { type Figures, type FiguresHere, figuresAt, mapFigures, type Placed } from "../../microphone/span/figures.ts";
import type { Judgeable, RangeOf } from "../../microphone/span/judgeable.ts";
import { leanResolution } from "../../microphone/span/lean.ts";
import { type ShapeSpan, spanShapes } from "../../microphone/span/shapeSpan.ts";
import { judgedInSpan } from "../../microphone/span/spanned.ts";
import { firstFrequency, type Resolution } from "../../microphone/system/prepare.ts";
import { isBuckled } from "../../parts/diaphragm/modes.ts";
import type { Brief } from "../../project/brief.ts";
import { testedOf } from "./strengthFor.ts";

/** Plain data but for the counter, so that it travels to workers. */
export interface JudgeBatch {
  /** null: nothing spans these, each is answered alone. */
  readonly span: ShapeSpan | null;
  readonly kind: string;
  readonly figures: Figures | null;
  /** How many were answered in the span, and how many alone because the span does not reach, or is of another kind. */
  readonly count: { spanned: number; fallBack: number; alone: number };
}

/** Of the curve: a hundredth of what a band edge needs. */
export const curveTolerance = 1e-4;

/** Range of a curve [Hz] as `predict` takes it, so that open ends are the same. */
export const judgedRange =
  ({ reference, band }: Brief, frequencies: readonly number[] = []): RangeOf =>
  (first) => {
    const inReach = frequencies.filter((frequency) => frequency < 12 * first);
    return {
      from: Math.min(10, first / 100, reference / 2, (band?.from ?? 20) / 2, ...inReach),
      to: Math.max(2.2 * first, 1.5 * (band?.to ?? 0), 1.5 * reference, ...inReach),
    };
  };

/** Devices that tell of all others. */
export interface Telling {
  /** The design itself, or one in the middle. */
  readonly first: Placed;
  /** Devices that the span is made of; they should reach as far as any that will be asked for. */
  readonly members: readonly Placed[];
  /** Devices by which the smooth numbers are mapped and the light's influence is spanned, as far; each beginning of the list too. */
  readonly mapped: readonly Placed[];
}

/** Devices of a list that tell of all between them. */
export const tellingOf = (first: Placed, list: readonly Placed[]): Telling => ({
  first,
  members: spaced(list, 16),
  mapped: spaced(list, 47),
});

/** Remainders that are left to the estimate, over those of a span that answers to 1e-4. */
const looser = 10;

/** Makes ready; those of another kind and buckled ones are left out. Yields after each that is solved. */
export function* prepareJudging(
  { first, members, mapped }: Telling,
  brief: Brief,
): Generator<{ readonly done: number; readonly of: number }, JudgeBatch> {
  const count = { spanned: 0, fallBack: 0, alone: 0 };
  const kind = kindOf(first.microphone);
  const fits = ({ microphone }: Placed) => kindOf(microphone) === kind && !isBuckled(microphone.diaphragm, 8);
  const spanning = [first, ...members].filter(fits).map(({ microphone }) => microphone);
  const telling = [first, ...mapped].filter(fits);
  if (kind === alone || spanning.length < 4) return { span: null, kind: alone, figures: null, count };
  const of = spanning.length + 2 * telling.length;
  const rangeOf = judgedRange(brief);
  const tone = brief.loudest?.at ?? brief.reference;
  const reach = ({ diaphragm }: Placed["microphone"]) =>
    1.1 * Math.max(rangeOf(firstFrequency(diaphragm) / (2 * Math.PI)).to, 2 * tone);
  const beside = telling.map(({ microphone }) => microphone);
  const detail = commonResolution(spanning);
  const span = yield* counted(spanShapes(spanning, reach, beside, { detail, looser }), { from: 0, of });
  const asked = { modulus: testedOf(first.microphone)?.modulus ?? null, series: true, heat: true };
  const figures = yield* counted(mapFigures(telling, asked), { from: spanning.length, of });
  return { span, kind, figures, count };
}

function* counted<T>(
  work: Generator<{ readonly done: number }, T>,
  { from, of }: { readonly from: number; readonly of: number },
): Generator<{ readonly done: number; readonly of: number }, T> {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
    yield { done: from + step.value.done, of };
  }
}

/** So many of a list at even steps, each once. */
const spaced = <T>(list: readonly T[], count: number): readonly T[] =>
  list.length <= count ? list : Array.from({ length: count }, (_, i) => list[Math.floor((i * list.length) / count)]!);

/** The functions of lean.ts that all of some devices need. */
function commonResolution(microphones: readonly Placed["microphone"][]): Resolution {
  const all = microphones.map(leanResolution);
  const most = (read: (one: Resolution) => number) => Math.max(...all.map(read));
  return {
    functions: { across: most((r) => r.functions.across), along: most((r) => r.functions.along) },
    fine: { across: most((r) => r.fine.across), along: most((r) => r.fine.along) },
    filmTerms: most((r) => r.filmTerms),
  };
}

/** A device in the span, with its smooth numbers; null: ask for it alone. */
export function placedIn(
  { span, kind, figures, count }: JudgeBatch,
  placed: Placed,
  brief: Brief,
  frequencies: readonly number[],
): { readonly device: Judgeable; readonly figures: FiguresHere } | "buckled" | null {
  const { microphone } = placed;
  if (span === null || figures === null || kindOf(microphone) !== kind) {
    count.alone++;
    return null;
  }
  const device = judgedInSpan(span, microphone, {
    rangeOf: judgedRange(brief, frequencies),
    tolerance: curveTolerance,
  });
  if (device === "buckled") return device;
  if (device === null) {
    count.fallBack++;
    return null;
  }
  count.spanned++;
  return { device, figures: figuresAt(figures, placed, device.volume) };
}
