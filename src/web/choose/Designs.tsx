/** The designs that were found, beside the present one: what each sets, what it gives, what it spares. */
import { createMemo, For, type JSX, Show } from "solid-js";
import { type Choices, type ChosenDesign, findPath, formatQuantity, measures, readQuantity } from "../../core/index.ts";
import { chooseWords as words } from "../../words/en/choosePage.ts";
import { measureText, measureWords } from "../../words/en/measures.ts";
import { requirementWords } from "../../words/en/requirements.ts";
import { measureOf } from "../shell/measureOf.ts";
import { Sign } from "../shell/Sign.tsx";
import { useWork } from "../shell/work.ts";
import { reserveShare } from "../spread/share.ts";
import { keep, take } from "./take.ts";

export function Designs(props: { readonly found: Choices }): JSX.Element {
  const work = useWork();
  const paths = createMemo(() => [...new Set(props.found.designs.flatMap(({ set }) => Object.keys(set)))]);
  const valueText = (path: string, text: string | undefined) => {
    const place = findPath(path);
    const read = place.ok && text !== undefined ? readQuantity(text, place.value.kind, []) : null;
    return place.ok && read?.ok ? formatQuantity(read.value, place.value.kind, { digits: 4 }) : (text ?? "");
  };
  const present = (path: string) => {
    const place = findPath(path);
    const read = place.ok ? place.value.read(work.project()) : place;
    return place.ok && read.ok ? formatQuantity(read.value, place.value.kind, { digits: 4 }) : "";
  };
  const alone = () => props.found.designs.length === 1;
  const nameOf = (design: ChosenDesign) => (alone() ? words.onlyOne : design.as.join(", "));
  /** Of the many that it may be best at one is enough. */
  const keptName = (design: ChosenDesign) => (alone() ? words.onlyOne : (design.as[0] ?? words.onlyOne));
  const missed = (design: ChosenDesign) =>
    design.verdict.filter(({ met }) => met === false).map(({ requirement }) => requirementWords(requirement).label);
  const prediction = () => work.rested()?.prediction ?? null;
  return (
    <section class="scroll choose-designs" tabindex="0" aria-label={words.title}>
      <table>
        <caption>{words.title}</caption>
        <thead>
          <tr>
            <th scope="col">{words.design}</th>
            <th scope="col">{words.now}</th>
            <For each={props.found.designs}>
              {(design, i) => (
                <th scope="col">
                  {i() + 1}{" "}
                  <Show when={!alone()}>
                    <span class="aside">{nameOf(design)}</span>
                  </Show>
                </th>
              )}
            </For>
          </tr>
          <tr class="choose-do">
            <td />
            <td />
            <For each={props.found.designs}>
              {(design, i) => (
                <td>
                  <button
                    type="button"
                    class="word"
                    aria-label={`${words.take} ${i() + 1}`}
                    onClick={() => take(work, design.set, words.taken(nameOf(design)))}
                  >
                    {words.take}
                  </button>
                  <button
                    type="button"
                    class="word"
                    aria-label={`${words.keep} ${i() + 1}`}
                    onClick={() => keep(work, design.set, keptName(design))}
                  >
                    {words.keep}
                  </button>
                </td>
              )}
            </For>
          </tr>
        </thead>
        <tbody>
          <For each={paths()}>
            {(path) => {
              const place = findPath(path);
              return (
                <tr>
                  <th scope="row">{place.ok ? place.value.label : path}</th>
                  <td>{present(path)}</td>
                  <For each={props.found.designs}>
                    {({ set }) => (
                      <td>
                        <b>{valueText(path, set[path])}</b>
                      </td>
                    )}
                  </For>
                </tr>
              );
            }}
          </For>
        </tbody>
        <tbody>
          <For each={measures.filter((measure) => props.found.designs.some((one) => one.measures[measure] !== null))}>
            {(measure) => (
              <tr>
                <th scope="row">{measureWords[measure].label}</th>
                <td class="aside">
                  {prediction() === null ? "" : measureText(measure, measureOf(prediction()!, measure))}
                </td>
                <For each={props.found.designs}>{(one) => <td>{measureText(measure, one.measures[measure])}</td>}</For>
              </tr>
            )}
          </For>
          <tr>
            <th scope="row">{words.scarcest}</th>
            <td />
            <For each={props.found.designs}>
              {(design) => (
                <td classList={{ missed: missed(design).length > 0 }}>
                  <Sign met={missed(design).length === 0} />
                  {missed(design).length > 0
                    ? words.misses(missed(design))
                    : design.reserve === null || design.scarcest === null
                      ? ""
                      : words.spare(requirementWords(design.scarcest).label, reserveShare(design.reserve))}
                </td>
              )}
            </For>
          </tr>
        </tbody>
      </table>
    </section>
  );
}
