/** What a search has found: designs beside the present one, what stands in the way, what each pays, and how sure it is. */
import { createMemo, For, type JSX, Show } from "solid-js";
import {
  type Choices,
  type ChosenDesign,
  changeValue,
  findPath,
  formatQuantity,
  measures,
  type Outcome,
  type Project,
  plainQuantity,
  type Refusal,
  readBrief,
  readQuantity,
} from "../../core/index.ts";
import { tradeOffFigure } from "../../figure/tradeOffFigure.ts";
import { chooseWords as words } from "../../words/en/choosePage.ts";
import { measureText, measureWords } from "../../words/en/measures.ts";
import { requirementWords } from "../../words/en/requirements.ts";
import { withKept } from "../kept/keptDesigns.ts";
import { lay } from "../kept/laid.ts";
import { FigureOf } from "../shell/Figure.tsx";
import { measureOf } from "../shell/measureOf.ts";
import { pageAddress } from "../shell/route.ts";
import { Sign } from "../shell/Sign.tsx";
import { useWork, type Work } from "../shell/work.ts";
import { reserveShare } from "../spread/share.ts";

type Values = ChosenDesign["set"];

/** The project with those values. Problems: those of `changeValue`. */
const withSet = (project: Project, set: Values): Outcome<Project> =>
  Object.entries(set).reduce<Outcome<Project>>(
    (changed, [path, value]) => (changed.ok ? changeValue(changed.value, path, value) : changed),
    { ok: true, value: project, remarks: [] },
  );

function take(work: Work, set: Values, says: string): void {
  const changed = withSet(work.project(), set);
  if (changed.ok) work.replace(changed.value, says);
}

function keep(work: Work, set: Values, name: string): void {
  const other = withSet(work.project(), set);
  const kept = other.ok ? withKept(work.project(), name, other.value) : other;
  if (!kept.ok) return;
  lay(name, true);
  work.replace(kept.value, words.kept(name));
}

export function Found(props: { readonly found: Choices }): JSX.Element {
  const work = useWork();
  const search = () => props.found.search;
  const met = () => props.found.refused.length === 0;
  /** As proposed: then they can be met together. */
  function relaxAll(): void {
    const set = props.found.refused.map(({ requirement, nearest }) => [requirement, relaxedText(requirement, nearest)]);
    take(work, Object.fromEntries(set), words.relaxedAll);
  }
  const apart = () => Math.max(...search().ends) - Math.min(...search().ends);
  return (
    <>
      <p class="choose-says" data-met={met()}>
        <b>
          {met()
            ? words.met(props.found.designs.length)
            : search().stopped
              ? words.stopped(search().evaluations)
              : words.leastBad}
        </b>
      </p>
      <Designs found={props.found} />
      <Show when={!met()}>
        <h4>
          {search().stopped ? words.missedSoFar : words.inTheWay}{" "}
          <Show when={props.found.refused.length > 1}>
            <button type="button" class="word" onClick={relaxAll}>
              {words.relaxAll}
            </button>
          </Show>
        </h4>
        <ul class="choose-refused">
          <For each={props.found.refused}>{(one) => <Refused refusal={one} />}</For>
        </ul>
      </Show>
      <Show when={props.found.tradeOff.length > 2}>
        <TradeOff found={props.found} />
      </Show>
      <p class="aside">
        {words.searched(search().evaluations, search().seed)}{" "}
        {search().settled
          ? words.settled(apart() < 1e-3 ? null : reserveShare(apart()))
          : search().ends.length < 2
            ? words.cut
            : words.unsettled}{" "}
        {words.missed(search().scanned, search().scannedBetter)}
      </p>
    </>
  );
}

