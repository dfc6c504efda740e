/**
 * How a page and its worker speak. Questions belong to channels ("numbers", "chart"): of each channel only the latest
 * question counts. All messages are plain data.
 */
import type { Problem } from "../core/problem.ts";

/** What is asked first is what a hand is waiting for: drag before refine before batch; ahead is what nobody has asked for yet. */
export const urgencies = ["drag", "refine", "batch", "ahead"] as const;
export type Urgency = (typeof urgencies)[number];

/** From the page. */
export type ToWorker =
  | {
      readonly kind: "ask";
      /** Counts up; a later question of the same channel replaces an earlier one. */
      readonly id: number;
      readonly channel: string;
      readonly urgency: Urgency;
      readonly task: string;
      readonly input: unknown;
    }
  | { readonly kind: "stop"; readonly channel: string };

/** From the worker. Every question gets its steps, then exactly one of the other four. */
export type FromWorker =
  | { readonly kind: "step"; readonly id: number; readonly channel: string; readonly step: Step<unknown> }
  | {
      readonly kind: "answer";
      readonly id: number;
      readonly channel: string;
      readonly value: unknown;
      readonly remarks: readonly Problem[];
    }
  | {
      readonly kind: "refused";
      readonly id: number;
      readonly channel: string;
      readonly problems: readonly Problem[];
    }
  | { readonly kind: "superseded" | "stopped"; readonly id: number; readonly channel: string };

/** What long work says while it goes on: how far it is, and an answer that is good enough to show already. */
export interface Step<Value> {
  readonly done: number;
  readonly of: number;
  readonly soFar?: Value;
}

/** How a question ended, as the page sees it. */
export type Reply<Value> =
  | { readonly kind: "answer"; readonly id: number; readonly value: Value; readonly remarks: readonly Problem[] }
  | { readonly kind: "refused"; readonly id: number; readonly problems: readonly Problem[] }
  | { readonly kind: "superseded" | "stopped"; readonly id: number };

/** What can be asked, by name: a type with one member a task. */
export type Questions = { readonly [task: string]: { readonly input: unknown; readonly value: unknown } };
