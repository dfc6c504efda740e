/** Files from a picker, or dropped anywhere on the page: projects, archives, records. */
import { onCleanup, onMount } from "solid-js";
import { loadProject, type Problem, type Project } from "../../core/index.ts";
import { fileBytes } from "../../worker/fileBytes.ts";

interface Taken {
  readonly opened: (project: Project, name: string) => void;
  /** A ZIP: projects for the library. */
  readonly archive: (file: File) => Promise<void>;
  /** What an instrument wrote. */
  readonly record: (name: string, file: File) => Promise<void>;
  readonly refused: (name: string, problems: readonly Problem[]) => void;
}

const recordNames = /\.(csv|tsv|txt|dat|asc|wav|h5|hdf5)$/i;
const brace = "{".charCodeAt(0);

/** Listens for dropped files; gives the function that takes a chosen one. */
export function takeFiles({ opened, archive, record, refused }: Taken): (file: File) => Promise<void> {
  async function take(file: File): Promise<void> {
    if (/\.zip$/i.test(file.name)) return archive(file);
    const isRecord = recordNames.test(file.name);
    // A record may be large: its first byte tells it from a project.
    const start = await fileBytes(isRecord ? file.slice(0, 1) : file);
    if (!start.ok) return refused(file.name, start.problems);
    if (isRecord && start.value[0] !== brace) return record(file.name, file);
    const bytes = isRecord ? await fileBytes(file) : start;
    if (!bytes.ok) return refused(file.name, bytes.problems);
    const loaded = loadProject(bytes.value);
    if (loaded.ok) opened(loaded.value, file.name);
    else refused(file.name, loaded.problems);
  }
  const carriesFiles = (event: DragEvent) => event.dataTransfer?.types.includes("Files") === true;
  function over(event: DragEvent): void {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    document.documentElement.dataset["dropping"] = "";
  }
  function leave(event: DragEvent): void {
    // Leaving the window, not only one element of it.
    if (event.relatedTarget === null) delete document.documentElement.dataset["dropping"];
  }
  function drop(event: DragEvent): void {
    delete document.documentElement.dataset["dropping"];
    // A place of the page that takes files itself has taken it.
    if (!carriesFiles(event) || event.defaultPrevented) return;
    event.preventDefault();
    for (const file of event.dataTransfer?.files ?? []) void take(file);
  }
  onMount(() => {
    window.addEventListener("dragover", over);
    window.addEventListener("dragleave", leave);
    window.addEventListener("drop", drop);
  });
  onCleanup(() => {
    window.removeEventListener("dragover", over);
    window.removeEventListener("dragleave", leave);
    window.removeEventListener("drop", drop);
  });
  return take;
}
