/** A requirement that stands in the way, by which law, and what would do. */
import { type JSX, Show } from "solid-js";
import { formatQuantity, type Refusal } from "../../core/index.ts";
import { chooseWords as words } from "../../words/en/choosePage.ts";
import { requirementWords } from "../../words/en/requirements.ts";
import { pageAddress } from "../shell/route.ts";
import { useWork } from "../shell/work.ts";
import { relaxedText, take } from "./take.ts";

export function Refused(props: { readonly refusal: Refusal }): JSX.Element {
  const work = useWork();
  const { requirement } = props.refusal;
  const { label, kind } = requirementWords(requirement);
  const text = (value: number) => formatQuantity(value, kind, { digits: 3 });
  const only = () => {
    const { alone, nearest } = props.refusal;
    return alone === null || text(alone) === text(nearest) ? "" : `; ${words.alone(text(alone))}`;
  };
  return (
    <li data-refused={requirement}>
      <p>
        <strong class="what">{label}</strong> {text(props.refusal.asked)}, {words.together(text(props.refusal.nearest))}
        {only()}.
      </p>
      <p class="aside">{props.refusal.reason}</p>
      <p>
        <button
          type="button"
          class="word"
          onClick={() =>
            take(work, { [requirement]: relaxedText(requirement, props.refusal.nearest) }, words.relaxed(label))
          }
        >
          {words.relax(text(props.refusal.nearest))}
        </button>{" "}
        <Show when={/noise|loudest/.test(requirement)}>
          <a href={pageAddress("light")}>{words.change}</a>
        </Show>
      </p>
    </li>
  );
}
