/** What a worker can be asked, by name. Shapes that were prepared once are kept between questions. */
import {
  answer,
  type BesideName,
  type ChartFrame,
  type ChartPlan,
  type ChartPlane,
  type ChartPoint,
  type Choices,
  type ChooseJob,
  type ContainerReader,
  type Contradiction,
  type Cut,
  type CutOptions,
  chart,
  chooseSteps,
  contradictions,
  createEngine,
  createTrials,
  cut,
  type ExchangeTime,
  exchangeTime,
  type Field,
  type FieldQuestion,
  type FieldRoom,
  type FitOptions,
  fieldIn,
  fieldRoom,
  type GuideView,
  guideView,
  type Heard,
  isContainer,
  type JobDone,
  type JudgeBatch,
  joinSpread,
  type Limits,
  limits,
  listen,
  loadProject,
  type Measure,
  type ModeWindow,
  makeSound,
  modeWindow,
  type Outcome,
  openContainers,
  type Plan,
  type Project,
  planChart,
  planSpread,
  type Recipe,
  type RecordAnswer,
  type RecordFile,
  readAndFit,
  readWave,
  runJob,
  type SoundName,
  type Spread,
  type SpreadPart,
  type SpreadQuestion,
  spreadPart,
  type Trials,
  type WindowAxis,
} from "../core/index.ts";
import { type PlaneLines, planeLines } from "../figure/planeLines.ts";
import type { ChartQuestion } from "./chartCrew.ts";
import { awaitedBytes } from "./fileBytes.ts";
import { type FirstQuestions, firstTasks } from "./firstTasks.ts";
import type { Task } from "./run.ts";

/** A file of the page and what was said of it; null: it speaks for itself. The thread reads it: a page hands over no copy. */
export interface LaidFile {
  readonly file: Blob;
  readonly recipe: Recipe | null;
}

/** `run`: another one searches anew. */
export interface ChooseSearch {
  readonly text: string;
  readonly run: number;
  readonly seed: number;
  readonly evaluations: number;
}

