/** The brief, line by line: met or not by sign and color, what was asked, what it is, how much is missing. */
import { For, type JSX, Show } from "solid-js";
import { formatQuantity, type Verdict } from "../../core/index.ts";
import { asGiven } from "../../words/asGiven.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { requirementWords } from "../../words/en/requirements.ts";

export function RequirementLine(props: { readonly verdict: readonly Verdict[] }): JSX.Element {
  const computed = () => props.verdict.filter(({ met }) => met !== null);
  const open = () =>
    props.verdict.filter(({ met }) => met === null).map((line) => requirementWords(line.requirement).label);
  return (
    <Show when={props.verdict.length > 0}>
      <ul class="requirements" aria-label={words.brief}>
        <For each={computed()}>
          {(line) => (
            <li classList={{ missed: line.met === false, met: line.met === true }} data-requirement={line.requirement}>
              <Sign met={line.met === true} />
              <span class="what">{requirementWords(line.requirement).label}</span> {asked(line)}{" "}
              <span class="aside">
                {shown(line, line.got)}
                {line.met === false && line.margin !== null
                  ? `, ${missWord(line)} ${shown(line, Math.abs(line.margin))}`
                  : ""}
              </span>
            </li>
          )}
        </For>
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

/** Check or cross, drawn: not every font has them. */
function Sign(props: { readonly met: boolean }): JSX.Element {
  return (
    <svg class="sign" viewBox="0 0 12 12" role="img" aria-label={props.met ? words.met : words.notMet}>
      <path d={props.met ? "M1.5 6.5 4.5 9.5 10.5 2.5" : "M2 2 10 10M10 2 2 10"} />
    </svg>
  );
}

/** A limit from above is exceeded, any other one is not reached. */
const missWord = ({ requirement }: Verdict): string =>
  /\.(atMost|from)$/.test(requirement) ? words.above : words.below;

const asked = ({ requirement, asked: value }: Verdict): string => asGiven(value, requirementWords(requirement).kind);

const shown = ({ requirement }: Verdict, value: number | null): string =>
  formatQuantity(value, requirementWords(requirement).kind, { digits: 3 });
