/** Where the microphone will stand: ranges of the air, and what loads the glass for good. */
import { For, type JSX, Show } from "solid-js";
import { changeValue, fileValue, removeValue } from "../../core/index.ts";
import { firstRange, briefWords as words } from "../../words/en/brief.ts";
import { Field } from "../shell/Field.tsx";
import { Panel } from "../shell/PageFrame.tsx";
import { useWork } from "../shell/work.ts";

type RangeKey = keyof typeof firstRange;
const ranges = Object.keys(firstRange) as readonly RangeKey[];
const site = "brief.site";

export function Site(): JSX.Element {
  const work = useWork();
  return (
    <Panel title={words.site} aside={words.siteHint} class="site">
      <For each={ranges}>{(key) => <SiteRange range={key} />}</For>
      <fieldset>
        <legend>{words.overpressure}</legend>
        <div class="from-to">
          <For
            each={[
              { path: `${site}.staticOverpressure`, label: words.pressure },
              { path: `${site}.rise`, label: words.rise },
            ]}
          >
            {({ path, label }) => (
              <Field bench={work} spec={{ path, label, empty: { path, value: null, says: words.notAsked } }} />
            )}
          </For>
        </div>
      </fieldset>
    </Panel>
  );
}

function SiteRange(props: { readonly range: RangeKey }): JSX.Element {
  const work = useWork();
  const path = () => `${site}.${props.range}`;
  const given = () => fileValue(work.project(), ["brief", "site", props.range]) !== undefined;
  const name = () => words.ranges[props.range];
  function give(): void {
    const changed = changeValue(work.project(), path(), firstRange[props.range]);
    if (changed.ok) work.replace(changed.value, words.gaveRange(name()));
  }
  function forget(): void {
    const changed = removeValue(work.project(), path());
    if (changed.ok) work.replace(changed.value, words.forgotRange(name()));
  }
  return (
    <fieldset>
      <legend>
        {name()}{" "}
        <Show when={given()}>
          <button type="button" class="word" aria-label={`${words.forgetRange}: ${name()}`} onClick={forget}>
            {words.forgetRange}
          </button>
        </Show>
      </legend>
      <Show
        when={given()}
        fallback={
          <p class="aside">
            {words.noRange}{" "}
            <button type="button" class="word" aria-label={`${words.giveRange}: ${name()}`} onClick={give}>
              {words.giveRange}
            </button>
          </p>
        }
      >
        <div class="from-to">
          <Field bench={work} spec={{ path: `${path()}[0]`, label: words.from }} />
          <Field bench={work} spec={{ path: `${path()}[1]`, label: words.to }} />
        </div>
      </Show>
    </fieldset>
  );
}
