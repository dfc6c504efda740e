/** Constants of nature, exact since the SI of 2019. */

/** Boltzmann constant k [J/K]. */
export const boltzmann = 1.380649e-23;

/** Charge of an electron e [C]. */
export const elementaryCharge = 1.602176634e-19;

/** Planck constant h [J s]. */
export const planck = 6.62607015e-34;

/** Speed of light in vacuum [m/s]. */
export const lightSpeed = 299792458;
