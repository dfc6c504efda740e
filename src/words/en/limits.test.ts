import { describe, expect, test } from "vitest";
import { limits, loadProject } from "../../core/index.ts";
import { demoText } from "../../core/project/demo.ts";
import { limitsLines, loudestText, mixingText, strengthNotes, strengthText } from "./limits.ts";
import { fallText, lastText, overloadName, recoveryLines, usedText } from "./recovery.ts";

const loaded = loadProject(demoText);
if (!loaded.ok) throw new Error("The demo is a project.");
const answered = limits(loaded.value);
if (!answered.ok) throw new Error(answered.problems[0]?.message);
const found = answered.value;
const one = (lines: readonly string[]) => lines.map((line) => line.trim()).join(" ");

describe("the limits in words", () => {
  test("strength says what the vent leaves and what bears when it is blocked, and what each assumes", () => {
    expect(strengthText(found.strength)).toMatch(/^safety factor 21\.8 .*; 3\.09 with the vent blocked/);
    const notes = strengthNotes(found.strength!);
    expect(notes[0]).toMatch(/33\.7\u00a0?.?Pa, factor 183, which counts and assumes an open vent/);
    expect(notes[0]).toMatch(/blocked by dust, ice or a finger all of it bears, factor 3\.09/);
    expect(notes.at(-1)).toMatch(/^Cover the port, never blow to clean: a breath of .* leaves a factor of 1\.23/);
  });

  test("a diaphragm that bears a breath many times has no word about it", () => {
    const cases = found.strength!.cases.map((load) => ({ ...load, factor: 50 }));
    expect(strengthNotes({ ...found.strength!, cases }).join(" ")).not.toContain("breath");
  });

  test("the loudest sound is that of all causes at once, with each alone beside it", () => {
    expect(loudestText(found.loudest)).toMatch(
      /3 % distortion, all causes at once; alone readout .*, stretched diaphragm/,
    );
    expect(mixingText(found.mixing!)).toMatch(/that level counts in every verdict\. Second opinion/);
    expect(mixingText({ ...found.mixing!, stopped: "no-balance", apart: null })).toContain("the state is not unique");
  });

  test("an overload says when it is over, what is the last of it, or that the wall was met", () => {
    const said = one(recoveryLines(found.recovery!, 98));
    expect(said).toMatch(/The last of it creeps \(vent, cavities or film\)/);
    expect(said).toMatch(/The diaphragm meets the wall behind the film/);
    const [asked, above] = found.recovery!.overloads;
    expect([fallText(0), fallText(null)]).toEqual(["at once", "–"]);
    expect([overloadName(asked!), usedText({ ...above!, used: null }), usedText({ ...above!, used: 1.2 })]).toEqual([
      "asked for",
      "–",
      "all",
    ]);
    expect(lastText({ ...above!, last: { decay: 1e-3, frequency: 5e3 } })).toMatch(/^The last of it rings at 5\.0/);
    const lost = {
      ...found.recovery!,
      overloads: [{ ...above!, ended: "lost" as const, balanced: false, periods: 40 }],
    };
    expect(one(recoveryLines(lost, 98))).toMatch(/No step in time follows this motion.*40 periods from rest/);
  });

  test("no line of the command is longer than the others, tables apart", () => {
    const lines = limitsLines(found).filter((line) => !/factor|per (kelvin|kPa|10)/.test(line));
    for (const line of lines) expect(line.length, line).toBeLessThanOrEqual(98);
  });
});
