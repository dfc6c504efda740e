/** What a search has found: designs beside the present one, what stands in the way, what each pays, and how sure it is. */
import { For, type JSX, Show } from "solid-js";
import type { Choices } from "../../core/index.ts";
import { chooseWords as words } from "../../words/en/choosePage.ts";
import { useWork } from "../shell/work.ts";
import { reserveShare } from "../spread/share.ts";
import { Designs } from "./Designs.tsx";
import { Refused } from "./Refused.tsx";
import { TradeOff } from "./TradeOff.tsx";
import { relaxedText, take } from "./take.ts";

export function Found(props: { readonly found: Choices }): JSX.Element {
  const work = useWork();
  const search = () => props.found.search;
  const met = () => props.found.refused.length === 0;
  /** As proposed: then they can be met together. */
  function relaxAll(): void {
    const set = props.found.refused.map(({ requirement, nearest }) => [requirement, relaxedText(requirement, nearest)]);
    take(work, Object.fromEntries(set), words.relaxedAll);
  }
  const apart = () => Math.max(...search().ends) - Math.min(...search().ends);
  return (
    <>
      <p class="choose-says" data-met={met()}>
        <b>
          {met()
            ? words.met(props.found.designs.length)
            : search().stopped
              ? words.stopped(search().evaluations)
              : words.leastBad}
        </b>
      </p>
      <Designs found={props.found} />
      <Show when={!met()}>
        <h4>
          {search().stopped ? words.missedSoFar : words.inTheWay}{" "}
          <Show when={props.found.refused.length > 1}>
            <button type="button" class="word" onClick={relaxAll}>
              {words.relaxAll}
            </button>
          </Show>
        </h4>
        <ul class="choose-refused">
          <For each={props.found.refused}>{(one) => <Refused refusal={one} />}</For>
        </ul>
      </Show>
      <Show when={props.found.tradeOff.length > 2}>
        <TradeOff found={props.found} />
      </Show>
      <p class="aside">
        {words.searched(search().evaluations, search().seed)}{" "}
        {search().settled
          ? words.settled(apart() < 1e-3 ? null : reserveShare(apart()))
          : search().ends.length < 2
            ? words.cut
            : words.unsettled}{" "}
        {words.missed(search().scanned, search().scannedBetter)}
      </p>
    </>
  );
}
