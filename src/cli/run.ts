/** Reads the arguments, hands them to one verb, returns its exit status. Each verb is loaded only when it is called. */
import { Command, CommanderError, InvalidArgumentError } from "commander";
import { chooseDefaults } from "../core/tasks/choose/chooseDefaults.ts";
import { spreadDefaults } from "../core/tasks/spread/spreadDefaults.ts";
import { commandWords as words } from "../words/en/command.ts";
import { useDataFolder } from "./library.ts";
import { sayLine } from "./print.ts";
import { type Status, status } from "./status.ts";
import { version } from "./version.ts";

/** Exit status of `glassdrum ...args`. */
export async function run(args: readonly string[]): Promise<Status> {
  let result: Status = status.done;
  const program = commandLine((outcome) => {
    result = outcome;
  });
  try {
    await program.parseAsync(args, { from: "user" });
    return result;
  } catch (error) {
    // Help that was asked for and the version end this way too, with status 0.
    if (error instanceof CommanderError) return error.exitCode === 0 ? status.done : status.wrongUse;
    sayLine(`A fault of this program, not of your input: ${error instanceof Error ? error.message : String(error)}`);
    sayLine(`Please report it with the command line and the project (glassdrum ${version}).`);
    return status.fault;
  }
}

const collect = (value: string, all: readonly string[] = []): readonly string[] => [...all, value];

/** Options as commander gives them: what was not said is missing. */
interface Given {
  readonly json?: boolean;
  readonly set?: readonly string[];
}

const whole = <T extends Given>(options: T) => ({ ...options, json: options.json ?? false, set: options.set ?? [] });

const wholeNumber =
  (least: number) =>
  (text: string): number => {
    if (!/^\d{1,9}$/.test(text) || Number(text) < least)
      throw new InvalidArgumentError(`Needed: a whole number, ${least} or more.`);
    return Number(text);
  };

function shareOf(text: string): number {
  const value = text.endsWith("%") ? Number(text.slice(0, -1)) / 100 : Number(text);
  if (!(value > 0 && value <= 1)) throw new InvalidArgumentError("Needed: a share such as 0.9 or 90%.");
  return value;
}

function portNumber(text: string): number {
  if (!/^\d{1,5}$/.test(text) || Number(text) > 65535)
    throw new InvalidArgumentError("A port is a whole number from 0 to 65535.");
  return Number(text);
}

