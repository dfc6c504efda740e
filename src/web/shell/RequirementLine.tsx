/** The brief, line by line: met or not by sign and color, what was asked, what it is, how much is missing. */
import { Index, type JSX, Show } from "solid-js";
import type { Verdict } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { requirementWords, verdictText } from "../../words/en/requirements.ts";
import { pageAddress } from "./route.ts";
import { Sign } from "./Sign.tsx";

export function RequirementLine(props: {
  readonly verdict: readonly Verdict[];
  /** Those that wait for the hand to rest. */
  readonly stale?: readonly string[];
  /** There is an answer, and nothing that it has to meet. */
  readonly unasked: boolean;
}): JSX.Element {
  const computed = () => props.verdict.filter(({ met }) => met !== null);
  const open = () =>
    props.verdict.filter(({ met }) => met === null).map((line) => requirementWords(line.requirement).label);
  return (
    <Show
      when={props.verdict.length > 0}
      fallback={
        <Show when={props.unasked}>
          <p class="requirements unasked aside">
            {words.unasked}
            <a href={pageAddress("brief")}>{words.toBrief}</a>
          </p>
        </Show>
      }
    >
      <ul class="requirements" aria-label={words.brief}>
        {/* By place: under a hand only texts change. */}
        <Index each={computed()}>
          {(line) => (
            <li
              classList={{
                missed: line().met === false,
                met: line().met === true,
                stale: props.stale?.includes(line().requirement) === true,
              }}
              data-requirement={line().requirement}
            >
              <Sign met={line().met === true} />
              <span class="what">{requirementWords(line().requirement).label}</span> {verdictText(line()).asked}{" "}
              <span class="aside">
                {verdictText(line()).got}
                {verdictText(line()).missing}
              </span>
            </li>
          )}
        </Index>
        <li class="short aside">{words.inShort(computed().filter(({ met }) => met === true).length, open().length)}</li>
        <Show when={open().length > 0}>
          <li class="open">
            <span class="aside">
              {words.notComputed}: {open().join(", ")}
            </span>
          </li>
        </Show>
      </ul>
    </Show>
  );
}
