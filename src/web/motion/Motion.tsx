/** How the diaphragm moves: a solid body or a map, at any frequency or in a mode, at any phase, with the film's pressure as color. */
import "./motion.css";
import { createEffect, createMemo, createSignal, type JSX, onCleanup, Show } from "solid-js";
import { formatQuantity, mostModes, projectText, readQuantity } from "../../core/index.ts";
import { motionSays, motionScale, motionWords as words } from "../../words/en/motion.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { TaskState } from "../shell/TaskState.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import { BodyView } from "./BodyView.tsx";
import { ColorScale } from "./ColorScale.tsx";
import { CutChart } from "./CutChart.tsx";
import { MapView } from "./MapView.tsx";
import { MotionTable } from "./MotionTable.tsx";
import { type ColorOf, colored, drawnShare, largest, phaseOfCenter, wrapped } from "./moment.ts";
import { Slide } from "./Slide.tsx";

/** Points a direction: enough for the twelfth mode, and a solution costs more than they do. */
const points = 41;

/** One period as it is shown [s]. */
const shownPeriod = 2;

export function Motion(): JSX.Element {
  const work = useWork();
  const [open, setOpen] = createSignal(false);
  const [mode, setMode] = createSignal<number | null>(null);
  const [typed, setTyped] = createSignal<string | null>(null);
  const [chosenPhase, setPhase] = createSignal<number | null>(null);
  const [running, setRunning] = createSignal(false);
  const [wantedColor, setColor] = createSignal<ColorOf>("deflection");
  const [seen, setSeen] = createSignal<"solid" | "map">("solid");
  const [flat, setFlat] = createSignal(false);
  const [turn, setTurn] = createSignal(35);
  const [tilt, setTilt] = createSignal(28);
  const [cut, setCut] = createSignal<number | null>(null);

  const resonance = () => work.rested()?.prediction.resonance.frequency ?? 1000;
  const text = () => typed() ?? formatQuantity(resonance(), "frequency", { digits: 4 }).replace("\u202f", " ");
  const read = createMemo(() => readQuantity(text(), "frequency", ["frequency"]));
  const frequency = createMemo<number>((before) => {
    const found = read();
    return found.ok && found.value > 0 && found.value <= 1e9 ? found.value : before;
  }, resonance());
  const wrong = () => {
    const found = read();
    return !found.ok || !(found.value > 0 && found.value <= 1e9);
  };
  const answer = taskAnswer(
    "field",
    () => {
      if (!open()) return null;
      const index = mode();
      const of =
        index === null ? { kind: "forced" as const, frequency: frequency() } : { kind: "mode" as const, index };
      return { text: projectText(work.project()), of, points };
    },
    "field",
    "refine",
  );
  const field = answer.value;
  /** Until a phase is chosen: the moment at which the center is farthest out. */
  const phase = () => chosenPhase() ?? phaseOfCenter(field());
  const color = (): ColorOf => (field()?.pressure === null ? "deflection" : wantedColor());
  const isMode = () => field()?.parity !== null;
  const peak = createMemo(() => {
    const known = field();
    return known === null ? 0 : largest(known.deflection);
  });
  const colorPeak = createMemo(() => {
    const known = field();
    return known === null ? 0 : largest(colored(known, color()));
  });

  let last = 0;
  function tick(now: number): void {
    if (!running()) return;
    if (last > 0) setPhase((phase() + (360 * (now - last)) / 1000 / shownPeriod) % 360);
    last = now;
    requestAnimationFrame(tick);
  }
  createEffect(() => {
    last = 0;
    if (running()) requestAnimationFrame(tick);
  });
  onCleanup(() => setRunning(false));
  const decades = () => Math.log10(frequency() / resonance());
  const hertz = (value: number) => formatQuantity(value, "frequency", { digits: 4 }).replace("\u202f", " ");

  return (
    <Panel title={words.title} aside={words.hint} class="motion">
      <details onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>{words.show}</summary>
        <Show when={open()}>
          <div class="motion-controls">
            <label>
              {words.of}
              <select
                onChange={(event) =>
                  setMode(event.currentTarget.value === "" ? null : Number(event.currentTarget.value))
                }
              >
                <option value="">{words.forced}</option>
                {Array.from({ length: mostModes }, (_, i) => (
                  <option value={i}>{words.mode(i + 1)}</option>
                ))}
              </select>
            </label>
            <Show when={mode() === null}>
              <label>
                {words.frequency}
                <input
                  type="text"
                  class="short-text"
                  autocomplete="off"
                  aria-invalid={wrong()}
                  value={text()}
                  onChange={(event) => setTyped(event.currentTarget.value)}
                />
              </label>
              <input
                type="range"
                aria-label={words.frequencySlide}
                aria-valuetext={hertz(frequency())}
                min="-2"
                max="0.7"
                step="0.01"
                value={decades()}
                onInput={(event) => setTyped(hertz(resonance() * 10 ** Number(event.currentTarget.value)))}
              />
              <button type="button" class="word" onClick={() => setTyped(null)}>
                {words.atResonance}
              </button>
              <Show when={wrong()}>
                <p class="problem" role="status">
                  {words.badFrequency} {hertz(resonance())}.
                </p>
              </Show>
            </Show>
            <Slide label={words.phase} unit="°" low={0} high={359} step={5} value={phase()} set={setPhase} />
            <button type="button" aria-pressed={running()} onClick={() => setRunning(!running())}>
              {running() ? words.stop : words.run}
            </button>
            <label>
              {words.color}
              <select onChange={(event) => setColor(event.currentTarget.value as ColorOf)}>
                <option value="deflection">{words.colors.deflection}</option>
                <option
                  value="pressure"
                  selected={color() === "pressure"}
                  disabled={field() !== null && field()?.pressure === null}
                >
                  {words.colors.pressure}
                </option>
              </select>
            </label>
            <label>
              {words.seen}
              <select disabled={flat()} onChange={(event) => setSeen(event.currentTarget.value as "solid" | "map")}>
                <option value="solid">{words.seenAs.solid}</option>
                <option value="map" selected={flat()}>
                  {words.seenAs.map}
                </option>
              </select>
            </label>
            <Show when={seen() === "solid" && !flat()}>
              <Slide label={words.turn} unit="°" low={-180} high={180} step={5} value={turn()} set={setTurn} />
              <Slide label={words.tilt} unit="°" low={-10} high={90} step={5} value={tilt()} set={setTilt} />
            </Show>
            <Slide
              label={words.cut}
              unit="%"
              low={-100}
              high={100}
              step={5}
              value={Math.round(100 * (cut() ?? -1))}
              set={(value) => setCut(value <= -100 ? null : value / 100)}
            />
          </div>
          <TaskState answer={answer} what={words.what} />
          <Show when={flat()}>
            <p class="aside">{words.noWebgl}</p>
          </Show>
          <Show when={field()}>
            {(known) => (
              <>
                <Show
                  when={seen() === "solid" && !flat()}
                  fallback={
                    <MapView field={known()} phase={phase()} color={color()} peak={colorPeak()} says={says()} />
                  }
                >
                  <BodyView
                    field={known()}
                    phase={phase()}
                    color={color()}
                    peak={peak()}
                    colorPeak={colorPeak()}
                    turn={turn()}
                    tilt={tilt()}
                    cut={cut()}
                    says={says()}
                    onTurn={(by, up) => {
                      setTurn(wrapped(turn() + by));
                      setTilt(Math.min(90, Math.max(-10, tilt() + up)));
                    }}
                    onRun={() => setRunning(!running())}
                    onMissing={() => setFlat(true)}
                  />
                </Show>
                <ColorScale of={color()} peak={colorPeak()} mode={isMode()} />
                <p class="aside">
                  {words.toDevice}; {motionScale(peak(), drawnShare * (known().across / peak()), isMode())}
                </p>
                <CutChart field={known()} phase={phase()} cut={cut() ?? 0} />
                <MotionTable field={known()} />
              </>
            )}
          </Show>
        </Show>
      </details>
    </Panel>
  );

  function says(): string {
    const known = field();
    if (known === null) return words.title;
    const index = mode();
    return motionSays({
      frequency: known.frequency,
      mode: known.parity === null || index === null ? null : index + 1,
      largest: peak(),
      phase: phase(),
    });
  }
}
