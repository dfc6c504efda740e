/** Choosing the bias: where to work, and which length or temperature of the guide makes it. */
import { type JSX, Show } from "solid-js";
import { changeValue, findPath, formatQuantity, type Outcome, type Project } from "../../core/index.ts";
import { isBest, whereRows, lightWords as words } from "../../words/en/light.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { Waiting } from "../shell/TaskState.tsx";
import { useWork } from "../shell/work.ts";
import { guidePath } from "./guidePath.ts";
import { Rows } from "./Rows.tsx";

const bias = "microphone.readout.bias";

export function WherePanel(): JSX.Element {
  const work = useWork();
  const light = () => work.answer()?.prediction.light ?? null;
  const take = (changed: Outcome<Project>, says: string) => {
    if (changed.ok) work.replace(changed.value, says);
  };
  const angle = (value: number) => formatQuantity(value, "angle", { digits: 4 });
  function hold(value: number): void {
    const place = findPath(bias);
    if (place.ok) take(place.value.write(work.project(), value, { digits: 6 }), words.take.bias(angle(value)));
  }
  /** The length with which the guide itself is at the best slope; the bias is then computed. */
  const longer = () => {
    const found = light();
    const place = findPath(`${guidePath(work.project())}.length`);
    const read = place.ok ? place.value.read(work.project()) : place;
    const change = found?.choose.lengthChange ?? null;
    return read.ok && change !== null && read.value + change > 0 ? read.value + change : null;
  };
  function make(length: number): void {
    const place = findPath(`${guidePath(work.project())}.length`);
    const changed = place.ok ? place.value.write(work.project(), length, { digits: 7 }) : place;
    if (!changed.ok) return;
    take(changeValue(changed.value, bias, "null"), words.take.length(formatQuantity(length, "length", { digits: 5 })));
  }
  return (
    <Panel title={words.where} aside={words.whereAside}>
      <Show
        when={light()}
        fallback={
          <p class="aside">
            <Waiting what={words.whereWhat} />
          </p>
        }
      >
        {(found) => (
          <>
            <Rows rows={whereRows(found())} />
            <p class="light-buttons">
              <Show when={!isBest(found())}>
                <button type="button" onClick={() => hold(found().choose.bias)}>
                  {words.take.bias(angle(found().choose.bias))}
                </button>
              </Show>
              <Show when={longer()}>
                {(length) => (
                  <button type="button" onClick={() => make(length())}>
                    {words.take.length(formatQuantity(length(), "length", { digits: 5 }))}
                  </button>
                )}
              </Show>
              <Show when={found().biasFrom === "given" && found().present.lengthChange !== null}>
                <button
                  type="button"
                  onClick={() => take(changeValue(work.project(), bias, "null"), words.take.computed)}
                >
                  {words.take.computed}
                </button>
              </Show>
            </p>
          </>
        )}
      </Show>
    </Panel>
  );
}
