/** The diaphragm as a solid body, drawn with three; loaded only when somebody looks. Nothing is drawn but on demand. */
import {
  BufferAttribute,
  BufferGeometry,
  Color,
  DoubleSide,
  Line,
  LineBasicMaterial,
  LineLoop,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  OrthographicCamera,
  Scene,
  SRGBColorSpace,
  WebGLRenderer,
} from "three";
import type { Rgb } from "./moment.ts";

export interface BodyFrame {
  readonly points: number;
  /** Along over across. */
  readonly aspect: number;
  /** Heights in units of the side across, row-major, upwards. */
  readonly heights: Float64Array;
  readonly colors: readonly Rgb[];
  /** Turn and tilt [degrees]. */
  readonly turn: number;
  readonly tilt: number;
  /** -1 .. 1 along the guide, what lies before it is cut away; null: whole. */
  readonly cut: number | null;
  readonly ink: Rgb;
}

export interface Body {
  readonly draw: (frame: BodyFrame) => void;
  readonly resize: (width: number, height: number) => void;
  readonly end: () => void;
}

/** Grid lines drawn on the surface a direction. */
const lines = 10;

/** null: this browser draws no solid bodies. */
export function createBody(canvas: HTMLCanvasElement): Body | null {
  let renderer: WebGLRenderer;
  try {
    renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  } catch {
    return null;
  }
  renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
  const scene = new Scene();
  const camera = new OrthographicCamera(-1, 1, 1, -1, 0.1, 10);
  const surface = new MeshBasicMaterial({
    vertexColors: true,
    side: DoubleSide,
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 1,
  });
  const wire = new LineBasicMaterial({ transparent: true, opacity: 0.45 });
  const rim = new LineBasicMaterial();
  const [geometry, grid, edge, section] = [0, 1, 2, 3].map(() => new BufferGeometry()) as [
    BufferGeometry,
    BufferGeometry,
    BufferGeometry,
    BufferGeometry,
  ];
  let sectionPlaces = new BufferAttribute(new Float32Array(0), 3);
  scene.add(new Line(section, rim), new Mesh(geometry, surface), new LineSegments(grid, wire), new LineLoop(edge, rim));
  let made = 0;
  /** Where the lines of each row of the grid begin. */
  let rows: readonly number[] = [];
  let shape = { width: 1, height: 1 };

  function build(points: number): void {
    const faces: number[] = [];
    const segments: number[] = [];
    for (let j = 0; j + 1 < points; j++)
      for (let i = 0; i + 1 < points; i++) {
        const at = j * points + i;
        faces.push(at, at + 1, at + points, at + 1, at + points + 1, at + points);
      }
    const step = Math.max(1, Math.round((points - 1) / lines));
    const begins: number[] = [];
    for (let j = 0; j < points; j++) {
      begins.push(segments.length);
      for (let i = 0; i < points; i++) {
        const at = j * points + i;
        if (j % step === 0 && i + 1 < points) segments.push(at, at + 1);
        if (i % step === 0 && j + 1 < points) segments.push(at, at + points);
      }
    }
    rows = begins;
    const position = new BufferAttribute(new Float32Array(3 * points * points), 3);
    geometry.setAttribute("position", position);
    geometry.setAttribute("color", new BufferAttribute(new Float32Array(3 * points * points), 3));
    geometry.setIndex(faces);
    grid.setAttribute("position", position);
    grid.setIndex(segments);
    edge.setAttribute("position", new BufferAttribute(new Float32Array(12), 3));
    sectionPlaces = new BufferAttribute(new Float32Array(3 * points), 3);
    section.setAttribute("position", sectionPlaces);
    made = points;
  }

  return {
    draw: (frame) => {
      const { points, aspect, heights, colors, turn, tilt, cut, ink } = frame;
      if (made !== points) build(points);
      // Across and along in a square of side 1 by its larger side; three's y is up.
      const [wide, deep] = aspect > 1 ? [1 / aspect, 1] : [1, aspect];
      const position = geometry.getAttribute("position") as BufferAttribute;
      const color = geometry.getAttribute("color") as BufferAttribute;
      const linear = new Color();
      for (let j = 0; j < points; j++)
        for (let i = 0; i < points; i++) {
          const at = j * points + i;
          const [u, v] = [i / (points - 1) - 0.5, j / (points - 1) - 0.5];
          position.setXYZ(at, u * wide, heights[at]! * wide, -v * deep);
          const [r, g, b] = colors[at]!;
          linear.setRGB(r, g, b, SRGBColorSpace);
          color.setXYZ(at, linear.r, linear.g, linear.b);
        }
      const corners = edge.getAttribute("position") as BufferAttribute;
      [
        [-0.5, -0.5],
        [0.5, -0.5],
        [0.5, 0.5],
        [-0.5, 0.5],
      ].forEach(([u = 0, v = 0], i) => {
        corners.setXYZ(i, u * wide, 0, v * deep);
      });
      for (const one of [position, color, corners]) one.needsUpdate = true;
      geometry.computeBoundingSphere();
      grid.computeBoundingSphere();
      edge.computeBoundingSphere();
      wire.color.setRGB(...ink, SRGBColorSpace);
      rim.color.copy(wire.color);
      const from = cut === null ? 0 : Math.min(points - 2, Math.round(((cut + 1) / 2) * (points - 1)));
      geometry.setDrawRange(6 * (points - 1) * from, Number.POSITIVE_INFINITY);
      grid.setDrawRange(rows[from] ?? 0, Number.POSITIVE_INFINITY);
      section.setDrawRange(0, cut === null ? 0 : points);
      for (let i = 0; i < points; i++) {
        const at = from * points + i;
        sectionPlaces.setXYZ(i, position.getX(at), position.getY(at), position.getZ(at));
      }
      sectionPlaces.needsUpdate = true;
      section.computeBoundingSphere();
      const [a, b] = [(turn * Math.PI) / 180, (tilt * Math.PI) / 180];
      camera.position.set(3 * Math.sin(a) * Math.cos(b), 3 * Math.sin(b), 3 * Math.cos(a) * Math.cos(b));
      camera.up.set(0, 1, 0);
      camera.lookAt(0, 0, 0);
      const ratio = shape.width / shape.height;
      const reach = Math.max(0.62, 0.78 / ratio);
      camera.left = -reach * ratio;
      camera.right = reach * ratio;
      camera.top = reach;
      camera.bottom = -reach;
      camera.updateProjectionMatrix();
      renderer.render(scene, camera);
    },
    resize: (width, height) => {
      shape = { width, height };
      renderer.setSize(width, height, false);
    },
    end: () => {
      for (const one of [geometry, grid, edge, section, surface, wire, rim]) one.dispose();
      renderer.dispose();
      renderer.forceContextLoss();
    },
  };
}
