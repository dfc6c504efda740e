/**
 * The project that a plane is computed for: it does not depend on where the design stands in it, so that moving the design along
 * the axes asks nothing anew.
 */
import { type ChartAxis, findPath, type Project, plainQuantity, tiesOf } from "../../core/index.ts";
import { designParts, partText } from "../shell/partText.ts";

export interface PlaneBase {
  /** Text of the project with the values of the axes in their middle. */
  readonly text: string;
  /** The same with nothing at the axes, and how the values that follow go with them. */
  readonly rest: string;
  readonly ratios: readonly number[];
}

/** Two ratios that a written value's digits make different are the same. */
const sameRatio = (a: number, b: number | undefined): boolean => b !== undefined && Math.abs(a / b - 1) < 2e-5;

export function planeBase(
  project: Project,
  axes: readonly [ChartAxis, ChartAxis],
  before: PlaneBase | null,
): PlaneBase {
  const paths = axes.map(({ path }) => path);
  const document = JSON.parse(partText(project, designParts)) as unknown;
  const emptied = structuredClone(document);
  const ratios: number[] = [];
  for (const axis of axes) {
    const middle = Math.sqrt(axis.from * axis.to);
    put(document, emptied, axis.path, middle);
    for (const { path, ratio } of tiesOf(project, axis.path, paths, { sides: true })) {
      ratios.push(ratio);
      put(document, emptied, path, middle * ratio);
    }
  }
  const rest = JSON.stringify([emptied, axes]);
  if (
    before?.rest === rest &&
    before.ratios.length === ratios.length &&
    ratios.every((one, i) => sameRatio(one, before.ratios[i]))
  )
    return before;
  return { text: JSON.stringify(document), rest, ratios };
}

function put(document: unknown, emptied: unknown, path: string, value: number): void {
  const place = findPath(path);
  if (!place.ok) return;
  const { steps, kind } = place.value;
  for (const [root, written] of [
    [document, plainQuantity(value, kind, { digits: 6 })],
    [emptied, null],
  ] as const) {
    let node = root as Record<string | number, unknown>;
    for (const step of steps.slice(0, -1)) {
      // `guide[0]` of a guide that stands alone is that guide.
      if (step === 0 && !Array.isArray(node)) continue;
      node[step] ??= {};
      node = node[step] as Record<string | number, unknown>;
    }
    const last = steps.at(-1);
    if (last !== undefined) node[last] = written !== null && kind === "number" ? Number(written) : written;
  }
}
