/** Trade terms in a sentence or two each, linked from the fields and labels that use them. The words of docs/words.md, for readers of the page. */

export interface Term {
  readonly term: string;
  readonly means: string;
}

export const glossary: readonly Term[] = [
  {
    term: "air film",
    means:
      "The thin air between diaphragm and back plate. What the diaphragm pushes out of it must flow sideways through a narrow gap: that is the damping.",
  },
  {
    term: "band",
    means:
      "The frequencies over which the response stays within plus or minus so many dB of its level at the reference frequency.",
  },
  {
    term: "bias",
    means:
      "The retardation between the two polarizations at rest. Where it is a quarter of a wave the light's power changes most with the phase.",
  },
  {
    term: "birefringence",
    means:
      "Difference of the indices for the two polarizations of the guide. It makes the bias, and its drift with temperature.",
  },
  {
    term: "damping ratio",
    means:
      "How fast a resonance dies away: 0 rings for ever, 1 no longer swings. About 0.5 to 0.7 keeps the response level.",
  },
  {
    term: "diaphragm",
    means:
      "The thin glass plate that sound bends. It resists by its bending stiffness, which grows with the third power of its thickness.",
  },
  {
    term: "edges",
    means:
      "Clamped: no slope at the edge, as in a stiff bond. Supported: no moment, free to turn. Most bonds lie between.",
  },
  {
    term: "guide",
    means:
      "The channel in the glass that the light runs in. Bending strains the glass, and the strain turns the phase between the light's two polarizations.",
  },
  {
    term: "loss factor",
    means:
      "Share of the bending energy that glass and bond turn into heat in each swing, over 2 pi. Small; the air film damps far more.",
  },
  {
    term: "loudest sound",
    means:
      "The level at which the output is distorted by so many percent, because the phase no longer turns into light in a straight line or the plate no longer bends so.",
  },
  { term: "mode", means: "A free vibration of the diaphragm in vacuum, with a shape and a frequency of its own." },
  {
    term: "mode of the guide",
    means:
      "A pattern in which light runs along the guide without changing: TE with its field along the face, TM across it. Each has its own depth and width, and with several of them the output beats.",
  },
  {
    term: "noise",
    means:
      "What the output does in silence, told as the sound level that would read the same: from the molecules of the air, the light, the receiver.",
  },
  {
    term: "pole",
    means:
      "A complex frequency at which the device moves without being driven: its size is the resonance, its angle the damping ratio.",
  },
  {
    term: "precaution",
    means:
      "What the site demands of people and of the device: beside a strong magnet, around a laser, in an explosive atmosphere.",
  },
  {
    term: "resonance",
    means: "The frequency at which the whole, plate and air, swings by itself. Above it the response falls.",
  },
  {
    term: "response, S(f)",
    means: "Phase of the light per pressure of sound, with its delay, over frequency. Everything else is read from it.",
  },
  {
    term: "ring-down",
    means: "What is left of the motion after a tone has stopped. Its decay shows the damping.",
  },
  {
    term: "sensitivity",
    means: "Size of the response at one frequency: how far the light's phase turns for one pascal of sound.",
  },
  {
    term: "static overpressure",
    means:
      "A pressure difference that does not change, from altitude, weather or a blocked vent. It bends the glass before any sound does.",
  },
  {
    term: "strength",
    means:
      "The safety factor of the glass. Glass has no fixed strength: it breaks at its worst flaw, and slowly under a load that lasts.",
  },
  {
    term: "tension",
    means:
      "Force in the plane of the diaphragm per length of edge, from bonding and from heat. Pull makes it stiffer, push softer, until it buckles.",
  },
  {
    term: "vent",
    means:
      "The fine hole that lets the volume behind breathe, so that the weather does not bend the diaphragm. It sets the lower end of the band.",
  },
  {
    term: "vibration",
    means:
      "The sound level that reads as much as shaking the device by 1 m/s² does: the mass of glass and air is pushed instead of the pressure.",
  },
];

export const glossaryWords = {
  title: "Words",
  close: "close",
  search: "Search the words",
  nothing: "No such word here.",
} as const;
