/** Every task, in the order of the table. The first one is the kernel that the others are held against. */
import { allParts } from "./allParts.ts";
import { allPoles } from "./allPoles.ts";
import { specimens } from "./batch.ts";
import { kernel } from "./kernel.ts";
import { modes } from "./modes.ts";
import { newShapes } from "./newShape.ts";
import { noise } from "./noise.ts";
import { oneFrequency } from "./oneFrequency.ts";
import { oneFrequencyDirect } from "./oneFrequencyDirect.ts";
import { predictCommand } from "./predictCommand.ts";
import { records } from "./records.ts";
import { responseDirect, responseTwoPass } from "./responseJudges.ts";
import type { Task } from "./task.ts";
import { vonKarman } from "./vonKarman.ts";
import { wholeResponses } from "./wholeResponse.ts";

export const tasks: readonly Task[] = [
  kernel,
  oneFrequency,
  oneFrequencyDirect,
  ...wholeResponses,
  responseTwoPass,
  responseDirect,
  ...newShapes,
  ...allParts,
  ...allPoles,
  ...noise,
  ...specimens,
  vonKarman,
  ...modes,
  ...records,
  predictCommand,
];
