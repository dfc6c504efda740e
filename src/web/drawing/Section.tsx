/** Section across the guide: sides to scale, heights of sheet and film raised, plates and cavities cut short where they must be. */
import { createMemo, For, type JSX, Show } from "solid-js";
import { benchWords as words } from "../../words/en/bench.ts";
import { problemsAt } from "../shell/work.ts";
import { Dimension } from "./Dimension.tsx";
import type { DrawingProps } from "./drawingProps.ts";
import { gapGrip, thicknessGrip } from "./grips.ts";
import { Ring } from "./Ring.tsx";
import { BackParts, FrontPlate, Wall } from "./SectionParts.tsx";
import { sectionPlaces } from "./sectionPlaces.ts";
import { hearTouches } from "./touching.ts";

const plate = "microphone.diaphragm";
const gapPath = "microphone.film.gap";
const points = 48;

export function Section(props: DrawingProps): JSX.Element {
  /** How far the middle hangs down [m]; null: nothing says how far. */
  const center = () => {
    const known = props.bench.answer()?.prediction.deflection.center;
    const { pressure } = props.shape;
    return known === undefined || pressure === null ? null : known * pressure.value;
  };
  const at = createMemo(() => sectionPlaces(props.shape, props.scale, center()));
  /** Line of the bent sheet at a depth below its topmost line. */
  const line = (depth: number, reversed = false): string => {
    const { left, right, top, sag } = at();
    const xs = Array.from({ length: points + 1 }, (_, i) => left + ((right - left) * i) / points);
    const places = xs.map((x) => `${x.toFixed(1)},${(top + depth + sag(x)).toFixed(2)}`);
    return (reversed ? places.reverse() : places).join("L");
  };
  const outline = () => {
    const { left, right, top, lowest } = at();
    const { land } = props.scale;
    const ends = `${right + land},${top}L${right + land},${lowest}`;
    return `M${left - land},${top}L${line(0)}L${ends}L${line(lowest - top, true)}L${left - land},${lowest}Z`;
  };
  const guides = createMemo(() =>
    props.shape.guides.map(({ path, at: x, depth, face }) => {
      const { top, lowest, sag } = at();
      const deep = Math.min(depth * props.scale.perMeter * props.scale.raised, 1e4);
      const px = props.scale.middle + x * props.scale.perMeter;
      return { path, face, x: px, y: (face === "front" ? top + deep : lowest - deep) + sag(px) };
    }),
  );
  const wrong = (path: string) => problemsAt(path, props.bench.failure()).length > 0;
  const flip = (path: string) => {
    const text = props.shape.guides.find((guide) => guide.path === path)?.face === "front" ? "back" : "front";
    props.touch("guide");
    props.bench.type(`${path}.face`, text, { path: `${path}.face`, value: text }, true);
  };
  const labels = () => at().labels.map(({ path }) => path);
  const label = (path: string) => at().labels.find((one) => one.path === path);
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
        <Show when={props.shape.body}>
          {(body) => (
            <rect
              class="body"
              x={at().left - props.scale.land - 8}
              y="4"
              width={2 * (at().half + props.scale.land + 8)}
              height={at().bottom + 2}
              rx={body().shape === "sphere" ? 44 : 8}
              data-touch="body"
            />
          )}
        </Show>
        <g class="sound" transform={`translate(${props.scale.middle} 0)`}>
          <path d="M-22,10Q0,2 22,10M-22,17Q0,9 22,17M-22,24Q0,16 22,24" />
        </g>
        <FrontPlate at={at()} land={props.scale.land} wrong={wrong("microphone.front")} />
        <g class="frame" data-touch="frame">
          <rect
            x={at().left - props.scale.land}
            y={at().lowest}
            width={props.scale.land}
            height={at().bottom - at().lowest}
          />
          <rect x={at().right} y={at().lowest} width={props.scale.land} height={at().bottom - at().lowest} />
        </g>
        <BackParts at={at()} shape={props.shape} land={props.scale.land} wrong={wrong("microphone.back")} />
        <Show when={props.shape.film}>
          {(film) => <Wall at={at()} film={film()} wrong={wrong("microphone.film") || at().touches} />}
        </Show>
        <path class="plate" classList={{ wrong: wrong(plate) || at().touches }} d={outline()} data-touch="diaphragm" />
        <For each={at().interfaces}>{(depth) => <path class="interface" d={`M${line(depth)}`} />}</For>
        <Show when={at().leak}>
          {(y) => (
            <path class="slit" d={`M${at().right},${y()}h${props.scale.land}`} data-touch="back">
              <title>{words.leak}</title>
            </path>
          )}
        </Show>
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
          <path d={tick(at().edge, at().sheetTop, at().under)} />
          <Show when={at().gap}>{(gap) => <path d={tick(at().edge, at().lowest, at().lowest + gap())} />}</Show>
          <For each={at().labels}>
            {({ from, y }) =>
              from === null ? null : <path d={`M${from.x},${from.y}L${at().edge},${from.y}L${at().edge + 10},${y}`} />
            }
          </For>
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
              x={at().left + 0.3 * at().half}
              y={at().wall}
              onTouch={() => props.touch("film")}
            />
          )}
        </Show>
      </svg>
      <For each={labels()}>
        {(path) => (
          <Dimension
            bench={props.bench}
            path={path}
            after={label(path)?.after ?? ""}
            x={at().edge + 10}
            y={label(path)?.y ?? 0}
            anchor="start"
            onTouch={() => props.touch(label(path)?.part ?? "diaphragm")}
          />
        )}
      </For>
      <Dimension
        bench={props.bench}
        path={`${plate}.across`}
        after={words.across}
        x={props.scale.middle}
        y={at().bottom + 14}
        anchor="middle"
        onTouch={() => props.touch("diaphragm")}
      />
      <Show when={at().touches}>
        <p class="problem" role="status">
          {words.touches}
        </p>
      </Show>
    </div>
  );
}

const tick = (x: number, from: number, to: number): string =>
  `M${x - 5},${from}H${x + 5}M${x - 5},${to}H${x + 5}M${x},${from}V${to}`;
