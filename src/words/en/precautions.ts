/**
 * What a site demands of people and of the device. Each defers to the standard's current edition, to local codes and to
 * licensed practice.
 */

export interface Precaution {
  /** What the site has: "strong magnet". */
  readonly label: string;
  readonly says: string;
  /** The standard or rule to read; null: none is named. */
  readonly standard: string | null;
}

export const precautions: Readonly<Record<string, Precaution>> = {
  "strong-magnet": {
    label: "strong magnet",
    says: "Nothing magnetic near the magnet: tools, clamps, connectors and clothing fly. A pulsed magnet also moves what carries current, and its quench can displace the air to breathe. Without metal is a reason for a design, not a mark that it is safe: that mark needs evidence of its own.",
    standard: "ASTM F2503 for marking; the magnet's own rules come first",
  },
  laser: {
    label: "laser light",
    says: "Launched power decides the class, not what arrives: a fiber end that comes off is the full beam. Enclose it, switch off before opening, wear eyewear for that wavelength, and never look into a fiber end through an instrument.",
    standard: "IEC 60825-1, for fibers IEC 60825-2",
  },
  "explosive-atmosphere": {
    label: "explosive atmosphere",
    says: "Light itself can ignite: its power and its power per area are limited there. Ask the person responsible for the zone before anything is switched on.",
    standard: "IEC 60079-28",
  },
  "loud-sound": {
    label: "loud sound",
    says: "Loud tests hurt hearing before they hurt glass: hearing protection, a warning before each start, nobody beside the source. Exposure counts over the day, and peaks count alone.",
    standard: "directive 2003/10/EC or your country's rule",
  },
  "pressurized-glass": {
    label: "glass under pressure or vacuum",
    says: "Thin glass breaks without warning and throws splinters: a shield, eye protection, and a slow rise of pressure.",
    standard: null,
  },
  "high-voltage": {
    label: "high voltage",
    says: "Fibers carry no current, frames and holders do: keep the distance that the voltage asks for, and let those work there who are licensed to.",
    standard: "your country's rule for electrical work",
  },
  radiation: {
    label: "ionizing radiation",
    says: "Glass darkens and loss grows with dose: plan for less light. Entry, time and dosimeter by the rules of the radiation protection officer.",
    standard: "your country's radiation protection rule",
  },
};
