/** Parts of the section in front of and behind the diaphragm, as cut through the middle. */
import { For, type JSX, Show } from "solid-js";
import { wallHeight } from "./scales.ts";
import type { SectionPlaces } from "./sectionPlaces.ts";
import type { DrawnShape } from "./shapeOf.ts";

/** Plate with its holes, on walls around the front cavity. */
export function FrontPlate(props: {
  readonly at: SectionPlaces;
  readonly land: number;
  readonly wrong: boolean;
}): JSX.Element {
  const front = () => props.at.front;
  /** What is left of the plate between its holes. */
  const pieces = () => {
    const { left, right } = props.at;
    const gaps = [...(front()?.gaps ?? [])].sort((a, b) => a[0] - b[0]);
    const ends = [left - props.land, ...gaps.flat(), right + props.land];
    return ends.flatMap((from, i) => {
      const to = ends[i + 1];
      return i % 2 === 0 && to !== undefined && to > from ? [{ from, width: to - from }] : [];
    });
  };
  return (
    <Show when={front()}>
      {(known) => (
        <g class="front" classList={{ wrong: props.wrong }} data-touch="front">
          <rect
            class="void"
            x={props.at.left - props.land}
            y={known().under}
            width={props.at.right - props.at.left + 2 * props.land}
            height={props.at.top - known().under}
          />
          <rect
            class="wall"
            x={props.at.left - props.land}
            y={known().under}
            width={props.land * 0.6}
            height={props.at.top - known().under}
          />
          <rect
            class="wall"
            x={props.at.right + props.land * 0.4}
            y={known().under}
            width={props.land * 0.6}
            height={props.at.top - known().under}
          />
          <For each={pieces()}>
            {({ from, width }) => (
              <rect class="wall" x={from} y={known().top} width={width} height={known().under - known().top} />
            )}
          </For>
        </g>
      )}
    </Show>
  );
}

/** Film and the wall behind it: closed at its edges, or with a way round; with holes where it has some. */
export function Wall(props: {
  readonly at: SectionPlaces;
  readonly film: NonNullable<DrawnShape["film"]>;
  readonly wrong: boolean;
}): JSX.Element {
  const slot = () => (props.film.sides === "closed" ? 0 : Math.min(9, 0.12 * props.at.half));
  return (
    <g class="film" classList={{ wrong: props.wrong }} data-touch="film">
      <rect class="air" x={props.at.left} y={props.at.lowest} width={2 * props.at.half} height={props.at.gap ?? 0} />
      <rect
        class="wall"
        x={props.at.left + slot()}
        y={props.at.wall}
        width={Math.max(2 * props.at.half - 2 * slot(), 1)}
        height={wallHeight}
      />
      <Show when={props.at.wallHoles}>
        {(holes) => (
          <path
            class="bores"
            stroke-width={holes().width}
            d={holes()
              .at.map((x) => `M${x.toFixed(1)},${props.at.wall}v${wallHeight}`)
              .join("")}
          />
        )}
      </Show>
    </g>
  );
}

/** The wall that closes the back, and the vent through the frame. */
export function BackParts(props: {
  readonly at: SectionPlaces;
  readonly shape: DrawnShape;
  readonly land: number;
  readonly wrong: boolean;
}): JSX.Element {
  return (
    <Show when={props.shape.back}>
      <g class="back" classList={{ wrong: props.wrong }} data-touch="back">
        <rect
          class="void"
          x={props.at.left}
          y={props.at.lowest}
          width={2 * props.at.half}
          height={props.at.bottom - props.at.lowest}
        />
        <rect
          class="wall"
          x={props.at.left - props.land}
          y={props.at.bottom - 8}
          width={2 * (props.at.half + props.land)}
          height="8"
        />
        <Show when={props.at.vent}>
          {(vent) => (
            <rect
              class="bore"
              x={props.at.right}
              y={vent().y - vent().height / 2}
              width={props.land}
              height={vent().height}
            />
          )}
        </Show>
      </g>
    </Show>
  );
}
