/** The demo: an invented listener, as a user would write its file. */

export const demoText = `{
  "format": "glassdrum-project", "version": 1,
  "title": "Pulse-magnet pit listener (invented)",
  "notes": "Invented scenario and data.",
  "brief": {
    "band": { "from": "50 Hz", "to": "7 kHz", "within": "2 dB", "must": true },
    "sensitivity": { "atLeast": "0.65 mrad/Pa", "at": "1 kHz" },
    "damping": { "atLeast": 0.4, "atMost": 0.9 },
    "noise": { "atMost": "50 dB" },
    "loudest": { "atLeast": "140 dB", "distortion": "3 %", "at": "1 kHz" },
    "vibration": { "atMost": "75 dB" },
    "strength": { "atLeast": 4 },
    "site": { "temperature": ["15 degC", "35 degC"], "pressure": ["900 hPa", "1050 hPa"], "humidity": ["20 %", "80 %"],
              "staticOverpressure": "2 kPa", "rise": "10 s", "precautions": ["strong-magnet", "laser"] }
  },
  "air": { "temperature": "23 degC", "pressure": "101.325 kPa", "humidity": "50 %" },
  "materials": {
    "our-sheet": { "youngsModulus": "72.9 GPa", "poissonRatio": 0.208, "density": "2510 kg/m^3", "index": 1.523, "p11": 0.121, "p12": 0.2406,
                   "expansion": "7.2 um/(m K)", "indexPerKelvin": "2e-6 1/K",
                   "strength": { "scale": "45 MPa", "modulus": 7, "area": "1 cm^2", "time": "60 s" }, "source": "invented" }
  },
  "microphone": {
    "diaphragm": { "material": "our-sheet", "across": "5.5 mm", "along": "5.5 mm", "thickness": "30 um",
                   "layers": [], "edges": { "sides": "clamped", "ends": "clamped" },
                   "tension": { "across": "0 N/m", "along": "0 N/m" }, "lossFactor": 0.001 },
    "frame": { "material": "borosilicate-3.3", "thickness": "1.1 mm", "outer": ["20 mm", "12 mm"], "bondedAt": "20 degC" },
    "load": { "difference": "0 Pa" },
    "guide": { "at": "2.6 mm", "face": "front", "depth": "3 um", "width": "4 um", "length": "20 mm", "weight": 1,
               "birefringence": 0.001, "birefringencePerKelvin": "1e-8 1/K", "profile": null, "process": null },
    "light": { "wavelength": "633 nm", "launched": "5 mW", "loss": "7 dB", "relativeIntensity": "-140 dB/Hz", "noiseCorner": "1 kHz", "linewidth": "1 MHz",
               "fiber": { "mode": "4.3 um" } },
    "film": { "gap": "38 um", "edges": "open", "backPlate": null },
    "front": { "holes": [ { "diameter": "1.2 mm", "length": "0.2 mm", "at": ["0 mm", "0 mm"], "ends": "piston" } ],
               "cavity": { "volume": "7.2 mm^3", "surface": "76.8 mm^2" } },
    "back": { "cavity": { "volume": "800 mm^3", "surface": "600 mm^2" },
              "vent": { "shape": "round", "diameter": "0.1 mm", "length": "3 mm", "exposed": false }, "leak": null },
    "body": null,
    "readout": { "kind": "polarimetric", "outputs": "both", "rejection": "30 dB", "bias": "90 deg", "visibility": 0.95,
                 "polarizer": { "angle": "45 deg", "extinction": "30 dB" }, "analyzer": { "angle": "-45 deg", "extinction": "30 dB" }, "imbalance": "0 dB",
                 "receiver": { "responsivity": "0.45 A/W", "resistor": "20 kohm", "voltageNoise": "5 nV/sqrt(Hz)", "currentNoise": "10 fA/sqrt(Hz)",
                               "bandwidth": "100 kHz", "bits": 24, "fullScale": "2 V", "sampling": "96 kHz" } }
  },
  "tolerances": [
    { "path": "microphone.diaphragm.thickness", "kind": "normal", "standard": "1 um", "costOfHalving": 3 },
    { "path": "microphone.film.gap", "kind": "uniform", "half": "2 um" },
    { "together": ["microphone.diaphragm.across", "microphone.diaphragm.along"], "correlation": 0.8 }
  ],
  "choices": [
    { "path": "microphone.diaphragm.thickness", "from": ["30 um", "50 um", "70 um"] },
    { "path": "microphone.film.gap", "between": ["15 um", "200 um"] }
  ],
  "kept": [ { "name": "first idea", "changes": { "microphone.film.gap": "50 um", "microphone.readout.outputs": "one" } } ],
  "specimens": [
    { "id": "a3", "name": "A3", "design": "now",
      "made": { "diaphragm": { "thickness": { "value": "28.6 um", "standard": "0.3 um" } } },
      "free": [ { "path": "diaphragm.edges.sides.rotation", "prior": { "kind": "log-uniform", "between": ["0.01 N", "100 N"] } } ],
      "records": [
        { "id": "r1", "kind": "ring-down", "file": "a3-tone-off.csv", "taken": "2026-11-02",
          "conditions": { "air": { "temperature": "24 degC" }, "film": null, "excitation": "1 Pa" },
          "recipe": { "columns": [ { "index": 0, "is": "time", "unit": "s" }, { "index": 1, "is": "output", "unit": "V" } ],
                      "decimal": ".", "skipLines": 3, "use": { "from": "1 ms", "to": "9 ms" } },
          "calibration": "c1",
          "readings": { "dampingRatio": { "value": 0.0181, "standard": 0.0004, "by": "fit" } } } ] }
  ],
  "calibrations": [
    { "id": "c1", "kind": "bias-sweep", "low": "0.12 V", "high": "1.94 V", "standard": "0.01 V" },
    { "id": "c2", "kind": "sound-level", "level": "94 dB", "tolerance": "0.3 dB", "at": "1 kHz" }
  ],
  "workshop": { "revision": "A", "sheet": "A4", "general": "medium" }
}
`;
