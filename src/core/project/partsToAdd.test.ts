import { expect, test } from "vitest";
import { describe } from "./describe.ts";
import { changeValue, loadProject, type Project } from "./load.ts";
import { partsToAdd } from "./partsToAdd.ts";
import { starterText } from "./starter.ts";

function project(text: string): Project {
  const loaded = loadProject(text);
  if (!loaded.ok) throw new Error(loaded.problems[0]?.message);
  return loaded.value;
}

test("every part that can be added makes a microphone that is described, and can be taken away again", () => {
  for (const [key, { path, value, absent }] of Object.entries(partsToAdd)) {
    const before = changeValue(project(starterText()), partsToAdd.film.path, partsToAdd.film.value);
    const added = before.ok ? changeValue(before.value, path, value) : before;
    expect(added.ok ? [] : added.problems, key).toEqual([]);
    if (!added.ok) continue;
    const described = describe(added.value);
    expect(described.ok ? [] : described.problems, key).toEqual([]);
    const taken = changeValue(added.value, path, absent);
    expect(taken.ok ? [] : taken.problems, key).toEqual([]);
  }
});