export type WorkerQuestions = FirstQuestions & {
  /** Starts a thread, and loads what the Bench does not ask. */
  readonly wake: { readonly input: null; readonly value: null };
  /** Deflection and film pressure over the diaphragm. Problems: those of `loadProject`, `fieldRoom` and `fieldIn`. */
  readonly field: {
    readonly input: { readonly text: string } & FieldQuestion;
    readonly value: Field;
  };
  /** Noise, loudest sound, strength, surroundings, precautions in full. Problems: those of `loadProject` and of `limits`. */
  readonly limits: { readonly input: { readonly text: string }; readonly value: Limits };
  /** A plane of two values, in one thread. Problems: those of `loadProject` and of `chart`. */
  readonly chart: { readonly input: ChartQuestion; readonly value: ChartPlane };
  /** The same in pieces (chartCrew.ts asks): what is to be computed, a tile made ready, some points. Problems: as above. */
  readonly chartFrame: { readonly input: ChartQuestion; readonly value: ChartFrame };
  readonly chartReady: {
    readonly input: { readonly question: ChartQuestion; readonly tile: number };
    readonly value: JudgeBatch | null;
  };
  readonly chartPoints: {
    readonly input: {
      readonly question: ChartQuestion;
      /** null: each point alone. */
      readonly tile: number | null;
      readonly places: readonly number[];
      /** What another thread made ready for the tile; it is kept here for the next points. */
      readonly batch?: JudgeBatch | null;
    };
    readonly value: readonly ChartPoint[];
  };
  /** The lines of a plane, for its picture. `laws`: the plane as power laws would have it; null: none. */
  readonly planeLines: {
    readonly input: {
      readonly plane: ChartPlane;
      readonly families: readonly Measure[];
      readonly laws: ChartPlane | null;
    };
    readonly value: PlaneLines;
  };
  /** Along one value. Problems: those of `loadProject` and of `cut`. */
  readonly cut: { readonly input: { readonly text: string } & CutOptions; readonly value: Cut };
  /** Requirements that no such diaphragm can meet. Problems: those of `loadProject` and of `contradictions`. */
  readonly contradictions: { readonly input: { readonly text: string }; readonly value: readonly Contradiction[] };
  /** Starts a thread that a search will soon have work for. Problems: those of `loadProject` and `createTrials`. */
  readonly chooseBegin: { readonly input: ChooseSearch; readonly value: null };
  /**
   * What a search wants done next, or what it has found; it is kept here from one to the next (chooseCrew.ts asks). `results`: what
   * the last list gave, null to begin. `shared`: for the pieces. Problems: those of `chooseBegin` and `chooseSteps`.
   */
  readonly chooseNext: {
    readonly input: ChooseSearch & { readonly results: readonly (string | null)[] | null };
    readonly value:
      | { readonly jobs: readonly ChooseJob[]; readonly shared: JudgeBatch | null; readonly found: null }
      | { readonly jobs: null; readonly found: Choices };
  };
  /** A piece of a search: `JobDone` as text, which a page hands on without unpacking it. Problems: those of `chooseNext`. */
  readonly chooseJob: {
    readonly input: ChooseSearch & { readonly job: ChooseJob; readonly shared: JudgeBatch | null };
    readonly value: string;
  };
  /** Ends the pieces of that search where they are: they give what they have. */
  readonly endChoosing: { readonly input: { readonly run: number }; readonly value: null };
  /** Problems: those of `loadProject` and of `spreadPart`. */
  readonly spreadPart: {
    readonly input: { readonly text: string; readonly part: number; readonly parts: number } & SpreadQuestion;
    readonly value: SpreadPart;
  };
  /** Share of specimens that would pass, with its interval. Problems: those of `loadProject`, `spreadPart` and `joinSpread`. */
  readonly yieldOf: {
    readonly input: { readonly text: string; readonly count: number; readonly seed: number };
    readonly value: Spread["yield"];
  };
  /** Keeps a part of that run here until the next run; gives how many specimens there are. */
  readonly spreadGather: {
    readonly input: { readonly run: string; readonly part: SpreadPart };
    readonly value: number;
  };
  /** The parts of that run together, with corners and what to buy. Problems: those of `loadProject` and of `joinSpread`. */
  readonly spreadJoin: {
    readonly input: { readonly text: string; readonly run: string } & SpreadQuestion;
    readonly value: Spread;
  };
  /** A record's file, read and fitted; with the project's text where it belongs to one. Problems: those of `fileBytes` and `readRecord`. */
  readonly record: {
    readonly input: {
      readonly file: Blob;
      readonly recipe: Recipe | null;
      readonly options: FitOptions;
      /** The file's own name; null where it has none. */
      readonly name?: string | null;
      /** Further records that the fit takes. */
      readonly beside?: { readonly [K in BesideName]?: LaidFile };
      readonly text: string | null;
      /** Sound pressure of the tone, root mean square [Pa]; null where it is not known. */
      readonly excitation: number | null;
    };
    readonly value: RecordAnswer;
  };
  /** Index, modes and coupling of a guide that profile or process makes. Problems: those of `loadProject` and of `guideView`. */
  readonly guideView: { readonly input: { readonly text: string }; readonly value: GuideView };
  /** Where it holds one mode. Problems: those of `loadProject` and of `modeWindow`. */
  readonly modeWindow: {
    readonly input: { readonly text: string; readonly against: WindowAxis; readonly points: number };
    readonly value: ModeWindow;
  };
  /** How long in the bath. Problems: those of `loadProject` and of `exchangeTime`. */
  readonly exchangeTime: {
    readonly input: { readonly text: string; readonly points: number };
    readonly value: ExchangeTime;
  };
  /** A sound through the microphone. Problems: those of `loadProject`, `readWave` and `listen`. */
  readonly listen: {
    readonly input: {
      readonly text: string;
      /** One that is made here, or the bytes of a WAV file, of which the first channel is heard. */
      readonly sound:
        | { readonly name: SoundName; readonly sampling: number; readonly frequency: number }
        | { readonly wave: Uint8Array };
    };
    readonly value: Heard;
  };
};

/** The microphone of the last question about fields: another frequency of it costs one solution. */
let room: { readonly text: string; readonly made: Outcome<FieldRoom> } | null = null;

/** Parts of the last spread: thousands of rows that no page needs. */
let gathered: { readonly run: string; readonly parts: SpreadPart[] } = { run: "", parts: [] };
/** The plan of the last spread: its parts share what was made ready for it. */
let plan: { readonly key: string; readonly project: Project; readonly made: Plan } | null = null;

/** The search that was last told to end. */
let ended = 0;
/** The search that goes on, where it is planned. */
let searching: { readonly run: number; readonly steps: ReturnType<typeof chooseSteps> } | null = null;
/** What the last search was made ready with, and the designs that it tried: its pieces share both. */
let trials: { readonly key: string; readonly made: Outcome<Trials> } | null = null;

function trialsOf({ text, seed, evaluations }: ChooseSearch): Outcome<Trials> {
  const key = JSON.stringify([text, seed, evaluations]);
  if (trials?.key !== key) {
    const loaded = loadProject(text);
    trials = { key, made: loaded.ok ? createTrials(loaded.value, { seed, evaluations }) : loaded };
  }
  return trials.made;
}

/** The chart of the last piece, with the tiles that are ready or begun: its pieces share all. */
interface Charted {
  readonly key: string;
  readonly made: Outcome<ChartPlan>;
  readonly batches: Map<number, JudgeBatch | null>;
  readonly begun: Map<number, ReturnType<ChartPlan["ready"]>>;
}
let charted: Charted | null = null;

