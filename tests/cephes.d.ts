/** What the tests use of cephes, whose own types its package file hides. */
declare module "cephes" {
  const cephes: {
    readonly compiled: Promise<void>;
    erf(x: number): number;
    erfc(x: number): number;
    jn(order: number, x: number): number;
    jv(order: number, x: number): number;
    yv(order: number, x: number): number;
    j0(x: number): number;
    j1(x: number): number;
    y0(x: number): number;
    y1(x: number): number;
    i0e(x: number): number;
    i1e(x: number): number;
  };
  export default cephes;
}
