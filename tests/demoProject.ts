/** The demo, and projects made of it, for tests. */
import { demoText } from "../src/core/project/demo.ts";
import { changeValue, loadProject, type Project } from "../src/core/project/load.ts";
import { good } from "./outcomes.ts";

export const demo: Project = good(loadProject(demoText));

/** A file that says nothing: everything as the defaults have it. */
export const bare: Project = good(loadProject('{ "format": "glassdrum-project", "version": 1 }'));

/** A project with other values, by path, as a file says them. */
export const changed = (project: Project, values: Readonly<Record<string, string>>): Project =>
  Object.entries(values).reduce((one, [path, value]) => good(changeValue(one, path, value)), project);
