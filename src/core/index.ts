/** The public surface of the core, name by name. Pure: no browser, no Node, no clock. */
export type { Air } from "./material/air.ts";
export { indexAt } from "./material/dispersion.ts";
export { type AirState, airAt, meanFreePath, speedOfSound } from "./material/humidAir.ts";
export type { Certainty, Material, Sourced } from "./material/material.ts";
export { type BuiltInName, builtInMaterial, builtInMaterials } from "./material/materials.ts";
export { photoelasticDifference, photoelasticPair, stressOpticConstant } from "./material/stressOptic.ts";
export { createEngine, type Engine, type Manner } from "./microphone/engine.ts";
export type { Microphone } from "./microphone/microphone.ts";
export type { Field } from "./microphone/response/fields.ts";
export { type ShapeAhead, shapeAhead, takeShape } from "./microphone/span/shapeAhead.ts";

export { describeSample, type SampleDescription } from "./numerics/describeSample.ts";
export { fitLinear, fitPolynomial, type LinearFit, type LinearFitQuestion } from "./numerics/linearFit.ts";
export type { NonlinearFitQuestion } from "./numerics/modelSquares.ts";
export { fitNonlinear, type NonlinearFit } from "./numerics/nonlinearFit.ts";
export { bootstrapIntervals, profileInterval } from "./numerics/profile.ts";
export { answer, type Outcome, type Problem, pathText, refuse } from "./problem.ts";
export { type Brief, readBrief } from "./project/brief.ts";
export { completed, defaults } from "./project/defaults.ts";
export { demoText } from "./project/demo.ts";
export { describe } from "./project/describe.ts";
export { projectJsonSchema, projectJsonSchemaText } from "./project/jsonSchema.ts";
export {
  changeValue,
  fileValue,
  largestFile,
  loadProject,
  type Project,
  projectBytes,
  projectText,
  removeValue,
} from "./project/load.ts";
export { fieldPaths, lookUp, readPath } from "./project/lookUp.ts";
export { type PartKey, type PartToAdd, partsToAdd } from "./project/partsToAdd.ts";
export { findPath, type ValuePath, type Variation, vary } from "./project/paths.ts";
export { type NamedPrecaution, precautionsOf } from "./project/precautions.ts";
export { starterText } from "./project/starter.ts";
export { type Tie, tiesOf } from "./project/ties.ts";
export { decimalSignOf, formatNumber, formatQuantity, plainQuantity, printedUnit } from "./quantity/format.ts";
export { type KindName, kinds } from "./quantity/kinds.ts";
export { readQuantity } from "./quantity/read.ts";
export { type Budget, type BudgetLine, combineUncertainty } from "./reading/budget.ts";
export type { BudgetInput, BudgetQuestion } from "./reading/budgetQuestion.ts";
export type { ReadValue, SecondOpinion } from "./reading/reading.ts";
export { fitResponse, type ResponseReading } from "./reading/response.ts";
export type { ResponseQuestion } from "./reading/responsePoints.ts";
export { fitRingDown, type RingDown } from "./reading/ringDown.ts";
export type { RingDownQuestion } from "./reading/ringDownPart.ts";
export { simulateResponse } from "./reading/simulateResponse.ts";
export { type RingDownPlan, simulateRingDown } from "./reading/simulateRingDown.ts";
export { type ContainerReader, openContainers, readContainer } from "./record/container.ts";
export { isContainer } from "./record/fileKind.ts";
export { finished } from "./record/finished.ts";
export { readRecord } from "./record/readRecord.ts";
export { type ColumnMeaning, columnMeanings, type Recipe, type RecipeColumn } from "./record/recipe.ts";
export type { Question, RecordColumn, RecordTable } from "./record/table.ts";
export { readWave } from "./record/wave.ts";
export { axisAround, type ChartOptions, type ChartPlan, chart, planChart } from "./tasks/chart/chart.ts";
export { type Cut, type CutOptions, type CutRange, cut, rangeAround } from "./tasks/chart/cut.ts";
export {
  type ChartAxis,
  type ChartFrame,
  type ChartPlane,
  type ChartPoint,
  planeOf,
} from "./tasks/chart/plane.ts";
export { areTiled } from "./tasks/chart/tiles.ts";
export { type Contradiction, contradictions } from "./tasks/check/contradictions.ts";
export { type Choices, type ChooseOptions, type ChosenDesign, choose, chooseSteps } from "./tasks/choose/choose.ts";
export { chooseDefaults } from "./tasks/choose/chooseDefaults.ts";
export { type ChooseJob, type JobDone, runJob } from "./tasks/choose/jobs.ts";
export type { Refusal } from "./tasks/choose/refusal.ts";
export { createTrials, type Trials } from "./tasks/choose/trials.ts";
export { readColumns } from "./tasks/fit/columnsText.ts";
export {
  type BesideName,
  besideNames,
  type FitCurve,
  type FitKind,
  type FitOptions,
  type FittedRecord,
  fitKinds,
  type Reading,
} from "./tasks/fit/fitKinds.ts";
export { type ExplainedFit, type FitQuestion, fitRecord } from "./tasks/fit/fitRecord.ts";
export { fitTable, kindOf, remarksOfTable } from "./tasks/fit/fitTable.ts";
export { againstKept, intoProject, type NewReading, readingsOf } from "./tasks/fit/intoProject.ts";
export {
  type ProjectRecord,
  recordByFile,
  recordIds,
  recordOf,
  type ToldOptions,
  toldKeys,
} from "./tasks/fit/projectRecord.ts";
export {
  type RecordAnswer,
  type RecordFile,
  readAndFit,
  type ShownFit,
  type Understood,
} from "./tasks/fit/readAndFit.ts";
export { readBudgetLine, readSensitivityText, readStart } from "./tasks/fit/referenceText.ts";
export { type ExchangeTime, exchangeTime } from "./tasks/light/exchangeTime.ts";
export { type GuideView, guideView } from "./tasks/light/guideView.ts";
export { type Held, type ModeWindow, modeWindow, type WindowAxis } from "./tasks/light/modeWindow.ts";
export { earGain, type Heard, listen } from "./tasks/listen/listen.ts";
export { makeSound, type SoundName, soundNames } from "./tasks/listen/sounds.ts";
export { type DampingCurve, dampingAgainstGap } from "./tasks/predict/dampingAgainstGap.ts";
export {
  type FieldOf,
  type FieldQuestion,
  type FieldRoom,
  fieldIn,
  fieldRoom,
  mostModes,
} from "./tasks/predict/fields.ts";
export {
  type Judged,
  judge,
  leastReserve,
  type Measure,
  type Measures,
  measures,
  reserve,
} from "./tasks/predict/judge.ts";
export type { JudgeBatch } from "./tasks/predict/judgeBatch.ts";
export type { LightAnswer } from "./tasks/predict/light.ts";
export { type Limits, limits } from "./tasks/predict/limits.ts";
export type { LimitCompared, LimitKind, PrecautionLimits } from "./tasks/predict/precautionLimits.ts";
export { type PredictOptions, predict, predictMicrophone, watch } from "./tasks/predict/predict.ts";
export type {
  Card,
  Energies,
  FilmRegime,
  Influence,
  Limit,
  Losses,
  Loudest,
  Noise,
  NoiseSource,
  Parity,
  Prediction,
  StrengthAnswer,
  Verdict,
  Watched,
} from "./tasks/predict/prediction.ts";
export {
  type Sensitivities,
  type Sensitivity,
  sensitivities,
  withSensitivities,
} from "./tasks/predict/sensitivities.ts";
export type { Change, SurroundingCause, Surroundings } from "./tasks/predict/surroundings.ts";
export { type Plan, planSpread } from "./tasks/spread/specimens.ts";
export {
  joinSpread,
  type Spread,
  type SpreadPart,
  type SpreadQuestion,
  spread,
  spreadPart,
} from "./tasks/spread/spread.ts";
export { spreadDefaults } from "./tasks/spread/spreadDefaults.ts";
