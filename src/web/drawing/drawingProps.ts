/** What section and plan are given alike. */
import type { Part } from "../bench/fieldList.ts";
import type { Work } from "../shell/work.ts";
import type { drawingScale } from "./scales.ts";
import type { DrawnShape } from "./shapeOf.ts";

export interface DrawingProps {
  readonly bench: Work;
  readonly shape: DrawnShape;
  readonly scale: ReturnType<typeof drawingScale>;
  readonly touch: (part: Part) => void;
}
