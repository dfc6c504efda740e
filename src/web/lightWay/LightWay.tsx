/** The light's way: a section along the guide, from the laser to the detectors, lengths to scale. A touch opens the values of a part. */
import { createMemo, createSignal, type JSX, onCleanup, onMount, Show } from "solid-js";
import { findPath, type Project } from "../../core/index.ts";
import { asGiven } from "../../words/asGiven.ts";
import { lightWayWords as words } from "../../words/en/lightWay.ts";
import type { Part } from "../bench/fieldList.ts";
import { hearTouches } from "../drawing/touching.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { isThere, valueText } from "../shell/valueText.ts";
import { useWork } from "../shell/work.ts";
import { layWay, type Way } from "./layWay.ts";
import "./lightWay.css";

export function LightWay(props: { readonly touch: (part: Part) => void }): JSX.Element {
  const work = useWork();
  let place!: HTMLDivElement;
  const [width, setWidth] = createSignal(0);
  onMount(() => {
    const observer = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)));
    observer.observe(place);
    onCleanup(() => observer.disconnect());
  });
  const known = createMemo(() => readWay(work.project()));
  const laid = createMemo(() => layWay(known(), width()));
  return (
    <Panel title={words.title} aside={words.hint} class="light-way">
      <div ref={place}>
        <Show when={width() > 0}>
          <Drawn known={known()} laid={laid()} width={width()} touch={props.touch} />
        </Show>
      </div>
      <p class="aside">{words.says(known())}</p>
    </Panel>
  );
}

function Drawn(props: {
  readonly known: Way;
  readonly laid: ReturnType<typeof layWay>;
  readonly width: number;
  readonly touch: (part: Part) => void;
}): JSX.Element {
  const at = () => props.laid;
  const arm = () => props.known.kind === "interferometric";
  return (
    <svg
      ref={(one) => hearTouches(one, props.touch, () => {})}
      class="sheet"
      width={props.width}
      height={at().height}
      role="img"
      aria-label={words.title}
    >
      <g class="frame" data-touch="frame">
        <rect x={at().chip[0]} y={at().sheet[1]} width={at().window[0] - at().chip[0]} height={at().frame} />
        <rect x={at().window[1]} y={at().sheet[1]} width={at().chip[1] - at().window[1]} height={at().frame} />
      </g>
      <rect
        class="plate"
        x={at().chip[0]}
        y={at().sheet[0]}
        width={at().chip[1] - at().chip[0]}
        height={at().sheet[1] - at().sheet[0]}
        data-touch="diaphragm"
      />
      <path class="light-line" d={`M0,${at().light}H${props.width}`} data-touch="guide" />
      <Show when={arm()}>
        <path
          class="light-line other-arm"
          d={`M${at().ends[0]},${at().light}V${at().top}H${at().ends[1]}V${at().light}`}
          data-touch="light"
        />
      </Show>
      <path
        class="element"
        d={`M${at().ends[0]},${at().light - 14}v28M${at().ends[1]},${at().light - 14}v28`}
        data-touch="light"
      />
      <path class="element" d={`M${props.width - 4},${at().light - 8}v16`} data-touch="light" />
      <g class="dimension-lines">
        <path
          d={`M${at().window[0]},${at().bends}H${at().window[1]}M${at().window[0]},${at().bends - 4}v8M${at().window[1]},${at().bends - 4}v8`}
        />
        <path
          d={`M${at().ends[0]},${at().between}H${at().ends[1]}M${at().ends[0]},${at().between - 4}v8M${at().ends[1]},${at().between - 4}v8`}
        />
      </g>
      <g class="way-words">
        <text x={0} y={12}>
          {props.known.laser}
        </text>
        <text x={props.width} y={12} text-anchor="end">
          {words.ports(props.known.outputs)}
        </text>
        <text x={(at().window[0] + at().window[1]) / 2} y={at().bends + 16} text-anchor="middle">
          {props.known.bends} {words.bends}
        </text>
        <text x={(at().ends[0] + at().ends[1]) / 2} y={at().between + 16} text-anchor="middle">
          {props.known.length} {arm() ? words.betweenSplits : words.betweenPolarizers}
        </text>
        <text x={0} y={at().between + 36}>
          {arm() ? words.split : props.known.polarizer}
        </text>
        <text x={props.width} y={at().between + 36} text-anchor="end">
          {arm() ? words.joined : props.known.analyzer}
        </text>
      </g>
    </svg>
  );
}

/** What the drawing says, with the digits that it was given with. */
function readWay(project: Project): Way {
  const guide = isThere(project, "microphone.guide[0]") ? "microphone.guide[0]" : "microphone.guide";
  const read = (path: string): number | null => {
    const found = findPath(path);
    const value = found.ok ? found.value.read(project) : found;
    return value.ok ? value.value : null;
  };
  const told = (path: string): string => {
    const found = findPath(path);
    const value = read(path);
    return found.ok && value !== null ? asGiven(value, found.value.kind) : words.unknown;
  };
  return {
    kind: valueText(project, "microphone.readout.kind") === "interferometric" ? "interferometric" : "polarimetric",
    outputs: valueText(project, "microphone.readout.outputs") === "both" ? "both" : "one",
    laser: `${told("microphone.light.wavelength")}, ${told("microphone.light.launched")}`,
    polarizer: words.polarizer(told("microphone.readout.polarizer.angle")),
    analyzer: words.analyzer(told("microphone.readout.analyzer.angle")),
    bends: told("microphone.diaphragm.along"),
    length: told(`${guide}.length`),
    along: read("microphone.diaphragm.along") ?? 5e-3,
    between: read(`${guide}.length`),
    face: valueText(project, `${guide}.face`) === "back" ? "back" : "front",
  };
}
