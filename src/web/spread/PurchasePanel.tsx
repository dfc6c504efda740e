/** Which tolerance to buy: the cheapest halvings that reach the wanted yield, or why none does. */
import { For, type JSX, Show } from "solid-js";
import { findPath, formatQuantity, type Spread } from "../../core/index.ts";
import { asGiven } from "../../words/asGiven.ts";
import { requirementWords } from "../../words/en/requirements.ts";
import { spreadWords as words } from "../../words/en/spreadPage.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { percent } from "./share.ts";

const wantedYields = [0.5, 0.8, 0.9, 0.95, 0.99] as const;

export function PurchasePanel(props: {
  readonly spread: Spread;
  readonly wanted: number;
  readonly setWanted: (wanted: number) => void;
}): JSX.Element {
  const tolerance = (path: string) => props.spread.varied.find((one) => one.path === path);
  const widthText = (path: string, width: number | undefined) => {
    const place = findPath(path);
    return place.ok && width !== undefined
      ? `±\u202f${formatQuantity(width, place.value.kind, { digits: 2 })}`
      : words.noPrice;
  };
  /** By which requirement most of them fail. */
  const worst = () =>
    props.spread.byRequirement
      .flatMap(({ requirement, yield: got }) => (got === null ? [] : [{ requirement, share: got.value }]))
      .sort((a, b) => a.share - b.share)[0];
  const cost = (value: number) => asGiven(value, "number");
  return (
    <Panel title={words.buy}>
      <p class="spread-wanted">
        <label>
          {words.wanted}{" "}
          <select onChange={(event) => props.setWanted(Number(event.currentTarget.value))}>
            <For each={wantedYields}>
              {(one) => (
                <option value={one} selected={one === props.wanted}>
                  {percent(one, 2)}
                </option>
              )}
            </For>
          </select>
        </label>
      </p>
      <Show
        when={props.spread.purchase}
        fallback={
          <p>{props.spread.yield.value >= props.wanted ? words.reached(percent(props.wanted, 2)) : words.noCorners}</p>
        }
      >
        {(found) => (
          <>
            <p
              data-buy={found()
                .halve.map(({ path }) => path)
                .join(" ")}
              data-reached={found().reached}
            >
              {found().halve.length === 0
                ? words.buyNone
                : found().reached
                  ? words.bought(percent(found().yield), cost(found().cost))
                  : words.notEnough(percent(found().yield), percent(props.wanted, 2), cost(found().cost))}
            </p>
            <Show when={!found().reached && worst()}>
              {(one) => (
                <p class="aside">{words.offCenter(requirementWords(one().requirement).label, percent(one().share))}</p>
              )}
            </Show>
            <div class="spread-scroll">
              <table class="spread-table">
                <thead>
                  <tr>
                    <th scope="col">{words.value}</th>
                    <th scope="col">{words.from}</th>
                    <th scope="col">{words.to}</th>
                    <th scope="col">{words.cost}</th>
                    <th scope="col">{words.aloneYield}</th>
                  </tr>
                </thead>
                <tbody>
                  <For each={found().alone}>
                    {({ path, yield: got, cost: price }) => {
                      const bought = () => found().halve.find((one) => one.path === path);
                      return (
                        <tr>
                          <th scope="row">{tolerance(path)?.label ?? path}</th>
                          <td class="aside">{widthText(path, tolerance(path)?.width)}</td>
                          <td>
                            <b>{bought() === undefined ? words.noPrice : widthText(path, bought()?.width)}</b>
                          </td>
                          <td>{cost(bought()?.cost ?? price ?? 1)}</td>
                          <td class="aside">{percent(got)}</td>
                        </tr>
                      );
                    }}
                  </For>
                </tbody>
              </table>
            </div>
          </>
        )}
      </Show>
    </Panel>
  );
}
