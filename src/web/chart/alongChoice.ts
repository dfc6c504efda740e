/** One value to go along, and the number that is looked at. */
import { createSignal, untrack } from "solid-js";
import { type CutRange, findPath, type Measure, type Project, rangeAround, readQuantity } from "../../core/index.ts";

export interface AlongChoice {
  readonly path: () => string;
  readonly measure: () => Measure;
  /** null: the value has no range of its own, and no ends were typed. */
  readonly range: () => CutRange | null;
  readonly choose: (path: string, measure?: Measure) => void;
  readonly setMeasure: (measure: Measure) => void;
  /** Takes typed ends; false: they can't be taken. */
  readonly setEnds: (from: string, to: string) => boolean;
}

export function createAlong(project: () => Project): AlongChoice {
  const [path, setPath] = createSignal("microphone.film.gap");
  const [measure, setMeasure] = createSignal<Measure>("damping");
  const [ends, setEnds] = createSignal<CutRange | null>(null);
  // The ends are set about the design once, and stay while it moves.
  const around = new Map<string, CutRange>();
  function aboutDesign(): CutRange | null {
    const before = around.get(path());
    if (before !== undefined) return before;
    const found = rangeAround(project(), path());
    if (!found.ok) return null;
    around.set(path(), found.value);
    return found.value;
  }
  return {
    path,
    measure,
    range: () => ends() ?? aboutDesign(),
    choose: (next, wanted) => {
      setEnds(null);
      setPath(next);
      if (wanted !== undefined) setMeasure(wanted);
    },
    setMeasure: (wanted) => setMeasure(wanted),
    setEnds: (from, to) => {
      const here = untrack(path);
      const place = findPath(here);
      if (!place.ok) return false;
      const [low, high] = [from, to].map((text) => readQuantity(text, place.value.kind, []));
      if (!low?.ok || !high?.ok || !(high.value > low.value)) return false;
      // A wide range above zero is looked at in equal ratios, all else in equal steps.
      const bent = low.value > 0 && high.value / low.value >= 3 && place.value.kind !== "temperature";
      setEnds({ path: here, from: low.value, to: high.value, scale: bent ? "log" : "linear" });
      return true;
    },
  };
}