function Designs(props: { readonly found: Choices }): JSX.Element {
  const work = useWork();
  const paths = createMemo(() => [...new Set(props.found.designs.flatMap(({ set }) => Object.keys(set)))]);
  const valueText = (path: string, text: string | undefined) => {
    const place = findPath(path);
    const read = place.ok && text !== undefined ? readQuantity(text, place.value.kind, []) : null;
    return place.ok && read?.ok ? formatQuantity(read.value, place.value.kind, { digits: 4 }) : (text ?? "");
  };
  const present = (path: string) => {
    const place = findPath(path);
    const read = place.ok ? place.value.read(work.project()) : place;
    return place.ok && read.ok ? formatQuantity(read.value, place.value.kind, { digits: 4 }) : "";
  };
  const nameOf = (design: ChosenDesign) => design.as.join(", ");
  const missed = (design: ChosenDesign) =>
    design.verdict.filter(({ met }) => met === false).map(({ requirement }) => requirementWords(requirement).label);
  const prediction = () => work.rested()?.prediction ?? null;
  return (
    <section class="scroll choose-designs" tabindex="0" aria-label={words.title}>
      <table>
        <caption>{words.title}</caption>
        <thead>
          <tr>
            <th scope="col">{words.design}</th>
            <th scope="col">{words.now}</th>
            <For each={props.found.designs}>
              {(design, i) => (
                <th scope="col">
                  {i() + 1} <span class="aside">{nameOf(design)}</span>
                </th>
              )}
            </For>
          </tr>
          <tr class="choose-do">
            <td />
            <td />
            <For each={props.found.designs}>
              {(design, i) => (
                <td>
                  <button
                    type="button"
                    class="word"
                    aria-label={`${words.take} ${i() + 1}`}
                    onClick={() => take(work, design.set, words.taken(nameOf(design)))}
                  >
                    {words.take}
                  </button>
                  <button
                    type="button"
                    class="word"
                    aria-label={`${words.keep} ${i() + 1}`}
                    onClick={() => keep(work, design.set, nameOf(design).slice(0, 40))}
                  >
                    {words.keep}
                  </button>
                </td>
              )}
            </For>
          </tr>
        </thead>
        <tbody>
          <For each={paths()}>
            {(path) => {
              const place = findPath(path);
              return (
                <tr>
                  <th scope="row">{place.ok ? place.value.label : path}</th>
                  <td>{present(path)}</td>
                  <For each={props.found.designs}>
                    {({ set }) => (
                      <td>
                        <b>{valueText(path, set[path])}</b>
                      </td>
                    )}
                  </For>
                </tr>
              );
            }}
          </For>
        </tbody>
        <tbody>
          <For each={measures.filter((measure) => props.found.designs.some((one) => one.measures[measure] !== null))}>
            {(measure) => (
              <tr>
                <th scope="row">{measureWords[measure].label}</th>
                <td class="aside">
                  {prediction() === null ? "" : measureText(measure, measureOf(prediction()!, measure))}
                </td>
                <For each={props.found.designs}>{(one) => <td>{measureText(measure, one.measures[measure])}</td>}</For>
              </tr>
            )}
          </For>
          <tr>
            <th scope="row">{words.scarcest}</th>
            <td />
            <For each={props.found.designs}>
              {(design) => (
                <td classList={{ missed: missed(design).length > 0 }}>
                  <Sign met={missed(design).length === 0} />
                  {missed(design).length > 0
                    ? words.misses(missed(design))
                    : design.reserve === null || design.scarcest === null
                      ? ""
                      : words.spare(requirementWords(design.scarcest).label, reserveShare(design.reserve))}
                </td>
              )}
            </For>
          </tr>
        </tbody>
      </table>
    </section>
  );
}

/** A relaxed requirement as the project file says it. */
const relaxedText = (requirement: string, value: number): string =>
  plainQuantity(value, requirementWords(requirement).kind, { digits: 4 });

function Refused(props: { readonly refusal: Refusal }): JSX.Element {
  const work = useWork();
  const { requirement } = props.refusal;
  const { label, kind } = requirementWords(requirement);
  const text = (value: number) => formatQuantity(value, kind, { digits: 3 });
  const only = () => {
    const { alone, nearest } = props.refusal;
    return alone === null || text(alone) === text(nearest) ? "" : `; ${words.alone(text(alone))}`;
  };
  return (
    <li data-refused={requirement}>
      <p>
        <strong class="what">{label}</strong> {text(props.refusal.asked)}, {words.together(text(props.refusal.nearest))}
        {only()}.
      </p>
      <p class="aside">{props.refusal.reason}</p>
      <p>
        <button
          type="button"
          class="word"
          onClick={() =>
            take(work, { [requirement]: relaxedText(requirement, props.refusal.nearest) }, words.relaxed(label))
          }
        >
          {words.relax(text(props.refusal.nearest))}
        </button>{" "}
        <Show when={/noise|loudest/.test(requirement)}>
          <a href={pageAddress("light")}>{words.change}</a>
        </Show>
      </p>
    </li>
  );
}

function TradeOff(props: { readonly found: Choices }): JSX.Element {
  const work = useWork();
  const place = createMemo(() => {
    const brief = readBrief(work.project());
    const prediction = work.rested()?.prediction ?? null;
    return {
      now:
        prediction === null
          ? null
          : {
              sensitivity: measureOf(prediction, "sensitivity"),
              bandTo: measureOf(prediction, "bandTo"),
              noise: measureOf(prediction, "noise"),
            },
      asked: { sensitivity: brief.sensitivity?.atLeast ?? null, bandTo: brief.band?.to ?? null },
    };
  });
  const said = {
    description: words.tradeOffText,
    band: words.tradeBand,
    sensitivity: words.tradeSensitivity,
    required: words.required,
    now: words.now,
  };
  return (
    <>
      <h4>
        {words.tradeOff} <span class="aside">{words.tradeOffAside}</span>
      </h4>
      <FigureOf draw={(room) => tradeOffFigure(props.found, place(), said, room)} />
    </>
  );
}
