/** Holes of the front plate, by word: one more, or one less. The first one goes with the plate. */
import { For, type JSX, Show } from "solid-js";
import { benchWords as words } from "../../words/en/bench.ts";
import { type DrawnShape, shapeOf } from "../drawing/shapeOf.ts";
import { valueText } from "../shell/valueText.ts";
import type { Work } from "../shell/work.ts";

const holesPath = "microphone.front.holes";
/** Places that are tried for a new hole, as shares of the sides. */
const places = [
  [0, 0],
  [0.25, 0],
  [-0.25, 0],
  [0, 0.25],
  [0, -0.25],
  [0.25, 0.25],
  [-0.25, -0.25],
  [-0.25, 0.25],
  [0.25, -0.25],
] as const;

export function HoleWords(props: { readonly bench: Work }): JSX.Element {
  const shape = () => shapeOf(props.bench.project());
  const count = () => shape().front?.holes.length ?? 0;
  function add(): void {
    const text = (key: string) => valueText(props.bench.project(), `${holesPath}[0].${key}`);
    const at = freePlace(shape()).map((place) => `${(1e3 * place).toFixed(1)} mm`);
    const hole = { diameter: text("diameter"), length: text("length"), at };
    const path = `${holesPath}[${count()}]`;
    props.bench.type(path, words.addHole, { path, value: JSON.stringify(hole) }, true);
  }
  function take(index: number): void {
    const path = `${holesPath}[${index}]`;
    props.bench.type(path, words.takeHole(index + 1), { path, value: null }, true);
  }
  return (
    <Show when={count() > 0}>
      <p class="hole-words">
        <button type="button" class="word" data-holes="add" onClick={add}>
          {words.addHole}
        </button>
        <For each={Array.from({ length: count() }, (_, i) => i).slice(1)}>
          {(index) => (
            <button type="button" class="word" data-holes={index} onClick={() => take(index)}>
              {words.takeHole(index + 1)}
            </button>
          )}
        </For>
      </p>
    </Show>
  );
}

/** Where a hole like the first one meets no other; the last of all places where it meets one everywhere [m]. */
function freePlace({ across, along, front }: DrawnShape): readonly [number, number] {
  const holes = front?.holes ?? [];
  const size = holes[0]?.diameter ?? 0;
  const all = places.map(([x, y]) => [x * across, y * along] as const);
  const free = all.find(([x, y]) =>
    holes.every(({ at, diameter }) => Math.hypot(at[0] - x, at[1] - y) > (diameter + size) / 2),
  );
  return free ?? all.at(-1) ?? [0, 0];
}
