/** Every requirement with its unit, whether it is a must, and what the design as it stands makes of it. */
import { For, type JSX, Show } from "solid-js";
import { type Contradiction, changeValue, fileValue } from "../../core/index.ts";
import { briefWords as words } from "../../words/en/brief.ts";
import { contradictionText } from "../../words/en/contradictions.ts";
import { requirementWords, verdictText } from "../../words/en/requirements.ts";
import { Field } from "../shell/Field.tsx";
import { Panel } from "../shell/PageFrame.tsx";
import { designParts, partText } from "../shell/partText.ts";
import { Sign } from "../shell/Sign.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";

type Group = keyof typeof words.groups;
type FieldKey = keyof typeof words.fields;
const groups = Object.keys(words.groups) as readonly Group[];
const fieldsOf = (group: Group): readonly FieldKey[] =>
  (Object.keys(words.fields) as readonly FieldKey[]).filter((key) => key.startsWith(`${group}.`));

export function Requirements(): JSX.Element {
  const work = useWork();
  const against = taskAnswer(
    "contradictions",
    () => ({ text: partText(work.project(), [...designParts, "choices"]) }),
    "contradictions",
    "refine",
  );
  const of = (group: Group) =>
    (against.value() ?? []).filter(({ requirement }) => requirement.startsWith(`brief.${group}.`));
  return (
    <Panel title={words.requirements} aside={words.requirementsHint} class="asked">
      <div class="asked-groups">
        <For each={groups}>{(group) => <Requirement group={group} against={of(group)} />}</For>
      </div>
      <p class="aside">{words.mustHint}</p>
    </Panel>
  );
}

function Requirement(props: { readonly group: Group; readonly against: readonly Contradiction[] }): JSX.Element {
  const work = useWork();
  const must = () => fileValue(work.project(), ["brief", props.group, "must"]) === true;
  const asked = () => fileValue(work.project(), ["brief", props.group]) !== undefined;
  function setMust(wanted: boolean): void {
    const changed = changeValue(work.project(), `brief.${props.group}.must`, String(wanted));
    const name = words.groups[props.group];
    if (changed.ok) work.replace(changed.value, wanted ? words.nowMust(name) : words.noMust(name));
  }
  const lines = () =>
    (work.answer()?.prediction.verdict ?? []).filter(({ requirement }) =>
      requirement.startsWith(`brief.${props.group}.`),
    );
  return (
    <fieldset class="asked-group" data-requirement-group={props.group}>
      <legend>
        {words.groups[props.group]}
        <label class="must">
          <input
            type="checkbox"
            checked={must()}
            disabled={!asked()}
            onChange={(event) => setMust(event.currentTarget.checked)}
          />
          {words.must}
        </label>
      </legend>
      <p class="aside means">{words.means[props.group]}</p>
      <For each={fieldsOf(props.group)}>
        {(key) => (
          <Field
            bench={work}
            spec={{
              path: `brief.${key}`,
              label: words.fields[key],
              empty: { path: `brief.${key}`, value: null, says: words.notAsked },
            }}
          />
        )}
      </For>
      <ul class="asked-verdicts">
        <For each={lines()}>
          {(line) => (
            <li
              classList={{ missed: line.met === false, met: line.met === true }}
              data-verdict={line.requirement}
              data-met={String(line.met)}
            >
              <Show when={line.met !== null}>
                <Sign met={line.met === true} />
              </Show>
              <span class="what">{requirementWords(line.requirement).label}</span> {verdictText(line).asked}:{" "}
              <span class="aside">
                {line.met === null ? words.notComputed : `${verdictText(line).got}${verdictText(line).missing}`}
              </span>
            </li>
          )}
        </For>
      </ul>
      <For each={props.against}>
        {(one) => (
          <p class="problem" role="status" data-contradiction={one.requirement}>
            <span class="what">{contradictionText(one)}</span>
          </p>
        )}
      </For>
    </fieldset>
  );
}
