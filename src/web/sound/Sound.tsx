/** Sound through the predicted response: a sound of ours or a recording of the user's, as it is and behind the microphone. */
import { createSignal, For, type JSX, onCleanup, Show } from "solid-js";
import {
  earGain,
  formatQuantity,
  type Heard,
  type Problem,
  projectText,
  type SoundName,
  soundNames,
} from "../../core/index.ts";
import { shellWords } from "../../words/en/shell.ts";
import { heardSays, soundWords as words } from "../../words/en/sound.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { useWork } from "../shell/work.ts";
import { chosenSound } from "./chosenSound.ts";
import { createPlayer } from "./player.ts";
import "./sound.css";

export function Sound(): JSX.Element {
  const work = useWork();
  const player = createPlayer();
  const [which, setWhich] = createSignal<SoundName | "own">("clap");
  const [tone, setTone] = createSignal("1 kHz");
  const [file, setFile] = createSignal<File | null>(null);
  const [heard, setHeard] = createSignal<Heard | null>(null);
  const [problems, setProblems] = createSignal<readonly Problem[]>([]);
  const [computing, setComputing] = createSignal(false);
  const [level, setLevel] = createSignal(-20);
  let picker!: HTMLInputElement;
  onCleanup(() => player?.end());

  async function compute(): Promise<void> {
    player?.stop();
    setProblems([]);
    const sound = await chosenSound(which(), { tone: tone(), file: file() });
    if (!sound.ok) return void setProblems(sound.problems);
    setComputing(true);
    const input = { text: projectText(work.project()), sound: sound.value };
    const reply = await work.worker.ask("listen", "listen", input, { urgency: "refine" });
    // A newer question says when it is done.
    if (reply.kind !== "answer" && reply.kind !== "refused") return;
    setComputing(false);
    setHeard(reply.kind === "answer" ? reply.value : null);
    if (reply.kind === "refused") setProblems(reply.problems);
  }
  function take(taken: File | undefined): void {
    if (taken === undefined) return;
    setFile(taken);
    setWhich("own");
    void compute();
  }
  function play(what: "asItIs" | "through"): void {
    const known = heard();
    if (known === null) return;
    // One factor for both, so that they can be compared.
    const gain = earGain(known.sound, known.heard);
    const sound = what === "asItIs" ? known.sound : known.heard;
    player?.play(what, sound, { sampling: known.sampling, gain, level: level() });
  }
  return (
    <Panel title={words.title} aside={words.hint} class="listening">
      <details>
        <summary>{words.show}</summary>
        <p class="warning">{words.warning}</p>
        <Show when={player === null}>
          <p>{words.noAudio}</p>
        </Show>
        <fieldset
          class="listening-controls"
          aria-label={words.title}
          onDrop={(event) => {
            event.preventDefault();
            event.stopPropagation();
            delete document.documentElement.dataset["dropping"];
            take(event.dataTransfer?.files[0]);
          }}
        >
          <label>
            {words.which}
            <select
              onChange={(event) => {
                setWhich(event.currentTarget.value as SoundName | "own");
                setHeard(null);
              }}
            >
              <For each={soundNames}>
                {(name) => (
                  <option value={name} selected={which() === name}>
                    {name}
                  </option>
                )}
              </For>
              <option value="own" selected={which() === "own"}>
                {words.own}
              </option>
            </select>
          </label>
          <Show when={which() === "tone"}>
            <label>
              {words.toneAt}
              <input
                type="text"
                autocomplete="off"
                value={tone()}
                onChange={(event) => setTone(event.currentTarget.value)}
              />
            </label>
          </Show>
          <Show when={which() === "own"}>
            <input
              ref={picker}
              type="file"
              accept=".wav,audio/wav"
              class="picker"
              tabindex="-1"
              aria-label={words.choose}
              onChange={(event) => take(event.currentTarget.files?.[0])}
            />
            <button type="button" onClick={() => picker.click()}>
              {words.choose}
            </button>
            <span class="aside">{file()?.name ?? words.drop}</span>
          </Show>
          <button type="button" onClick={() => void compute()}>
            {words.compute}
          </button>
        </fieldset>
        <div role="status">
          <Show when={computing()}>
            <p class="aside">{shellWords.computing(words.computing)}</p>
          </Show>
          <For each={problems()}>{({ message }) => <p class="problem">{message}</p>}</For>
          <Show when={heard()}>{(known) => <p data-heard={known().levelChangeDb ?? ""}>{heardSays(known())}</p>}</Show>
        </div>
        <Show when={heard() !== null && player !== null}>
          <div class="listening-controls">
            <button type="button" aria-pressed={player?.playing() === "asItIs"} onClick={() => play("asItIs")}>
              {words.asItIs}
            </button>
            <button type="button" aria-pressed={player?.playing() === "through"} onClick={() => play("through")}>
              {words.through}
            </button>
            <button type="button" disabled={player?.playing() === null} onClick={() => player?.stop()}>
              {words.stop}
            </button>
            <label>
              {words.level}
              <input
                type="range"
                min="-40"
                max="0"
                step="1"
                value={level()}
                aria-valuetext={`${level()} dB ${words.levelHint}`}
                onInput={(event) => setLevel(Number(event.currentTarget.value))}
              />
              <span class="aside">
                {formatQuantity(Math.abs(level()), "decibel", { digits: 2 })} {words.levelHint}
              </span>
            </label>
          </div>
        </Show>
        <p class="aside">{words.origins}</p>
      </details>
    </Panel>
  );
}
