/** A quarter of the diaphragm's front face: stretched or pressed, per pressure from the front. */
import { For, type JSX } from "solid-js";
import { formatNumber, type Limits } from "../../core/index.ts";
import { limitsWords as words } from "../../words/en/limitsPage.ts";

/** Size of the longer side [px], and room for the words. */
const longer = 240;
const room = 18;

export function StressMap(props: { readonly stress: Limits["stress"] }): JSX.Element {
  const size = () => {
    const { across, along } = props.stress;
    const most = Math.max(across, along);
    return { width: (longer * across) / most, height: (longer * along) / most };
  };
  const largest = () => props.stress.values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const per = () => `${formatNumber(largest() / 1e3, { digits: 3 })} MPa per kPa`;
  const cells = () => {
    const { count, values } = props.stress;
    const { width, height } = size();
    const [w, h] = [width / count, height / count];
    return values.map((value, at) => ({
      x: (at % count) * w,
      // The middle of the diaphragm is below on the left, y upwards.
      y: height - (Math.floor(at / count) + 1) * h,
      w,
      h,
      share: Math.abs(value) / (largest() || 1),
      color: value > 0 ? "var(--light)" : "var(--drag)",
    }));
  };
  return (
    <figure class="stress-figure">
      <svg
        class="stress-map"
        viewBox={`0 ${-room} ${size().width + 2} ${size().height + 2 * room}`}
        role="img"
        aria-label={`${words.map}. ${words.mapSays(per())}`}
      >
        <For each={cells()}>
          {(cell) => (
            <rect
              shape-rendering="crispEdges"
              x={cell.x}
              y={cell.y}
              width={cell.w}
              height={cell.h}
              fill={cell.color}
              fill-opacity={cell.share}
            />
          )}
        </For>
        <rect x={0.5} y={0.5} width={size().width} height={size().height} fill="none" stroke="var(--hairline)" />
        <text x={0} y={-6}>
          {words.end}
        </text>
        <text x={0} y={size().height + 13}>
          {words.center}
        </text>
        <text x={size().width} y={size().height + 13} text-anchor="end">
          {words.side}
        </text>
      </svg>
      <figcaption class="aside">
        {words.map}. {words.mapSays(per())}
      </figcaption>
    </figure>
  );
}
