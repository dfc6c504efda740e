/** The worker in a browser: the module that the page starts. What the Bench does not ask comes when it is first asked for. */
import { servePage } from "./browserPort.ts";
import { firstTasks } from "./firstTasks.ts";

servePage(firstTasks, async () => (await import("./tasks.ts")).tasks);
