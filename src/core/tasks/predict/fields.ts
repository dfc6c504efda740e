/** From a project to the deflection and the film's pressure all over the diaphragm, at a frequency or in a mode. */

import { type Field, forcedField, modeField } from "../../microphone/response/fields.ts";
import { settled } from "../../microphone/rest/rest.ts";
import { type CoupledSystem, coupledSystem } from "../../microphone/system/coupled.ts";
import { prepare } from "../../microphone/system/prepare.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { describe } from "../../project/describe.ts";
import type { Project } from "../../project/load.ts";

/** What is asked of a field: at a frequency [Hz], or a mode in vacuum counted from 0. */
export type FieldOf =
  | { readonly kind: "forced"; readonly frequency: number }
  | { readonly kind: "mode"; readonly index: number };

export interface FieldQuestion {
  readonly of: FieldOf;
  /** Points a direction, odd so that the center is one of them: 3 to 201. */
  readonly points: number;
}

/** A project's microphone made ready once for any number of fields. */
export interface FieldRoom {
  readonly system: CoupledSystem;
}

/** Modes that are asked for at most. */
export const mostModes = 12;
const highestFrequency = 1e9;
const pointsRange = { least: 3, most: 201 } as const;

/** Problems: those of `describe` and `settled`. */
export function fieldRoom(project: Project): Outcome<FieldRoom> {
  const described = describe(project);
  if (!described.ok) return described;
  const stands = settled(described.value);
  if (!stands.ok) return stands;
  const remarks = [...described.remarks, ...stands.remarks];
  return answer({ system: coupledSystem(prepare(stands.value), stands.value) }, remarks);
}

/**
 * Deflection per pressure of sound and film pressure on a grid; a mode's shape where that is asked.
 * Problems: `frequency-out-of-range`, `no-mode`, `points-out-of-range`.
 */
export function fieldIn({ system }: FieldRoom, { of, points }: FieldQuestion): Outcome<Field> {
  const wrong = [
    ...wrongPoints(points),
    ...(of.kind === "forced" ? wrongFrequency(of.frequency) : wrongMode(of.index)),
  ];
  if (wrong.length > 0) return refuse(...wrong);
  if (of.kind === "forced") return answer(forcedField(system, of.frequency, points));
  const mode = modeField(system.microphone.diaphragm, of.index, points);
  return mode === null ? refuse(...noMode(of.index)) : answer(mode);
}

const wrongFrequency = (frequency: number): readonly Problem[] =>
  frequency > 0 && frequency <= highestFrequency
    ? []
    : [
        {
          code: "frequency-out-of-range",
          path: ["of", "frequency"],
          message: `The frequency is ${frequency} Hz; needed: more than 0 and at most ${highestFrequency / 1e9} GHz.`,
        },
      ];

const wrongMode = (index: number): readonly Problem[] =>
  Number.isInteger(index) && index >= 0 && index < mostModes ? [] : noMode(index);

const noMode = (index: number): readonly Problem[] => [
  {
    code: "no-mode",
    path: ["of", "index"],
    message: `Mode ${index + 1} was asked for; needed: one of the first ${mostModes}.`,
  },
];

const wrongPoints = (points: number): readonly Problem[] =>
  Number.isInteger(points) && points % 2 === 1 && points >= pointsRange.least && points <= pointsRange.most
    ? []
    : [
        {
          code: "points-out-of-range",
          path: ["points"],
          message: `Points a direction: ${points}; needed: an odd number from ${pointsRange.least} to ${pointsRange.most}.`,
        },
      ];
