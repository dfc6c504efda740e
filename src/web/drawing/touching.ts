/** Parts of the drawing that are touched: one listener for a whole drawing, which keys don't need (fields and words do the same). */
import { isPart, type Part } from "../bench/fieldList.ts";

/** Calls back with the part whose shape was touched (`data-touch`), and with a guide to turn over (`data-flip`). */
export function hearTouches(drawing: SVGSVGElement, touch: (part: Part) => void, flip: (path: string) => void): void {
  drawing.addEventListener("click", ({ target }) => {
    if (!(target instanceof Element)) return;
    const shape = target.closest<SVGElement>("[data-touch]");
    const part = shape?.dataset["touch"];
    if (isPart(part)) touch(part);
    const guide = shape?.dataset["flip"];
    if (guide !== undefined) flip(guide);
  });
}
