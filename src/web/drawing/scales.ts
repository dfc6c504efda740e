/** Scales of the drawing: one for all sides, one for all heights, and what each pixel of a hand is worth. */
import type { DrawnShape } from "./shapeOf.ts";

export interface DrawingScale {
  /** Outer width of the drawing [px]. */
  readonly width: number;
  /** Horizontal middle of section and plan [px]. */
  readonly middle: number;
  /** Sides [px/m]. */
  readonly perMeter: number;
  /** Heights of the section are drawn so many times as large as sides [-]. */
  readonly raised: number;
  /** Width of the frame beside the diaphragm [px]. */
  readonly land: number;
  readonly section: { readonly height: number; readonly underside: number };
  readonly plan: { readonly height: number; readonly middle: number };
}

/** Room for the values at the right [px]. */
const narrow = 440;
/** Height that diaphragm and film together aim at [px]. */
const heightWanted = 84;

export function drawingScale({ across, along, thickness, film }: DrawnShape, width: number): DrawingScale {
  const beside = width < narrow ? 84 : 128;
  const room = Math.max(width - beside, 80);
  const land = Math.max(18, Math.min(44, 0.1 * room));
  // Room to grow by a fifth before the scale has to change.
  const perMeter = Math.min((room - 2 * land - 12) / (1.2 * across), 280 / (1.2 * along));
  const heights = thickness + (film?.gap ?? thickness);
  const raised = niceBelow(heightWanted / (heights * perMeter));
  const gap = (film?.gap ?? 0) * perMeter * raised;
  const underside = 50 + Math.max(thickness * perMeter * raised, 8);
  const planHeight = 1.2 * along * perMeter + 2 * land;
  return {
    width,
    middle: room / 2,
    perMeter,
    raised,
    land,
    section: { height: underside + Math.max(1.35 * gap + 12, 52) + 46, underside },
    plan: { height: planHeight, middle: planHeight / 2 },
  };
}

/** 1, 2 or 5 times a power of ten, not above; 1 at least. */
function niceBelow(value: number): number {
  if (value <= 1) return 1;
  const power = 10 ** Math.floor(Math.log10(value));
  return ([5, 2, 1].find((digit) => digit * power <= value) ?? 1) * power;
}

/** Static shape across the diaphragm, 1 in the middle: slope-free at clamped edges, free to turn at supported ones. */
export function bentShape(edge: string): (share: number) => number {
  const clamped = (s: number) => (s * s < 0.25 ? Math.cos(Math.PI * s) ** 2 : 0);
  const supported = (s: number) => (s * s < 0.25 ? Math.cos(Math.PI * s) : 0);
  if (edge === "clamped") return clamped;
  return edge === "supported" ? supported : (s) => (clamped(s) + supported(s)) / 2;
}
