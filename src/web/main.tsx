/** The start: asks the app's server for the project and puts it on the table. */
import { createResource, For, type JSX, Match, Show, Switch } from "solid-js";
import { render } from "solid-js/web";
import { loadProject, type Problem, type Project, pathText } from "../core/index.ts";
import type { OpenedProject, Refused } from "../server/api.ts";
import { benchWords as words } from "../words/en/bench.ts";
import { App } from "./shell/App.tsx";
import { lastOpened } from "./shell/keeping.ts";
import { library } from "./shell/library.ts";
import { dressPage } from "./shell/paper.ts";
import { loadTypeface } from "./shell/typeface.ts";
import "./tokens.css";
import "./drawing.css";
import "./charts.css";
import "./fields.css";
import "./numbers.css";
import "./tables.css";
import "./shell/requirements.css";
// Last of these: what it says of widths and paper holds for the others.
import "./page.css";
import "./shell/shell.css";

type Opened =
  | { readonly kind: "project"; readonly project: Project; readonly opened: OpenedProject }
  | { readonly kind: "problems"; readonly title: string; readonly hint: string; readonly problems: readonly Problem[] };

async function openProject(): Promise<Opened> {
  try {
    const response = await fetch("/api/project");
    if (!response.ok) {
      loadTypeface();
      const { problems } = (await response.json()) as Refused;
      return { kind: "problems", title: words.unreadable, hint: words.mend, problems };
    }
    const opened = await returned((await response.json()) as OpenedProject);
    const loaded = loadProject(opened.text);
    if (!loaded.ok) {
      loadTypeface();
      return { kind: "problems", title: words.unreadable, hint: words.mend, problems: loaded.problems };
    }
    return { kind: "project", project: loaded.value, opened };
  } catch {
    return {
      kind: "problems",
      title: words.noServer,
      hint: "",
      problems: [{ code: "no-server", path: [], message: words.reload }],
    };
  }
}

/** What lay on the table when this page was loaded before; else what the server was opened with. */
async function returned(opened: OpenedProject): Promise<OpenedProject> {
  const id = lastOpened();
  if (id === null || opened.inLibrary?.id === id) return opened;
  const found = await library.project(id);
  if (!found.ok) return opened;
  const { text, state } = found.value;
  return { name: null, text, inLibrary: { id, state }, beside: null, fileHash: null };
}

function Start(): JSX.Element {
  const [opened] = createResource(openProject);
  const project = () => {
    const found = opened();
    return found?.kind === "project" ? found : undefined;
  };
  const problems = () => {
    const found = opened();
    return found?.kind === "problems" ? found : undefined;
  };
  return (
    <Switch fallback={<p class="state">{words.computing}</p>}>
      <Match when={project()}>{(found) => <App project={found().project} opened={found().opened} />}</Match>
      <Match when={problems()}>
        {(found) => (
          <main class="unreadable" data-answer="0" data-freshness="none">
            <h1>{found().title}</h1>
            <p class="aside">{found().hint}</p>
            <ul>
              <For each={found().problems}>
                {({ path, message }) => (
                  <li>
                    {/* As the file says it: there it has to be mended. */}
                    <Show when={path.length > 0}>
                      <b>{pathText(path)}:</b>{" "}
                    </Show>
                    {message}
                  </li>
                )}
              </For>
            </ul>
          </main>
        )}
      </Match>
    </Switch>
  );
}

dressPage();
const place = document.getElementById("app");
if (place === null) throw new Error("the page has no place for the app");
render(() => <Start />, place);
