/** Why a requirement can't be met together with the others: the law that stands in the way, in words. */
const laws: Readonly<Record<string, string>> = {
  "brief.band.from":
    "The vent and the back volume set the low end: a slower vent or a larger volume reaches lower, and lets a climb or the weather press on the diaphragm for longer.",
  "brief.band.to":
    "Sensitivity times resonance squared times side hardly depends on the design (S f1^2 a is constant for one glass): a higher band costs sensitivity, and at a given resonance only thinner glass gives some back, as 1 / sqrt(thickness).",
  "brief.sensitivity.atLeast":
    "Sensitivity times resonance squared times side hardly depends on the design (S f1^2 a is constant for one glass): at the resonance that the band needs, sensitivity goes with 1 / sqrt(thickness).",
  "brief.damping.atLeast":
    "The film damps with 1 / gap^3 until it stiffens the diaphragm instead; thick glass moves too little air to be damped.",
  "brief.damping.atMost": "A thinner film damps more; below some gap the diaphragm creeps and no longer rings at all.",
  "brief.noise.atMost":
    "The floor of such a readout is the light: shot and intensity noise of the detected power, divided by the sensitivity. Only more light, two outputs or more radians per pascal lower it.",
  "brief.loudest.atLeast":
    "The readout's sine bends at a phase of some 0.8 rad: what is more sensitive is sooner too loud.",
  "brief.vibration.atMost":
    "A diaphragm weighs its density times its thickness per area: only thinner glass reads less of a shaking frame.",
  "brief.strength.atLeast":
    "Stress goes with (side / thickness)^2: a larger or thinner diaphragm breaks at a lower pressure.",
};

export const lawOf = (requirement: string): string => laws[requirement] ?? "No law is known for this one.";
