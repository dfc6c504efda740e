/** What stands in the way of a brief: which requirement, by which law, and how far it would have to yield. */
import type { Problem } from "../../problem.ts";
import { lawOf } from "../predict/laws.ts";
import type { Verdict } from "../predict/prediction.ts";
import type { Tried } from "./trials.ts";

export interface Refusal {
  readonly requirement: string;
  readonly asked: number;
  /** SI. Asked for no more than this, together with the other values of `nearest` here, the brief can be met. */
  readonly nearest: number;
  /** The best that this requirement could be if it were the only one to yield; null where the others can't be met either. */
  readonly alone: number | null;
  readonly reason: string;
}

/** What a requirement that the least bad design misses can be, together with the rest of that design, and alone. */
export function refusalOf(line: Verdict, alone: Tried | null): Refusal {
  const others = alone?.verdict.filter(({ requirement }) => requirement !== line.requirement) ?? [];
  const own = alone?.verdict.find(({ requirement }) => requirement === line.requirement)?.got ?? null;
  const holds = own !== null && others.every(({ met }) => met !== false);
  return {
    requirement: line.requirement,
    asked: line.asked,
    nearest: outward(line, line.got!),
    alone: holds ? outward(line, own) : null,
    reason: lawOf(line.requirement),
  };
}

/** A hundredth easier than what was reached, or a tenth of a decibel: so that a search for it finds room. */
function outward({ requirement, asked, got }: Verdict, reached: number): number {
  const easier = got !== null && got < asked ? -1 : 1;
  const level = /noise|loudest|vibration/.test(requirement);
  return level ? reached + easier * 0.1 : reached * (1 + easier * 0.01);
}

export function nothingBuilt(tried: readonly Tried[]): readonly Problem[] {
  const problems = tried.at(-1)?.problems ?? [];
  return [
    {
      code: "nothing-can-be-built",
      path: ["choices"],
      message: `No choice gives a microphone that can be computed. The last reason: ${problems[0]?.message ?? "unknown"}`,
    },
    ...problems,
  ];
}
