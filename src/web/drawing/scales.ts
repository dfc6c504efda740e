/** Scales of the drawing: one for all sides, one for all heights, and what each pixel of a hand is worth. */
import type { DrawnShape } from "./shapeOf.ts";

export interface DrawingScale {
  /** Outer width of the drawing [px]. */
  readonly width: number;
  /** No room for the longer words beside values. */
  readonly terse: boolean;
  /** Horizontal middle of section and plan [px]. */
  readonly middle: number;
  /** Sides [px/m]. */
  readonly perMeter: number;
  /** Heights of the section are drawn so many times as large as sides [-]. */
  readonly raised: number;
  /** Width of the frame beside the diaphragm [px]. */
  readonly land: number;
  readonly section: {
    readonly height: number;
    /** Underside of the sheet. */
    readonly underside: number;
    /** Height of the front plate and of the room behind it [px]; null: no front. */
    readonly front: { readonly plate: number; readonly room: number } | null;
    /** Height of the room behind the wall [px]; null: no back. */
    readonly back: number | null;
    /** Whether a hole's length or a cavity's depth had to be drawn other than to scale. */
    readonly cut: boolean;
  };
  readonly plan: { readonly height: number; readonly middle: number };
}

/** Room for the values at the right [px]. */
const narrow = 440;
/** Height that diaphragm and film together aim at [px]. */
const heightWanted = 84;

/** Heights of front plate and cavities that one can still see, and that leave room for the rest [px]. */
const shown = { plate: [8, 26], frontRoom: [14, 44], backRoom: [30, 64] } as const;
/** Room above everything, where the sound comes from [px]. */
const above = 38;
/** Thickness of the wall behind the film [px], and least distance of two values beside the section. */
export const wallHeight = 12;
export const labelStep = 28;

export function drawingScale(shape: DrawnShape, width: number): DrawingScale {
  const { across, along, thickness, film, layers, front, back } = shape;
  const terse = width < narrow;
  const beside = terse ? 84 : 128;
  const room = Math.max(width - beside, 80);
  const land = Math.max(18, Math.min(34, 0.1 * room));
  // Room to grow by a fifth before the scale has to change.
  const perMeter = Math.min((room - 2 * land - 12) / (1.2 * across), 250 / (1.2 * along));
  const sheet = thickness + layers.reduce((sum, layer) => sum + layer.thickness, 0);
  const raised = niceBelow(heightWanted / ((sheet + (film?.gap ?? thickness)) * perMeter));
  const up = perMeter * raised;
  let cut = false;
  const fitted = (height: number, [least, most]: readonly [number, number]): number => {
    const wanted = height * perMeter;
    if (wanted < least || wanted > most) cut = true;
    return Math.min(Math.max(wanted, least), most);
  };
  const deep = (volume: number | null, range: readonly [number, number]) =>
    volume === null ? range[0] : fitted(volume / (across * along), range);
  const longest = Math.max(...(front?.holes ?? []).map(({ length }) => length), 0);
  const frontHeights =
    front === null ? null : { plate: fitted(longest, shown.plate), room: deep(front.volume, shown.frontRoom) };
  const backHeight = back === null ? null : deep(back.volume, shown.backRoom);
  const underside =
    above + (frontHeights === null ? 12 : frontHeights.plate + frontHeights.room) + Math.max(sheet * up, 8);
  const behind = Math.max(1.35 * (film?.gap ?? 0) * up + wallHeight, 40) + (backHeight ?? 0);
  const planHeight = 1.2 * along * perMeter + 2 * land;
  return {
    width,
    terse,
    middle: room / 2,
    perMeter,
    raised,
    land,
    section: {
      height: Math.max(
        underside + behind + 46,
        (shape.body === null ? above : 20) + labelStep * (labelCount(shape) - 1) + 30,
      ),
      underside,
      front: frontHeights,
      back: backHeight,
      cut,
    },
    plan: { height: planHeight, middle: planHeight / 2 },
  };
}

/** Values that stand beside the section. */
const labelCount = ({ film, front, back, body }: DrawnShape): number =>
  1 +
  (film === null ? 0 : film.holes === null ? 1 : 2) +
  (front === null ? 0 : Math.min(front.holes.length, 1) + (front.volume === null ? 0 : 1)) +
  (back === null ? 0 : (back.volume === null ? 0 : 1) + (back.vent === null ? 0 : 1) + (back.leak ? 1 : 0)) +
  (body === null ? 0 : 1);

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
