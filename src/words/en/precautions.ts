/**
 * What a site demands of people and of the device. Each defers to the standard's current edition, to local codes and to
 * licensed practice. Editions stand as remembered: they say what was in mind here, the current one holds.
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
    standard:
      "ASTM F2503 (edition of 2023, from memory) for marking, with the tests that it names: F2052 displacement, F2213 torque, F2182 heating, F2119 artifacts (from memory); the magnet's own rules come first",
  },
  laser: {
    label: "laser light",
    says: "Launched power decides the class, not what arrives: a fiber end that comes off is the full beam. Enclose it, switch off before opening, wear eyewear for that wavelength, and never look into a fiber end through an instrument.",
    standard: "IEC 60825-1 (2014, from memory), for fibers IEC 60825-2 (2021, from memory)",
  },
  "explosive-atmosphere": {
    label: "explosive atmosphere",
    says: "Light itself can ignite: its power and its power per area are limited there. Ask the person responsible for the zone before anything is switched on.",
    standard: "IEC 60079-28 (2015, from memory), with IEC 60079-0 for the equipment and IEC 60079-14 for putting it in",
  },
  "loud-sound": {
    label: "loud sound",
    says: "Loud tests hurt hearing before they hurt glass: hearing protection, a warning before each start, nobody beside the source. Exposure counts over the day, and peaks count alone.",
    standard: "directive 2003/10/EC or your country's rule",
  },
  "pressurized-glass": {
    label: "glass under pressure or vacuum",
    says: "Thin glass breaks without warning and throws splinters: a shield, eye protection, and a slow rise of pressure.",
    standard: "your country's rules for pressure vessels and vacuum chambers",
  },
  outdoors: {
    label: "outdoors",
    says: "Water, ice, dust, insects and salt close vents and holes; sun heats the frame and ages glue; wind makes more noise than the device. Give it a screen and a drain that faces down, keep the film dry, and leave before a thunderstorm: a fiber is no lightning rod, but its cable, holder and mast can be.",
    standard:
      "IEC 60529 (1989 with its amendments, from memory) for what enters a case, the tests of the IEC 60068-2 series for climate, IEC 62305 for lightning; work at heights and on roads by local rules",
  },
  "molten-salt": {
    label: "molten salt",
    says: "An exchange bath of nitrates burns, and it makes what burns burn harder: no organic matter, no oil, no paper near it, never a wet thing into it, nothing over its temperature of decay. Face shield, apron, gloves for heat, a hood, a lid; silver and its nitrate are waste of their own kind.",
    standard: "the salt's safety data sheet and your laboratory's rules (from memory)",
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
