/** The worker in Node: the module that `startNodeThread` starts. */
import { serveParent } from "./nodePort.ts";
import { tasks } from "./tasks.ts";

serveParent(tasks);
