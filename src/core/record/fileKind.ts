/** What kind of file bytes are, by how they begin. */

/** HDF5 starts with these bytes. */
export const isContainer = (bytes: Uint8Array): boolean =>
  [0x89, 0x48, 0x44, 0x46, 0x0d, 0x0a, 0x1a, 0x0a].every((byte, i) => bytes[i] === byte);

/** ZIP (and the workbooks in it), gzip, PDF, pictures. */
export const looksPacked = (bytes: Uint8Array): boolean =>
  (bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2]! < 9) ||
  (bytes[0] === 0x1f && bytes[1] === 0x8b) ||
  (bytes[0] === 0x25 && bytes[1] === 0x50 && bytes[2] === 0x44 && bytes[3] === 0x46) ||
  (bytes[0] === 0x89 && bytes[1] === 0x50) ||
  (bytes[0] === 0xff && bytes[1] === 0xd8);

/** The first eight bytes, for a message. */
export const hex = (bytes: Uint8Array) =>
  Array.from(bytes.subarray(0, 8), (byte) => byte.toString(16).padStart(2, "0")).join(" ");
