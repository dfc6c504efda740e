/** Where the parts of the light's way lie on the sheet [px]. */

export interface Way {
  readonly kind: "polarimetric" | "interferometric";
  readonly outputs: "one" | "both";
  /** Words as written. */
  readonly laser: string;
  readonly polarizer: string;
  readonly analyzer: string;
  readonly bends: string;
  readonly length: string;
  /** Side of the diaphragm along the guide [m]. */
  readonly along: number;
  /** Length of guide between the polarizers [m]; null: not known. */
  readonly between: number | null;
  readonly face: "front" | "back";
}

type Span = readonly [from: number, to: number];

export interface LaidWay {
  readonly height: number;
  /** Polarizer and analyzer, or where the arms part and meet. */
  readonly ends: Span;
  readonly chip: Span;
  /** The stretch of diaphragm. */
  readonly window: Span;
  readonly sheet: Span;
  readonly frame: number;
  /** The light's line, and that of another arm. */
  readonly light: number;
  readonly top: number;
  /** Dimension lines. */
  readonly bends: number;
  readonly between: number;
}

/** Light enters and leaves by that much fiber. */
const fiber = 48;
const sheetTop = 40;
const sheetHeight = 12;
const frameHeight = 26;

/** The length between the polarizers fills the room that the fibers leave; the diaphragm's stretch is drawn on the same scale. */
export function layWay({ along, between, face }: Pick<Way, "along" | "between" | "face">, width: number): LaidWay {
  const ends: Span = [fiber, width - fiber];
  const length = Math.max(between ?? along, along);
  const half = ((ends[1] - ends[0]) * (along / length)) / 2;
  const middle = width / 2;
  const sheet: Span = [sheetTop, sheetTop + sheetHeight];
  const bends = sheet[1] + frameHeight + 14;
  return {
    height: bends + 74,
    ends,
    chip: [ends[0] + 6, ends[1] - 6],
    window: [Math.max(middle - half, ends[0] + 12), Math.min(middle + half, ends[1] - 12)],
    sheet,
    frame: frameHeight,
    light: face === "front" ? sheet[0] + 3 : sheet[1] - 3,
    top: sheet[0] - 16,
    bends,
    between: bends + 32,
  };
}
