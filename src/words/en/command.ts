/** What the command says about itself. */
export const commandWords = {
  about: "Design, build and test guided-wave optical microphones: from a project file to numbers with their sources.",
  footer: `
A FILE is a project (*.glassdrum.json); "-" is standard input, "demo" the built-in demo project,
"shelf:TITLE" or "shelf:ID" a project of the library.
Exit status: 0 done; 1 the answer is no (a project with problems; a requirement marked "must" that is computed
and not met); 2 wrong use (an unknown option or path, a file that is not there).`,
  new: {
    does: "write a starter project with all defaults and say what they mean",
    file: 'file to write, never over an existing one; "-" writes to standard output, "shelf:TITLE" to the library',
    from: 'what to start from: "defaults", or "demo" for the demo project',
  },
  check: { does: "read a project and list every problem and remark" },
  predict: {
    does: "response, resonances, damping, sensitivity, verdict on the brief",
    at: 'frequencies to answer, in that order: "100 Hz, 1 kHz"; with decimal commas "1,5 kHz; 2 kHz"',
    limits: "add noise by source and third octave, strength, surroundings, and limits for the precautions",
    sensitive: "say also what each number depends on most; with --json under cards, as mostSensitiveTo",
    csv: 'write the response as CSV, units in its header; "-" for standard output in place of the words',
    footer: `
Exit status is 1 where the project has problems, or where a requirement of the brief that is marked "must": true
was computed and is not met; a requirement that is not computed yet does not count.`,
  },
  chart: {
    does: "what the microphone would do over any two of its values",
    axis: 'value along the axis, with its ends where wanted: "microphone.film.gap=10 um..200 um"',
    count: "points a side",
  },
  choose: {
    does: "search for designs that meet the brief, or say what stands in the way",
    evaluations: "microphones to compute at most",
    footer: `
What may be chosen stands under "choices" in the project. Exit status is 1 where nothing meets the brief: then it says
which requirement to relax by how much, and by which law. Ctrl-C ends the search with what it has.`,
  },
  spread: {
    does: "what fabrication and site do: yield, what matters most, worst corners, which tolerance to buy",
    count: "specimens of the yield",
    influence: "points a set for what matters most; 0: leave that out",
    wanted: "yield that tolerances are to be bought for",
    part: 'compute one part of the run only, such as 3/16, and print it as JSON for "--join"',
    join: "put parts together, equal to the whole run",
    footer: `
What varies stands under "tolerances", and in the ranges of the brief's site. Ctrl-C ends it with what is there so far.`,
  },
  seed: "where the random numbers start: the same seed gives the same result",
  csv: 'write the result as CSV, SI units in its header; "-" for standard output in place of the words',
  svg: "write the picture as SVG",

  fit: {
    does: "read a record (CSV, TXT, WAV, HDF5) and give values with their uncertainty",
    file: 'record, or a project whose record is named by --record; "-" for standard input',
    kind: "ring-down, response, noise, sweep, tones, scan, curve, power-law, bias-sweep, sensitivity, null, polynomial, linear, formula, statistics; told by the columns where absent",
    record: 'record of the project, such as "a3/r1"',
    project:
      "project that a bare record belongs to: for scans and predicted curves, and to tell what the drive level allows",
    columns: 'what the columns hold, counted from 1: "1=time ms, 2=output V"',
    sampling: 'samples a second where no column holds the time: "96 kHz"',
    decimal: 'decimal sign, "." or ","',
    separator: 'what parts the cells: ";", ",", "|", "tab" or "space"',
    skipLines: "lines before the numbers",
    channel: "column with the output, counted from 1",
    use: 'part to fit: "1 ms to 9 ms", "15 kHz to 22 kHz"',
    during: 'time that the response of noise, a sweep or tones is taken from, such as "0.2 s to 3 s"',
    modes: "number of modes or sections; as the record demands where absent",
    near: 'about where the resonance lies: "18 kHz"',
    curve:
      'lowest and highest output of the readout, "0.12 V to 1.94 V": the phase is fitted in place of the volts; "free": fitted too',
    dataset: "data set of an HDF5 container",
    width: "distance of the points of a response out of noise or a sweep",
    gate: 'noise or a sweep in a room: what is kept after the sound arrives, "4 ms" (before the first reflection)',
    at: 'setting of a bias sweep at which the slope is wanted: "90 deg", "23 degC", "633 nm"',
    turn: "radians of bias per unit of the sweep, in SI; fitted where absent",
    reference: 'sensitivity of the reference microphone: "12.5 mV/Pa" or "-38 dB"',
    level: 'sound in the calibrator or coupler: "94 dB"',
    excitation:
      'level of the tone before a ring-down, such as "94 dB": tells, beside a project, which effects it allows',
    coupler: 'volume of the coupler and what the microphone adds: "2 cm^3 + 0.1 cm^3"',
    ambient: "static pressure, for a pistonphone, whose sound goes with it",
    line: 'a line of the budget, repeatable: "level=0.15 dB", "position=0.5 %"',
    repeats: "readings behind the line of repeats",
    lightShare: "mean output with one mode over that with both, for null records",
    beside:
      "a further record, repeatable: reference=FILE (in its place), calibrator=FILE (the reference in it); dark, oneMode, minus, plugged, fieldOff, fieldOn for null records",
    degree: "degree of a polynomial",
    throughZero: "a plane without its constant",
    formula: 'model to fit, "y = b1*(1 - exp(-b2*x))"; x, x1, x2 … are the columns beside y',
    start: 'where the parameters begin: "b1=500, b2=1e-4"',
    into: "project file, or shelf:TITLE, to write the reading into (with --specimen)",
    specimen: "specimen of that project; made where there is none",
    footer: `
A question that the file leaves open and that would change the result (the unit of the time, the decimal sign) is asked:
exit status 1, with the possible answers; give one by an option. Exit status is 1 too where no fit is possible.
An electrostatic actuator is no way to calibrate this microphone: its diaphragm has no conductor. Loud tones hurt; follow the
local rules for noise at work.`,
  },
  open: {
    does: "serve the app on this machine only, with that project, and print its address",
    port: "port to listen on; 0 takes a free one",
  },
  file: 'project file, "-" for standard input, "demo" for the built-in demo, "shelf:TITLE" for one of the library',
  data: "folder of the library; the platform's usual place where absent",
  json: "print the result as one JSON object",
  set: 'change a value first, e.g. microphone.film.gap="50 um"; repeatable; JSON where it reads as JSON',
} as const;
