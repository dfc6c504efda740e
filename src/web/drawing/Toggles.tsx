/** Edges and face in words, each turned into the other one by a click or a key. */
import { For, type JSX } from "solid-js";
import { benchWords as words } from "../../words/en/bench.ts";
import type { Part } from "../bench/fieldList.ts";
import { valueText } from "../shell/valueText.ts";
import type { Work } from "../shell/work.ts";
import { guidePaths } from "./shapeOf.ts";

interface Toggle {
  readonly path: string;
  readonly part: Part;
  readonly label: string;
  readonly choices: readonly [string, string];
}

export function Toggles(props: { readonly bench: Work; readonly touch: (part: Part) => void }): JSX.Element {
  const toggles = () => {
    const project = props.bench.project();
    const edges = (pair: "sides" | "ends"): Toggle => ({
      path: `microphone.diaphragm.edges.${pair}`,
      part: "diaphragm",
      label: pair === "sides" ? words.sides : words.ends,
      choices: ["clamped", "supported"],
    });
    const film = (pair: "sides" | "ends"): Toggle => ({
      path: `microphone.film.edges.${pair}`,
      part: "film",
      label: pair === "sides" ? words.filmSides : words.filmEnds,
      choices: ["open", "closed"],
    });
    const guides = guidePaths(project);
    const faces = guides.map(
      (path, i): Toggle => ({
        path: `${path}.face`,
        part: "guide",
        label: guides.length > 1 ? `${words.guideFace} ${i + 1}` : words.guideFace,
        choices: ["front", "back"],
      }),
    );
    return [
      edges("sides"),
      edges("ends"),
      ...faces,
      ...(project.file.microphone?.film ? [film("sides"), film("ends")] : []),
    ];
  };
  // Made anew only where others are needed: a key pressed twice must find the same button.
  const paths = () => toggles().map(({ path }) => path);
  return (
    <ul class="toggles" aria-label={words.toggles}>
      <For each={paths()}>
        {(path) => {
          const toggle = () => toggles().find((one) => one.path === path);
          const value = () => valueText(props.bench.project(), path) || toggle()?.choices[0] || "";
          const other = () => toggle()?.choices.find((one) => one !== value()) ?? value();
          const turn = () => {
            const found = toggle();
            if (found !== undefined) props.touch(found.part);
            props.bench.type(path, other(), { path, value: other() }, true);
          };
          return (
            <li>
              {toggle()?.label}{" "}
              <button type="button" data-toggle={path} title={`${words.makeIt} ${other()}`} onClick={turn}>
                {value()}
              </button>
            </li>
          );
        }}
      </For>
    </ul>
  );
}
