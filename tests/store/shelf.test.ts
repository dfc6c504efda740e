import { afterAll, beforeAll, expect, test } from "vitest";
import { demoText } from "../../src/core/index.ts";
import { glassdrum, ownFolder } from "../command/glassdrum.ts";

let folder: Awaited<ReturnType<typeof ownFolder>>;
beforeAll(async () => {
  folder = await ownFolder();
});
afterAll(() => folder.remove());
const run = (...args: string[]) => glassdrum([...args, "--data", folder.path], { cwd: folder.path });

test("the command makes a project on the shelf and reads it from there by its title", async () => {
  const made = await run("new", "shelf:Wind tunnel ear", "--from", "demo");
  expect([made.status, made.err]).toEqual([0, ""]);
  const checked = await run("check", "shelf:wind tunnel ear", "--json");
  expect([checked.status, JSON.parse(checked.out).problems]).toEqual([0, []]);
  const from = await glassdrum(["check", "-"], { cwd: folder.path, input: demoText });
  expect(from.status).toBe(0);
});

test("a title that is not there, or there twice, is answered with what is there", async () => {
  const none = await run("check", "shelf:nothing", "--json");
  expect([none.status, JSON.parse(none.out).problems[0].code]).toEqual([2, "no-such-project"]);
  expect(none.out).toContain("Wind tunnel ear");
  await run("new", "shelf:Wind tunnel ear");
  const twice = await run("check", "shelf:Wind tunnel ear", "--json");
  expect([twice.status, JSON.parse(twice.out).problems[0].code]).toEqual([2, "several-projects"]);
});