function chartOf({ text, ...options }: ChartQuestion): Charted {
  const key = JSON.stringify([text, options]);
  if (charted?.key === key) return charted;
  const loaded = loadProject(text);
  const made = loaded.ok ? planChart(loaded.value, options) : loaded;
  charted = { key, made, batches: new Map(), begun: new Map() };
  return charted;
}

/** The batch of a tile, made here where nobody gave it; who was stopped goes on where it was. */
function* readyTile(
  { batches, begun }: Charted,
  { ready }: ChartPlan,
  tile: number,
): Generator<null, JudgeBatch | null> {
  const making = begun.get(tile) ?? ready(tile);
  begun.set(tile, making);
  for (;;) {
    const known = batches.get(tile);
    if (known !== undefined) return known;
    const step = making.next();
    if (step.done) batches.set(tile, step.value);
    yield null;
  }
}

/** Shapes that records were held against. */
const engine = createEngine();

/** Comes with the first container. */
let containerReader: ContainerReader | null = null;
const loadContainers = async () => {
  containerReader ??= await openContainers();
};

export const tasks: Readonly<Record<keyof WorkerQuestions, Task>> = {
  ...firstTasks,
  // biome-ignore lint/correctness/useYield: being asked is enough
  *wake() {
    return answer(null);
  },
  // biome-ignore lint/correctness/useYield: a field is one step
  *field(input) {
    const { text, ...question } = input as WorkerQuestions["field"]["input"];
    if (room?.text !== text) {
      const loaded = loadProject(text);
      room = { text, made: loaded.ok ? fieldRoom(loaded.value) : loaded };
    }
    return room.made.ok ? fieldIn(room.made.value, question) : room.made;
  },
  // biome-ignore lint/correctness/useYield: it is one step
  *limits(input) {
    const loaded = loadProject((input as WorkerQuestions["limits"]["input"]).text);
    return loaded.ok ? limits(loaded.value) : loaded;
  },
  *chart(input) {
    const { text, ...options } = input as ChartQuestion;
    const loaded = loadProject(text);
    return loaded.ok ? yield* chart(loaded.value, options) : loaded;
  },
  // biome-ignore lint/correctness/useYield: it is one step
  *chartFrame(input) {
    const { made } = chartOf(input as ChartQuestion);
    return made.ok ? answer(made.value.frame) : made;
  },
  *chartReady(input) {
    const { question, tile } = input as WorkerQuestions["chartReady"]["input"];
    const of = chartOf(question);
    return of.made.ok ? answer(yield* readyTile(of, of.made.value, tile)) : of.made;
  },
  *chartPoints(input) {
    const { question, tile, places, batch } = input as WorkerQuestions["chartPoints"]["input"];
    const of = chartOf(question);
    const { made, batches } = of;
    if (!made.ok) return made;
    if (tile !== null && batch !== undefined) batches.set(tile, batch);
    const known = tile === null ? null : yield* readyTile(of, made.value, tile);
    const points: ChartPoint[] = [];
    for (const place of places) {
      points.push(made.value.pointAt(place, known));
      yield null;
    }
    return answer(points);
  },
  // biome-ignore lint/correctness/useYield: it is one step
  *planeLines(input) {
    const { plane, families, laws } = input as WorkerQuestions["planeLines"]["input"];
    return answer(planeLines(plane, families, laws));
  },
  *cut(input) {
    const { text, ...options } = input as WorkerQuestions["cut"]["input"];
    const loaded = loadProject(text);
    return loaded.ok ? yield* cut(loaded.value, options) : loaded;
  },
  // biome-ignore lint/correctness/useYield: laws are one step
  *contradictions(input) {
    const loaded = loadProject((input as WorkerQuestions["contradictions"]["input"]).text);
    return loaded.ok ? contradictions(loaded.value) : loaded;
  },
  // biome-ignore lint/correctness/useYield: it is one step
  *chooseBegin(input) {
    const made = trialsOf(input as ChooseSearch);
    return made.ok ? answer(null) : made;
  },
  *chooseNext(input) {
    const { results, ...asked } = input as WorkerQuestions["chooseNext"]["input"];
    const made = trialsOf(asked);
    if (!made.ok) return made;
    const making = made.value.ready();
    let shared = making.next();
    for (; !shared.done; shared = making.next()) yield { done: 0, of: asked.evaluations };
    if (results === null || searching?.run !== asked.run)
      searching = { run: asked.run, steps: chooseSteps(made.value, asked) };
    const done = (results ?? []).map((one) => (one === null ? null : (JSON.parse(one) as JobDone)));
    const step = searching.steps.next(done);
    if (!step.done) return answer({ jobs: step.value, shared: shared.value, found: null });
    searching = null;
    return step.value.ok ? answer({ jobs: null, found: step.value.value }, made.remarks) : step.value;
  },
  *chooseJob(input) {
    const { job, shared, ...asked } = input as WorkerQuestions["chooseJob"]["input"];
    const made = trialsOf(asked);
    if (!made.ok) return made;
    made.value.take(shared);
    const work = runJob(made.value, job, { seed: asked.seed, stopped: () => ended === asked.run });
    for (;;) {
      const step = work.next();
      if (step.done) return answer(JSON.stringify(step.value));
      yield { done: step.value.done, of: asked.evaluations };
    }
  },
  // biome-ignore lint/correctness/useYield: it only leaves word
  *endChoosing(input) {
    ended = (input as WorkerQuestions["endChoosing"]["input"]).run;
    return answer(null);
  },
  *spreadPart(input) {
    const { text, part, parts, ...options } = input as WorkerQuestions["spreadPart"]["input"];
    const key = JSON.stringify([text, options.count, options.influence, options.seed]);
    if (plan?.key !== key) {
      const loaded = loadProject(text);
      if (!loaded.ok) return loaded;
      const made = planSpread(loaded.value, options);
      if (!made.ok) return made;
      plan = { key, project: loaded.value, made: made.value };
    }
    return yield* spreadPart(plan.project, { ...options, part, parts, known: plan.made });
  },
  *yieldOf(input) {
    const { text, ...asked } = input as WorkerQuestions["yieldOf"]["input"];
    const loaded = loadProject(text);
    if (!loaded.ok) return loaded;
    const part = yield* spreadPart(loaded.value, { ...asked, influence: 0, part: 0, parts: 1 });
    const joined = part.ok ? joinSpread(loaded.value, [part.value], { wanted: 0 }) : part;
    return joined.ok ? answer(joined.value.yield) : joined;
  },
  *spreadGather(input) {
    const { run, part } = input as WorkerQuestions["spreadGather"]["input"];
    if (gathered.run !== run) gathered = { run, parts: [] };
    gathered.parts.push(part);
    return answer(gathered.parts.reduce((sum, { rows }) => sum + rows.length, 0));
  },
  // biome-ignore lint/correctness/useYield: what is asked for is computed in one step
  *spreadJoin(input) {
    const { text, run, ...question } = input as WorkerQuestions["spreadJoin"]["input"];
    const loaded = loadProject(text);
    return loaded.ok ? joinSpread(loaded.value, gathered.run === run ? gathered.parts : [], question) : loaded;
  },
  *record(input) {
    const { file, text, beside: files = {}, ...question } = input as WorkerQuestions["record"]["input"];
    const loaded = text === null ? null : loadProject(text);
    const bytes = yield* awaitedBytes(file);
    if (!bytes.ok) return bytes;
    const beside: Partial<Record<BesideName, RecordFile>> = {};
    for (const [name, other] of Object.entries(files)) {
      const read = yield* awaitedBytes(other.file);
      if (!read.ok) return read;
      beside[name as BesideName] = { bytes: read.value, recipe: other.recipe };
    }
    if ([bytes.value, ...Object.values(beside).map((one) => one.bytes)].some(isContainer)) yield loadContainers();
    const project = loaded?.ok ? loaded.value : null;
    return yield* readAndFit(bytes.value, {
      ...question,
      beside,
      project,
      engine,
      ...(containerReader && { containerReader }),
    });
  },
  // biome-ignore lint/correctness/useYield: a pair of modes is one step
  *guideView(input) {
    const loaded = loadProject((input as WorkerQuestions["guideView"]["input"]).text);
    return loaded.ok ? guideView(loaded.value) : loaded;
  },
  *modeWindow(input) {
    const { text, ...options } = input as WorkerQuestions["modeWindow"]["input"];
    const loaded = loadProject(text);
    return loaded.ok ? yield* modeWindow(loaded.value, options) : loaded;
  },
  *exchangeTime(input) {
    const { text, ...options } = input as WorkerQuestions["exchangeTime"]["input"];
    const loaded = loadProject(text);
    return loaded.ok ? yield* exchangeTime(loaded.value, options) : loaded;
  },
  *listen(input) {
    const { text, sound } = input as WorkerQuestions["listen"]["input"];
    const loaded = loadProject(text);
    if (!loaded.ok) return loaded;
    if (!("wave" in sound))
      return listen(loaded.value, { sound: makeSound(sound.name, sound), sampling: sound.sampling });
    const wave = yield* readWave(sound.wave);
    if (!wave.ok) return wave;
    const { channels, sampling } = wave.value;
    return listen(loaded.value, { sound: channels[0] ?? new Float64Array(0), sampling });
  },
};
