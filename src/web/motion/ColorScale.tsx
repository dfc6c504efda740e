/** What the colors mean, written at the ends and the middle of their scale. */
import { createEffect, createSignal, type JSX } from "solid-js";
import { colorEnd, motionWords as words } from "../../words/en/motion.ts";
import { paper } from "../shell/paper.ts";
import { type ColorOf, colorAt, cssColor, paperScale } from "./moment.ts";

const steps = [-1, -0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75, 1];

export function ColorScale(props: {
  readonly of: ColorOf;
  readonly peak: number;
  readonly mode: boolean;
}): JSX.Element {
  let bar!: SVGSVGElement;
  const [colors, setColors] = createSignal<readonly string[]>([]);
  createEffect(() => {
    paper();
    const scale = paperScale(document.body);
    setColors(steps.map((step) => cssColor(colorAt(scale, step))));
  });
  return (
    <p class="color-scale">
      <span>{words.colors[props.of]}</span>
      <span>{colorEnd(-props.peak, props.of, props.mode)}</span>
      <svg ref={bar} viewBox="0 0 90 8" preserveAspectRatio="none" aria-hidden="true">
        {steps.map((_, i) => (
          <rect x={10 * i} y="0" width="10.2" height="8" fill={colors()[i] ?? "none"} />
        ))}
      </svg>
      <span>{colorEnd(props.peak, props.of, props.mode)}</span>
    </p>
  );
}
