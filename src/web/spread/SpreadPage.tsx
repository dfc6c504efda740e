/** Spread: yield against the brief, what matters most, the worst corners and what to buy. */
import { createSignal, type JSX, Show } from "solid-js";
import { type Spread, spreadDefaults } from "../../core/index.ts";
import { PageFrame } from "../shell/PageFrame.tsx";
import { partText } from "../shell/partText.ts";
import { useWork } from "../shell/work.ts";
import { BandPanel } from "./BandPanel.tsx";
import { KeptYields } from "./KeptYields.tsx";
import { PurchasePanel } from "./PurchasePanel.tsx";
import { spreadParts } from "./parts.ts";
import { CornersPanel, InfluencePanel, NumbersPanel } from "./Results.tsx";
import { createSpreadRun } from "./run.ts";
import { Varied } from "./Varied.tsx";
import { YieldPanel } from "./YieldPanel.tsx";
import "./spread.css";

/** Points a set for the indices: fewer would only show their own scatter. */
const influenceOf = (count: number) => Math.max(32, Math.min(spreadDefaults.influence, count / 8));
const { seed } = spreadDefaults;

/** Without a requirement every specimen passes, and that says nothing. */
const asked = ({ byRequirement }: Spread): boolean => byRequirement.some((one) => one.yield !== null);

export function SpreadPage(): JSX.Element {
  const work = useWork();
  const [count, setCount] = createSignal(200);
  const [wanted, setWanted] = createSignal<number>(spreadDefaults.wanted);
  const run = createSpreadRun(
    () => ({ text: partText(work.project(), spreadParts), count: count(), influence: influenceOf(count()), seed }),
    wanted,
  );
  return (
    <PageFrame page="spread" grid="spread-page">
      <YieldPanel run={run} count={count()} setCount={setCount} />
      <Varied spread={run.spread()} />
      <Show when={run.spread()}>
        {(found) => (
          <>
            <Show when={asked(found())}>
              <PurchasePanel spread={found()} wanted={wanted()} setWanted={setWanted} />
            </Show>
            <BandPanel spread={found()} />
            <Show when={asked(found())}>
              <InfluencePanel spread={found()} />
            </Show>
            <NumbersPanel spread={found()} />
            <Show when={asked(found())}>
              <KeptYields own={found().yield} count={count()} seed={seed} ready={run.state() === "current"} />
              <CornersPanel spread={found()} />
            </Show>
          </>
        )}
      </Show>
    </PageFrame>
  );
}