function commandLine(done: (result: Status) => void): Command {
  const program = new Command("glassdrum")
    .description(words.about)
    .version(version)
    .addHelpText("after", words.footer)
    .option("--data <folder>", words.data)
    .hook("preAction", (command) => {
      const { data } = command.opts<{ readonly data?: string }>();
      if (data !== undefined) useDataFolder(data);
    })
    .showHelpAfterError("(glassdrum --help, or glassdrum VERB --help, says how.)")
    .exitOverride();

  program
    .command("new")
    .description(words.new.does)
    .argument("<file>", words.new.file)
    .option("--from <start>", words.new.from, "defaults")
    .option("--json", words.json)
    .option("--set <path=value>", words.set, collect)
    .action(async (file: string, options: Given & { from: string }) =>
      done(await (await import("./new.ts")).newProject(file, whole(options))),
    );

  program
    .command("check")
    .description(words.check.does)
    .argument("<file>", words.file)
    .option("--json", words.json)
    .option("--set <path=value>", words.set, collect)
    .action(async (file: string, options: Given) =>
      done(await (await import("./check.ts")).check(file, whole(options))),
    );

  program
    .command("predict")
    .description(words.predict.does)
    .argument("<file>", words.file)
    .option("--at <frequencies>", words.predict.at)
    .option("--csv <file>", words.predict.csv)
    .option("--sensitive", words.predict.sensitive)
    .option("--limits", words.predict.limits)
    .option("--json", words.json)
    .option("--set <path=value>", words.set, collect)
    .addHelpText("after", words.predict.footer)
    .action(async (file: string, options: Given) =>
      done(await (await import("./predict.ts")).predictProject(file, whole(options))),
    );

  program
    .command("chart")
    .description(words.chart.does)
    .argument("<file>", words.file)
    .option("--x <path=from..to>", words.chart.axis, "microphone.diaphragm.across")
    .option("--y <path=from..to>", words.chart.axis, "microphone.diaphragm.thickness")
    .option("--count <number>", words.chart.count, wholeNumber(2), 30)
    .option("--csv <file>", words.csv)
    .option("--svg <file>", words.svg)
    .option("--json", words.json)
    .option("--set <path=value>", words.set, collect)
    .action(
      async (file: string, options: Given & { x: string; y: string; count: number; csv?: string; svg?: string }) =>
        done(await (await import("./chart.ts")).chartPlane(file, whole(options))),
    );

  program
    .command("choose")
    .description(words.choose.does)
    .argument("<file>", words.file)
    .option("--seed <number>", words.seed, wholeNumber(0), chooseDefaults.seed)
    .option("--evaluations <number>", words.choose.evaluations, wholeNumber(50), chooseDefaults.evaluations)
    .option("--csv <file>", words.csv)
    .option("--svg <file>", words.svg)
    .option("--json", words.json)
    .option("--set <path=value>", words.set, collect)
    .addHelpText("after", words.choose.footer)
    .action(async (file: string, options: Given & { seed: number; evaluations: number; csv?: string; svg?: string }) =>
      done(await (await import("./choose.ts")).chooseDesigns(file, whole(options))),
    );

  program
    .command("spread")
    .description(words.spread.does)
    .argument("<file>", words.file)
    .option("--count <number>", words.spread.count, wholeNumber(1), spreadDefaults.count)
    .option("--influence <number>", words.spread.influence, wholeNumber(0), spreadDefaults.influence)
    .option("--wanted <share>", words.spread.wanted, shareOf, spreadDefaults.wanted)
    .option("--seed <number>", words.seed, wholeNumber(0), spreadDefaults.seed)
    .option("--part <part>", words.spread.part)
    .option("--join <files...>", words.spread.join)
    .option("--csv <file>", words.csv)
    .option("--svg <file>", words.svg)
    .option("--json", words.json)
    .option("--set <path=value>", words.set, collect)
    .addHelpText("after", words.spread.footer)
    .action(
      async (
        file: string,
        options: Given & {
          count: number;
          influence: number;
          wanted: number;
          seed: number;
          part?: string;
          join?: string[];
          csv?: string;
          svg?: string;
        },
      ) => done(await (await import("./spread.ts")).spreadDesign(file, whole(options))),
    );

  program
    .command("fit")
    .description(words.fit.does)
    .argument("<file>", words.fit.file)
    .option("--kind <kind>", words.fit.kind)
    .option("--record <id>", words.fit.record)
    .option("--project <file>", words.fit.project)
    .option("--columns <list>", words.fit.columns)
    .option("--sampling <frequency>", words.fit.sampling)
    .option("--decimal <sign>", words.fit.decimal)
    .option("--separator <sign>", words.fit.separator)
    .option("--skip-lines <count>", words.fit.skipLines)
    .option("--channel <column>", words.fit.channel)
    .option("--use <part>", words.fit.use)
    .option("--during <part>", words.fit.during)
    .option("--modes <count>", words.fit.modes)
    .option("--near <frequency>", words.fit.near)
    .option("--width <frequency>", words.fit.width)
    .option("--gate <time>", words.fit.gate)
    .option("--curve <ends>", words.fit.curve)
    .option("--dataset <name>", words.fit.dataset)
    .option("--at <setting>", words.fit.at)
    .option("--turn <number>", words.fit.turn)
    .option("--reference <sensitivity>", words.fit.reference)
    .option("--level <level>", words.fit.level)
    .option("--excitation <level>", words.fit.excitation)
    .option("--coupler <volumes>", words.fit.coupler)
    .option("--ambient <pressure>", words.fit.ambient)
    .option("--line <name=share>", words.fit.line, collect)
    .option("--repeats <count>", words.fit.repeats)
    .option("--light-share <share>", words.fit.lightShare)
    .option("--beside <name=file>", words.fit.beside, collect)
    .option("--degree <number>", words.fit.degree)
    .option("--through-zero", words.fit.throughZero)
    .option("--formula <formula>", words.fit.formula)
    .option("--start <values>", words.fit.start)
    .option("--into <project>", words.fit.into)
    .option("--specimen <name>", words.fit.specimen)
    .option("--json", words.json)
    .option("--set <path=value>", words.set, collect)
    .addHelpText("after", words.fit.footer)
    .action(async (file: string, options: Given) => done(await (await import("./fit.ts")).fit(file, whole(options))));

  program
    .command("open")
    .description(words.open.does)
    .argument("[file]", words.file, "demo")
    .option("--port <number>", words.open.port, portNumber)
    .option("--json", words.json)
    .option("--set <path=value>", words.set, collect)
    .action(async (file: string, options: Given) => done(await (await import("./open.ts")).open(file, whole(options))));

  return program;
}
