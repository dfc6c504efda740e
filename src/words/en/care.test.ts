import { expect, test } from "vitest";
import { careNotes } from "./care.ts";
import { precautions } from "./precautions.ts";

const pages = ["workshop", "records", "light"] as const;

test("every precaution means something to those who make it or to those who measure it", () => {
  for (const key of Object.keys(precautions)) {
    const own = pages.flatMap((page) =>
      careNotes(page, [key]).filter(({ about }) => about === precautions[key]?.label),
    );
    expect(own.length, key).toBeGreaterThan(0);
  }
});

test("what no page knows adds nothing, and etching is warned of on the workshop's page whatever the project says", () => {
  expect(careNotes("records", ["dragons"])).toEqual(careNotes("records", []));
  expect(careNotes("workshop", []).some(({ says }) => says.includes("Hydrofluoric acid"))).toBe(true);
});

test("the Light page warns of salt, acid and laser, and names the standards", () => {
  const said = careNotes("light", ["laser"])
    .map(({ says }) => says)
    .join(" ");
  for (const word of ["nitrates", "ydrofluoric acid", "IEC 60825-1", "IEC 60825-2", "ISO 11014"])
    expect(said).toContain(word);
});

test("no text says that something is safe: it names what to read and who decides", () => {
  const all = [
    ...Object.values(precautions).map(({ says }) => says),
    ...pages.flatMap((page) => careNotes(page, Object.keys(precautions)).map(({ says }) => says)),
  ];
  for (const text of all) expect(text).not.toMatch(/\b(is|are) safe\b(?!:)/);
  for (const { label, standard } of Object.values(precautions)) expect(standard, label).not.toBeNull();
});
