/** The reading into a specimen of the project: one click, one step of the history; the file goes with it into the library. */
import { createSignal, For, type JSX, Show } from "solid-js";
import { intoProject, type Problem, plainQuantity, type RecordAnswer } from "../../core/index.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import { fileBytes } from "../../worker/fileBytes.ts";
import { useKeeping } from "../shell/KeepingContext.ts";
import { library } from "../shell/library.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { ProblemList } from "../shell/ProblemList.tsx";
import { useWork } from "../shell/work.ts";
import type { LaidRecord } from "./table.ts";

export function IntoSpecimen(props: { readonly record: LaidRecord; readonly answer: RecordAnswer }): JSX.Element {
  const work = useWork();
  const keeping = useKeeping();
  const specimens = () => work.project().file.specimens ?? [];
  const [name, setName] = createSignal(specimens()[0]?.name ?? specimens()[0]?.id ?? "");
  const [said, setSaid] = createSignal("");
  const [problems, setProblems] = createSignal<readonly Problem[]>([]);

  async function write(): Promise<void> {
    const { fit, understood } = props.answer;
    if (fit === null) return;
    const { file, excitation, options } = props.record;
    const specimen = name().trim();
    const bytes = await fileBytes(file);
    if (!bytes.ok) {
      setSaid("");
      return void setProblems(bytes.problems);
    }
    const sha256 = hex(await crypto.subtle.digest("SHA-256", bytes.value));
    const axis = fit.axis === "frequency" ? "frequency" : fit.axis === "position" ? "length" : "time";
    const end = (value: number | undefined) => (value === undefined ? {} : plainQuantity(value, axis, { digits: 9 }));
    const use = { ...part("from", end(options.from)), ...part("to", end(options.to)) };
    const changed = intoProject(work.project(), {
      specimen,
      file: props.record.name,
      sha256,
      kind: options.kind ?? fit.reading.kind,
      recipe: understood.recipe,
      ...(Object.keys(use).length > 0 && { use }),
      ...(excitation !== null && { excitation: plainQuantity(excitation, "soundLevel", { digits: 4 }) }),
      reading: fit.reading,
    });
    setProblems(changed.ok ? [] : changed.problems);
    if (!changed.ok) return void setSaid("");
    work.replace(changed.value, words.wroteStep(props.record.name, specimen));
    setSaid(words.wrote(props.record.name, specimen));
    await keeping.keep();
    const id = keeping.id();
    const kept = id === null ? null : await library.addRecord(id, props.record.name, file);
    if (kept !== null && !kept.ok) setProblems(kept.problems);
  }

  return (
    <Panel title={words.into} aside={words.intoHint} class="into">
      <div class="pairs">
        <label>
          {words.specimen}
          <input
            class="short"
            list="specimens"
            value={name()}
            placeholder="A3"
            onInput={(event) => setName(event.currentTarget.value)}
          />
          <datalist id="specimens">
            <For each={specimens()}>{(one) => <option value={one.name ?? one.id ?? ""} />}</For>
          </datalist>
        </label>
        <p class="write">
          <button type="button" onClick={() => void write()}>
            {words.write}
          </button>
        </p>
      </div>
      <p class="aside" role="status">
        {said()}
      </p>
      <Show when={problems().length > 0}>
        <ProblemList title={words.notWritten} problems={problems()} />
      </Show>
    </Panel>
  );
}

const part = (key: "from" | "to", text: string | object) => (typeof text === "string" ? { [key]: text } : {});

const hex = (buffer: ArrayBuffer): string =>
  Array.from(new Uint8Array(buffer), (byte) => byte.toString(16).padStart(2, "0")).join("");
