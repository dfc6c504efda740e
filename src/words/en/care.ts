/** What to be careful about at the bench where it is made and where it is measured. */
import { precautions } from "./precautions.ts";

export type CarePage = "workshop" | "records" | "light";

export interface CareNote {
  /** What it is about; null: the page itself. */
  readonly about: string | null;
  readonly says: string;
}

/** On the page whatever the project says. */
const always: Readonly<Record<CarePage, readonly CareNote[]>> = {
  workshop: [
    {
      about: "thin glass",
      says: "Sheets thinner than a tenth of a millimeter splinter into pieces that are hardly seen: eye protection, gloves against cuts, a tray under the work, splinters into a box with a lid.",
    },
    {
      about: "breath and compressed air",
      says: "Never blow on a bonded diaphragm to clean it, by mouth or from a can: a breath makes some kilopascals, compressed air a hundred times that, and it is wet or cold besides. Cover the port as soon as the plate is on, leave the cover on between steps, and lift dust off beside the port. Limits says what factor a breath leaves this one.",
    },
    {
      about: "if glass is etched",
      says: "Hydrofluoric acid is for trained people only: hood, face shield, gloves made for it, plastic ware, calcium gluconate gel at hand, medical help after any contact. Pain may come hours later (from the guides of two universities).",
    },
    {
      about: "glue and solvents",
      says: "Read the safety data sheet, air the room, keep ultraviolet lamps covered. Glue that is not cured to the end gives the bond away, and gives off gas behind the diaphragm.",
    },
  ],
  light: [
    {
      about: "molten salt",
      says: precautions["molten-salt"]!.says,
    },
    {
      about: "if glass is etched",
      says: "Masks and windows in glass are often opened with hydrofluoric acid, which is for trained people only: hood, face shield, gloves made for it, plastic ware, calcium gluconate gel at hand, medical help after any contact. Pain may come hours later (from the guides of two universities).",
    },
    {
      about: "heat",
      says: "Glass that comes out of a bath cools slowly, in its holder, behind a shield: thin sheets crack from a draft. Photoresist and its developers burn and harm skin: read the safety data sheets (ISO 11014).",
    },
  ],
  records: [
    {
      about: "the port",
      says: "Cover it between measurements, and never blow into it to clean it: a breath makes some kilopascals, as much as thin glass bears. A coupler goes on and off slowly, with its own vent open, because closing it pumps.",
    },
    {
      about: "calibration",
      says: "An electrostatic actuator needs a conductor on the diaphragm, so it can't calibrate this microphone: use a calibrator (IEC 60942), a comparison (IEC 61094-5) or a free field (IEC 61094-8).",
    },
  ],
};

/** What a precaution means there. */
const there: Readonly<Record<CarePage, Readonly<Record<string, string>>>> = {
  workshop: {
    "strong-magnet":
      "Check every part with a strong magnet on a thread before it goes in, screws and springs of bought parts too; a list of materials stands on the Limits page. What passes is not marked safe by that.",
    laser:
      "Fibers are aligned with the beam open: lowest power that shows, a beam stop behind the chip, a sign at the door, eyewear for the wavelength, no bare eye at a microscope while light is on.",
    "explosive-atmosphere":
      "A device for a zone is not changed after its certificate: drawings, glue and laser are part of it. Nothing here replaces that certificate.",
    "pressurized-glass":
      "Prove a new bond behind a shield, with more pressure than the site has, by water or a small volume of air; a diaphragm that has borne it is older than before.",
    outdoors:
      "Vent and drain face down with a mesh before them; choose glue that bears sun, water and frost; no two metals together in salt air.",
    "molten-salt": precautions["molten-salt"]!.says,
    "high-voltage":
      "No metal between the device and ground: not in the frame, not in the cable, not as a coating of the fiber.",
    radiation: "Ask how glass and glue darken with dose before they are bought; keep samples of both.",
  },
  light: {
    "strong-magnet":
      "A strong magnet turns polarization in plain fiber: keep both polarizers on the chip, and bring no isolator, motor or tool with iron near. The magnet's own rules come first (ASTM F2503 for marking).",
    laser:
      "Classes by the launched power, not by what arrives (IEC 60825-1; fibers: IEC 60825-2): class 1 up to 0.39 mW, 2 up to 1 mW, 3R up to 5 mW, 3B up to 0.5 W for visible continuous light, other limits elsewhere (rounded, from a table of JIS C 6802, which follows IEC 60825-1). The maker of the product gives the class from the current edition; Limits compares the numbers. Switch off before a connector is opened, never look into a fiber or a guide's end through an instrument.",
    "explosive-atmosphere":
      "Light can ignite: power and power per area at every fiber end and at a break count (IEC 60079-28). Ask the person responsible for the zone.",
  },
  records: {
    "strong-magnet":
      "In a test near a magnet the loudspeaker is a projectile: bring the sound through a tube from outside, and ask who is responsible for the magnet before each visit.",
    laser: "Switch the light off before a connector is opened; a fiber that is pulled is the full launched power.",
    "explosive-atmosphere":
      "Sources, amplifiers and laptops that are not certified stay outside the zone; a permit comes first.",
    "loud-sound":
      "Make loud sound in a closed coupler, with nobody in the room, and raise the level in steps. Hearing protection where people are; exposure counts over the day, peaks alone.",
    "pressurized-glass":
      "Pump and fill more slowly than the vent follows (Limits says how fast), with a shield before the glass and eye protection.",
    outdoors:
      "Wind and rain are in the record: note the weather, put a screen on, keep a null record. Stop when there is thunder.",
    "high-voltage": "Those who are licensed connect and earth; records are taken from where they say.",
    radiation: "Dose darkens the glass: take a reading of the light before and after, and stay no longer than allowed.",
  },
};

/** Notes of a page for the precautions that a project has. */
export function careNotes(page: CarePage, keys: readonly string[]): readonly CareNote[] {
  const own = keys.flatMap((key) => {
    const says = there[page][key];
    return says === undefined ? [] : [{ about: precautions[key]?.label ?? key, says }];
  });
  return [...own, ...always[page]];
}

export const careWords = {
  title: "Care",
  aside: "before hands go on",
  defers:
    "The usual caution, not a procedure: the current edition of each standard, local codes and licensed practice come before anything said here.",
} as const;
