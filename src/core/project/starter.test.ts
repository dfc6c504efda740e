import { expect, test } from "vitest";
import { describe as describeProject } from "./describe.ts";
import { loadProject } from "./load.ts";
import { formatName, formatVersion } from "./shape.ts";
import { starterText } from "./starter.ts";

const microphoneOf = (text: string) => {
  const project = loadProject(text);
  if (!project.ok) throw new Error(JSON.stringify(project.problems));
  const microphone = describeProject(project.value);
  if (!microphone.ok) throw new Error(JSON.stringify(microphone.problems));
  return microphone.value;
};

test("a new project writes the defaults out: it describes the same microphone as one that says nothing", () => {
  const silent = JSON.stringify({ format: formatName, version: formatVersion });
  expect(microphoneOf(starterText())).toEqual(microphoneOf(silent));
});

test("a new project has no key that is not known", () => {
  const project = loadProject(starterText());
  expect(project.ok && project.remarks).toEqual([]);
});
