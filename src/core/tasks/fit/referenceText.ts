/** What a person writes of a reference: its sensitivity, lines of a budget, starts of parameters. */
import { pow, tenTo } from "../../numerics/power.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { readUnit } from "../../quantity/unitExpression.ts";
import { sameDimension } from "../../quantity/units.ts";
import { type PressureLines, pressureLineNames } from "../../reading/calibration.ts";

const wrong = (path: string, found: string, needed: string): Outcome<never> =>
  refuse({ code: "wrong-option", path: [path], message: `Found "${found}"; needed: ${needed}.` } satisfies Problem);

const number = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*?)\s*$/;
const voltsPerPascal = readUnit("V/Pa");

/** "12.5 mV/Pa" in V/Pa; "-38 dB" is re 1 V/Pa. Problem: `wrong-option`. */
export function readSensitivityText(text: string, path: string): Outcome<number> {
  const match = number.exec(text);
  const unit = match === null ? null : readUnit(match[2]!);
  if (match !== null && /^dB\b/.test(match[2]!)) return answer(pow(10, Number(match[1]) / 20));
  if (
    match === null ||
    unit === null ||
    !sameDimension(unit.dimension, voltsPerPascal!.dimension) ||
    !(Number(match[1]) > 0)
  )
    return wrong(path, text, 'a sensitivity such as "12.5 mV/Pa" or "-38 dB" (re 1 V/Pa)');
  return answer(Number(match[1]) * unit.scale * tenTo(unit.exponent));
}

/** "reference=0.5 %", "level = 0.1 dB": a line of the budget as a share. Problem: `wrong-option`. */
export function readBudgetLine(text: string, path: string): Outcome<Partial<PressureLines>> {
  const [name = "", value = ""] = text.split("=").map((part) => part.trim());
  const line = pressureLineNames.find((one) => one === name);
  const match = /^(\d+\.?\d*(?:[eE][+-]?\d+)?)\s*(%|dB)?$/.exec(value);
  if (line === undefined || match === null)
    return wrong(
      path,
      text,
      `a line and its standard uncertainty, such as "reference=0.5 %" or "level=0.1 dB"; lines: ${pressureLineNames.join(", ")}`,
    );
  const size = Number(match[1]);
  const share = match[2] === "%" ? size / 100 : match[2] === "dB" ? pow(10, size / 20) - 1 : size;
  return answer({ [line]: share });
}

/** "b1=500, b2=1e-4"; blanks part them too. Problem: `wrong-option`. */
export function readStart(text: string, path: string): Outcome<Readonly<Record<string, number>>> {
  const entries: (readonly [string, number])[] = [];
  for (const part of text.trim().split(/\s*[,;]\s*|\s+(?=[A-Za-z_]\w*\s*=)/)) {
    const match = /^\s*([A-Za-z_]\w*)\s*=\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*$/.exec(part);
    if (match === null) return wrong(path, part.trim(), 'parameters and their starts, such as "b1=500, b2=1e-4"');
    entries.push([match[1]!, Number(match[2])]);
  }
  return answer(Object.fromEntries(entries));
}
