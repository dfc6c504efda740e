/** What the Shelf says, and what is said of keeping work. */

export const shelfWords = {
  noServer:
    "Glassdrum's server does not answer. Start `glassdrum open` again; your work stays in this page, and “Save as file” keeps it.",
  onTable: "On the table",
  notYet: "Not in the library yet: it gets there with the first change.",
  keepNow: "Keep it now",
  keptAt: (time: string) => `in the library, ${time}`,
  inLibrary: "in the library",
  keeping: "keeping…",
  notKept: "not kept",
  notKeptTitle: "Your last change could not be kept in the library",
  notKeptHint: "It is in this page. Save it as a file, or try again.",
  again: "try again",
  conflictTitle: "This project was changed elsewhere at the same time",
  conflictSays: (mine: number, theirs: number) =>
    `Both are kept: yours as state ${mine}, the other as state ${theirs}. Choose the one that goes on; the other stays on the line of time.`,
  takeMine: "go on with mine",
  takeTheirs: "go on with the other",
  asOpened: "as opened",
  fileChanged: "the file was changed outside",
  writeFile: (name: string) => `write to ${name}`,
  writeFileHint: "so that other programs and the command see it",
  changedElsewhere: "changed elsewhere",
  tookMine: "chosen: mine",
  projects: "Projects",
  projectsHint: (count: number) => (count === 1 ? "1 in the library" : `${count} in the library`),
  search: "Search titles and specimens",
  nothingFound: (text: string) => `Nothing on the shelf has “${text}” in its title or its specimens.`,
  empty:
    "The shelf is empty. Change a value of the project on the table and it is kept here; or open the demo, begin a new project, drop a file anywhere.",
  showAll: (count: number) => `show all ${count}`,
  open: "open",
  openThis: (title: string) => `open ${title}`,
  here: "on the table",
  states: (count: number) => (count === 1 ? "1 state" : `${count} states`),
  records: (count: number) => (count === 1 ? "1 record" : `${count} records`),
  specimens: "specimens",
  putAway: "put away",
  putBack: "put back",
  awayList: (count: number) => `Put away: ${count}`,
  zip: "as ZIP",
  lineOfTime: "line of time",
  goOn: "go on from here",
  goneBack: (number: number) => `gone on from state ${number}`,
  counts: "counts now",
  nameIt: "Name of this state",
  nameDo: "name",
  begin: "Begin",
  newProject: "New project",
  newProjectHint: "every default written out",
  demo: "The demo",
  demoHint: "an invented microphone beside a pulsed magnet",
  inOut: "In and out",
  bringIn: "Bring in a ZIP",
  takeOut: "Take out the whole library as ZIP",
  file: "The library is one file on this machine:",
  reading: "the shelf",
  broughtIn: "Brought in",
  as: {
    added: "new here",
    known: "here already, the same",
    beside: "here already but different: added beside it",
  },
  newTitle: "begun",
  noLibrary: "There is no library now",
} as const;

/** Day and time, short: "2 Nov 14:02". */
export const whenSaved = (time: number): string =>
  new Date(time).toLocaleString("en-GB", { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });

export const clock = (time: number): string =>
  new Date(time).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
