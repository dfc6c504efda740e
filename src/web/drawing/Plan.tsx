/** Plan from the side of the sound, to scale. */
import { createMemo, For, type JSX, Show } from "solid-js";
import { benchWords as words } from "../../words/en/bench.ts";
import { problemsAt } from "../shell/work.ts";
import { Dimension } from "./Dimension.tsx";
import type { DrawingProps } from "./drawingProps.ts";
import { guideGrip, sideGrip } from "./grips.ts";
import { Ring } from "./Ring.tsx";
import { hearTouches } from "./touching.ts";

const plate = "microphone.diaphragm";
/** Fewer pixels than this between two holes are a gray area, not holes. */
const leastPitch = 5;

type Circle = readonly [x: number, y: number, radius: number];

const circles = (all: readonly Circle[]): string =>
  all
    .map(
      ([x, y, r]) =>
        `M${(x - r).toFixed(1)},${y.toFixed(1)}a${r.toFixed(1)},${r.toFixed(1)} 0 1 0 ${(2 * r).toFixed(1)},0a${r.toFixed(1)},${r.toFixed(1)} 0 1 0 ${(-2 * r).toFixed(1)},0`,
    )
    .join("");

export function Plan(props: DrawingProps): JSX.Element {
  const at = createMemo(() => {
    const { shape, scale } = props;
    const [across, along] = [shape.across * scale.perMeter, shape.along * scale.perMeter];
    const { middle } = scale.plan;
    return {
      across,
      along,
      left: scale.middle - across / 2,
      right: scale.middle + across / 2,
      top: middle - along / 2,
      bottom: middle + along / 2,
      edge: scale.middle + across / 2 + scale.land + 10,
    };
  });
  const guides = createMemo(() =>
    props.shape.guides.map(({ path, at: x }, i) => ({
      path,
      value: x,
      x: props.scale.middle + x * props.scale.perMeter,
      y: props.scale.plan.middle + (at().along / 5) * (1 - (i % 3)),
    })),
  );
  /** Holes as drawn: x, y and radius. */
  const frontHoles = createMemo<readonly Circle[]>(() =>
    (props.shape.front?.holes ?? []).map(({ at: [x, y], diameter }) => [
      props.scale.middle + x * props.scale.perMeter,
      props.scale.plan.middle - y * props.scale.perMeter,
      (diameter * props.scale.perMeter) / 2,
    ]),
  );
  const wallHoles = createMemo<readonly Circle[]>(() => {
    const { perMeter } = props.scale;
    const one = props.shape.film?.hole;
    if (one) {
      const [x, y] = one.at;
      return [
        [props.scale.middle + x * perMeter, props.scale.plan.middle - y * perMeter, (one.diameter * perMeter) / 2],
      ];
    }
    const holes = props.shape.film?.holes;
    if (!holes || holes.pitch * perMeter < leastPitch) return [];
    const places = (side: number) => {
      const count = Math.max(Math.floor((side - holes.diameter) / holes.pitch + 1e-9) + 1, 1);
      return Array.from({ length: count }, (_, i) => (i - (count - 1) / 2) * holes.pitch * perMeter);
    };
    return places(props.shape.across).flatMap((x) =>
      places(props.shape.along).map(
        (y): Circle => [props.scale.middle + x, props.scale.plan.middle + y, (holes.diameter * perMeter) / 2],
      ),
    );
  });
  const wrong = (path: string) => problemsAt(path, props.bench.failure()).length > 0;
  const below = () => props.scale.plan.height;
  return (
    <div class="sheet">
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing with handles in it is no fieldset */}
      <svg
        ref={(one) => hearTouches(one, props.touch, () => {})}
        width={props.scale.width}
        height={props.scale.plan.height + 44}
        role="group"
        aria-label={words.plan}
      >
        <rect
          class="frame"
          x={at().left - props.scale.land}
          y={at().top - props.scale.land}
          width={at().across + 2 * props.scale.land}
          height={at().along + 2 * props.scale.land}
          data-touch="diaphragm"
        />
        <rect
          class="plate"
          classList={{ wrong: wrong(plate) }}
          x={at().left}
          y={at().top}
          width={at().across}
          height={at().along}
          data-touch="diaphragm"
        />
        <path
          class="edges"
          classList={{ held: props.shape.sides === "clamped" }}
          d={`M${at().left},${at().top}V${at().bottom}M${at().right},${at().top}V${at().bottom}`}
        />
        <path
          class="edges"
          classList={{ held: props.shape.ends === "clamped" }}
          d={`M${at().left},${at().top}H${at().right}M${at().left},${at().bottom}H${at().right}`}
        />
        <path class="hole-lines" d={circles(wallHoles())} data-touch="film" />
        <path class="hole-lines front" d={circles(frontHoles())} data-touch="front" />
        <path class="center" d={`M${props.scale.middle},${at().top - 4}V${below() + 14}`} />
        <For each={guides()}>
          {({ path, x }) => (
            <path
              class="light-line"
              classList={{ wrong: wrong(path) }}
              d={`M${x.toFixed(2)},${at().top - props.scale.land}V${at().bottom + props.scale.land}`}
              data-touch="guide"
            />
          )}
        </For>
        <g class="dimension-lines">
          <path
            d={`M${at().edge - 5},${at().top}H${at().edge + 5}M${at().edge - 5},${at().bottom}H${at().edge + 5}M${at().edge},${at().top}V${at().bottom}`}
          />
          <Show when={guides()[0]}>
            {(first) => (
              <path d={`M${props.scale.middle},${below() + 8}H${first().x}M${first().x},${below() + 2}v12`} />
            )}
          </Show>
        </g>
        <Ring
          bench={props.bench}
          grip={sideGrip(`${plate}.along`, props.scale, "y", props.shape.along)}
          x={at().left + at().across / 4}
          y={at().top}
          onTouch={() => props.touch("diaphragm")}
        />
        <Ring
          bench={props.bench}
          grip={sideGrip(`${plate}.across`, props.scale, "x", props.shape.across)}
          x={at().right}
          y={at().top + at().along / 4}
          onTouch={() => props.touch("diaphragm")}
        />
        <For each={props.shape.guides.map(({ path }) => path)}>
          {(path, i) => (
            <Ring
              bench={props.bench}
              grip={guideGrip(`${path}.at`, props.scale, props.shape.across)}
              x={guides()[i()]?.x ?? 0}
              y={guides()[i()]?.y ?? 0}
              onTouch={() => props.touch("guide")}
            />
          )}
        </For>
      </svg>
      <Dimension
        bench={props.bench}
        path={`${plate}.along`}
        after={words.along}
        x={at().edge + 10}
        y={props.scale.plan.middle}
        anchor="start"
        onTouch={() => props.touch("diaphragm")}
      />
      <Show when={props.shape.guides[0]}>
        {(first) => (
          <Dimension
            bench={props.bench}
            path={`${first().path}.at`}
            before={words.guideAt}
            x={props.scale.middle}
            y={below() + 28}
            anchor="middle"
            onTouch={() => props.touch("guide")}
          />
        )}
      </Show>
    </div>
  );
}
