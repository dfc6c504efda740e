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
    svg: "write the picture as SVG",
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

  fit: {
    does: "read a record (CSV, TXT, WAV) and give values with their uncertainty",
    file: 'record, or a project whose record is named by --record; "-" for standard input',
    kind: "ring-down, response, noise, sweep, scan, power-law, bias-sweep; told by the columns where absent",
    record: 'record of the project, such as "a3/r1"',
    project: "project that a bare record belongs to: for scans, and to tell what the drive level allows",
    columns: 'what the columns hold, counted from 1: "1=time ms, 2=output V"',
    sampling: 'samples a second where no column holds the time: "96 kHz"',
    decimal: 'decimal sign, "." or ","',
    separator: 'what parts the cells: ";", ",", "|", "tab" or "space"',
    skipLines: "lines before the numbers",
    channel: "column with the output, counted from 1",
    use: 'part to fit: "1 ms to 9 ms", "15 kHz to 22 kHz"',
    modes: "number of modes or sections; as the record demands where absent",
    near: 'about where the resonance lies: "18 kHz"',
    curve: 'lowest and highest output of the readout, "0.12 V to 1.94 V": the phase is fitted in place of the volts',
    footer: `
A question that the file leaves open and that would change the result (the unit of the time, the decimal sign) is asked:
exit status 1, with the possible answers; give one by an option. Exit status is 1 too where no fit is possible.`,
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
