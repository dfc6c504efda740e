/** Air at rest, as everything acoustic needs it. */
export interface Air {
  /** Static pressure P0 [Pa]. */
  readonly pressure: number;
  /** Temperature [K]. */
  readonly temperature: number;
  /** Relative humidity, 0 to 1 [-]. */
  readonly humidity: number;
  /** Density rho0 [kg/m3]. */
  readonly density: number;
  /** Dynamic viscosity mu [Pa s]. */
  readonly viscosity: number;
  /** Ratio of specific heats gamma [-]. */
  readonly heatRatio: number;
  /** Prandtl number Pr [-]. */
  readonly prandtl: number;
  /** Mean free path [m]; 0: no slip at walls. */
  readonly meanFreePath: number;
}
