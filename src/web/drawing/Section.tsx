/** Section across the guide: sides to scale, heights raised, deflection only as a shape. */
import { createMemo, For, type JSX, Show } from "solid-js";
import { benchWords as words } from "../../words/en/bench.ts";
import { problemsAt } from "../shell/work.ts";
import { Dimension } from "./Dimension.tsx";
import type { DrawingProps } from "./Drawing.tsx";
import { gapGrip, thicknessGrip } from "./grips.ts";
import { Ring } from "./Ring.tsx";
import { bentShape } from "./scales.ts";
import { hearTouches } from "./touching.ts";

const plate = "microphone.diaphragm";
const gapPath = "microphone.film.gap";
/** Thickness of the back wall as drawn, and how far the frame goes below it [px]. */
const wall = 12;
/** Share of the gap that the deflection is drawn with, and the most [px]. */
const bend = { share: 0.45, most: 22 };
const points = 48;

export function Section(props: DrawingProps): JSX.Element {
  const at = createMemo(() => {
    const { shape, scale } = props;
    const up = scale.perMeter * scale.raised;
    const half = (shape.across * scale.perMeter) / 2;
    const thick = shape.thickness * up;
    const gap = shape.film === null ? null : shape.film.gap * up;
    const under = scale.section.underside;
    const sag = Math.min(bend.share * (gap ?? 40), bend.most);
    const bent = bentShape(shape.sides);
    return {
      left: scale.middle - half,
      right: scale.middle + half,
      half,
      thick,
      gap,
      under,
      top: under - thick,
      wall: under + (gap ?? 0),
      bottom: under + Math.max((gap ?? 0) + wall, 40) + 12,
      edge: scale.middle + half + scale.land + 10,
      sag: (x: number) => sag * bent((x - scale.middle) / (2 * half)),
    };
  });
  const diaphragm = createMemo(() => {
    const { left, right, top, under, sag } = at();
    const { land } = props.scale;
    const xs = Array.from({ length: points + 1 }, (_, i) => left + ((right - left) * i) / points);
    const upper = xs.map((x) => `${x.toFixed(1)},${(top + sag(x)).toFixed(2)}`);
    const lower = xs.map((x) => `${x.toFixed(1)},${(under + sag(x)).toFixed(2)}`).reverse();
    const ends = [`${right + land},${top}`, `${right + land},${under}`];
    return `M${left - land},${top}L${upper.join("L")}L${ends.join("L")}L${lower.join("L")}L${left - land},${under}Z`;
  });
  const guides = createMemo(() =>
    props.shape.guides.map(({ path, at: x, depth, face }) => {
      const { top, under, sag } = at();
      const deep = Math.min(depth * props.scale.perMeter * props.scale.raised, 1e4);
      const px = props.scale.middle + x * props.scale.perMeter;
      return { path, face, x: px, y: (face === "front" ? top + deep : under - deep) + sag(px) };
    }),
  );
  const wrong = (path: string) => problemsAt(path, props.bench.failure()).length > 0;
  const flip = (path: string) => {
    const text = props.shape.guides.find((guide) => guide.path === path)?.face === "front" ? "back" : "front";
    props.touch("guide");
    props.bench.type(`${path}.face`, text, { path: `${path}.face`, value: text }, true);
  };
  const gapDash = () => at().left + 0.3 * at().half;
  return (
    <div class="sheet">
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing with handles in it is no fieldset */}
      <svg
        ref={(one) => hearTouches(one, props.touch, flip)}
        width={props.scale.width}
        height={props.scale.section.height}
        role="group"
        aria-label={words.section}
      >
        <g class="sound" transform={`translate(${props.scale.middle} 0)`}>
          <path d="M-22,10Q0,2 22,10M-22,17Q0,9 22,17M-22,24Q0,16 22,24" />
        </g>
        <g class="frame" data-touch="diaphragm">
          <rect
            x={at().left - props.scale.land}
            y={at().under}
            width={props.scale.land}
            height={at().bottom - at().under}
          />
          <rect x={at().right} y={at().under} width={props.scale.land} height={at().bottom - at().under} />
        </g>
        <Show when={props.shape.film}>
          {(film) => {
            const slot = () => (film().sides === "closed" ? 0 : Math.min(9, 0.12 * at().half));
            return (
              <g class="film" classList={{ wrong: wrong("microphone.film") }} data-touch="film">
                <rect class="air" x={at().left} y={at().under} width={2 * at().half} height={at().gap ?? 0} />
                <rect
                  class="wall"
                  x={at().left + slot()}
                  y={at().wall}
                  width={Math.max(2 * at().half - 2 * slot(), 1)}
                  height={wall}
                />
              </g>
            );
          }}
        </Show>
        <path class="plate" classList={{ wrong: wrong(plate) }} d={diaphragm()} data-touch="diaphragm" />
        <For each={guides()}>
          {({ path, x, y }) => (
            <circle
              class="light"
              classList={{ wrong: wrong(path) }}
              cx={x}
              cy={y}
              r="4.5"
              data-touch="guide"
              data-flip={path}
            >
              <title>{words.otherFace}</title>
            </circle>
          )}
        </For>
        <g class="dimension-lines">
          <path d={tick(at().edge, at().top, at().under)} />
          <Show when={at().gap}>{(gap) => <path d={tick(at().edge, at().under, at().under + gap())} />}</Show>
          <path
            d={`M${at().left},${at().bottom + 6}V${at().bottom + 20}M${at().right},${at().bottom + 6}V${at().bottom + 20}M${at().left},${at().bottom + 14}H${at().right}`}
          />
        </g>
        <Ring
          bench={props.bench}
          grip={thicknessGrip(`${plate}.thickness`, props.scale, props.shape.thickness)}
          x={at().left - props.scale.land / 2}
          y={at().top}
          onTouch={() => props.touch("diaphragm")}
        />
        <Show when={props.shape.film}>
          {(film) => (
            <Ring
              bench={props.bench}
              grip={gapGrip(gapPath, props.scale, film().gap)}
              x={gapDash()}
              y={at().wall}
              onTouch={() => props.touch("film")}
            />
          )}
        </Show>
      </svg>
      <Dimension
        bench={props.bench}
        path={`${plate}.thickness`}
        after={words.thick}
        x={at().edge + 10}
        y={Math.min(at().top + at().thick / 2, at().under - 4)}
        anchor="start"
        onTouch={() => props.touch("diaphragm")}
      />
      <Show when={props.shape.film}>
        <Dimension
          bench={props.bench}
          path={gapPath}
          after={words.gap}
          x={at().edge + 10}
          y={Math.max(at().under + (at().gap ?? 0) / 2, Math.min(at().top + at().thick / 2, at().under - 4) + 30)}
          anchor="start"
          onTouch={() => props.touch("film")}
        />
      </Show>
      <Dimension
        bench={props.bench}
        path={`${plate}.across`}
        after={words.across}
        x={props.scale.middle}
        y={at().bottom + 14}
        anchor="middle"
        onTouch={() => props.touch("diaphragm")}
      />
    </div>
  );
}

const tick = (x: number, from: number, to: number): string =>
  `M${x - 5},${from}H${x + 5}M${x - 5},${to}H${x + 5}M${x},${from}V${to}`;
