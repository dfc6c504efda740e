/** Every task, in the order of the table. The first one is the kernel that the others are held against. */
import { kernel } from "./kernel.ts";
import { oneFrequency } from "./oneFrequency.ts";
import { oneFrequencyDirect } from "./oneFrequencyDirect.ts";
import { predictCommand } from "./predictCommand.ts";
import type { Task } from "./task.ts";

export const tasks: readonly Task[] = [kernel, oneFrequency, oneFrequencyDirect, predictCommand];
