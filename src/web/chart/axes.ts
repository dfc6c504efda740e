/** The two axes of the plane: which values, between which ends; they stay while the design moves. */
import { createSignal, untrack } from "solid-js";
import { axisAround, type ChartAxis, findPath, type Project, readQuantity } from "../../core/index.ts";

export interface AxisChoice {
  readonly path: () => string;
  /** null: the value has no number above zero, and no ends were typed. */
  readonly axis: () => ChartAxis | null;
  readonly choose: (path: string) => void;
  /** Takes typed ends; false: they can't be taken. */
  readonly setEnds: (from: string, to: string) => boolean;
}

export function createAxis(project: () => Project, first: string): AxisChoice {
  const [path, setPath] = createSignal(first);
  const [ends, setEnds] = createSignal<{ readonly from: number; readonly to: number } | null>(null);
  // The ends are set about the design once, and stay while it moves.
  const around = new Map<string, ChartAxis>();
  function aboutDesign(): ChartAxis | null {
    const before = around.get(path());
    if (before !== undefined) return before;
    const found = axisAround(project(), path());
    if (!found.ok) return null;
    around.set(path(), found.value);
    return found.value;
  }
  return {
    path,
    axis: () => {
      const typed = ends();
      return typed === null ? aboutDesign() : { path: path(), ...typed };
    },
    choose: (next) => {
      setEnds(null);
      setPath(next);
    },
    setEnds: (from, to) => {
      const place = findPath(untrack(path));
      if (!place.ok) return false;
      const [low, high] = [from, to].map((text) => readQuantity(text, place.value.kind, []));
      if (!low?.ok || !high?.ok || !(low.value > 0 && high.value > low.value)) return false;
      setEnds({ from: low.value, to: high.value });
      return true;
    },
  };
}
