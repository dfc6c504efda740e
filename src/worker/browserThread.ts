/** The worker in a browser: the module that the page starts. */
import { servePage } from "./browserPort.ts";
import { tasks } from "./tasks.ts";

servePage(tasks);
