import { DxfWriter, point3d, Units } from "@tarikjabiri/dxf";

/** A drawing in mm that the DXF library writes: layers, and the few things we put on them. */
export interface DxfSheet {
  layer(name: string, colour: number): DxfLayerPen;
  text(): string;
}

export interface DxfLayerPen {
  circle(xMm: number, yMm: number, diameterMm: number): void;
  line(from: readonly [number, number], to: readonly [number, number]): void;
  ring(corners: readonly (readonly [number, number])[]): void;
  /** A point and a cross through it. */
  cross(xMm: number, yMm: number, armMm: number): void;
  words(xMm: number, yMm: number, heightMm: number, text: string): void;
}

/** Colours by their index in every drawing program. */
export const DXF_COLOUR = {
  red: 1,
  yellow: 2,
  green: 3,
  cyan: 4,
  blue: 5,
  magenta: 6,
  black: 7,
  grey: 8,
} as const;

/** A DXF of the version of 2007 (AC1021), the first with letters of all tongues; $INSUNITS 4, which is mm. */
export function dxfSheet(): DxfSheet {
  const writer = new DxfWriter();
  writer.setUnits(Units.Millimeters);
  writer.setVariable("$MEASUREMENT", { 70: 1 });
  return {
    layer(name, colour) {
      if (writer.layer(name) === undefined) writer.addLayer(name, colour, "CONTINUOUS");
      const options = { layerName: name };
      const line = (from: readonly [number, number], to: readonly [number, number]) =>
        void writer.addLine(point3d(from[0], from[1], 0), point3d(to[0], to[1], 0), options);
      return {
        circle: (xMm, yMm, diameterMm) =>
          void writer.addCircle(point3d(xMm, yMm, 0), diameterMm / 2, options),
        line,
        ring: (corners) =>
          void writer.addLWPolyline(
            corners.map(([x, y]) => ({ point: { x, y } })),
            { flags: 1, ...options },
          ),
        cross: (xMm, yMm, armMm) => {
          writer.addPoint(xMm, yMm, 0, options);
          line([xMm - armMm, yMm], [xMm + armMm, yMm]);
          line([xMm, yMm - armMm], [xMm, yMm + armMm]);
        },
        words: (xMm, yMm, heightMm, text) =>
          void writer.addText(point3d(xMm, yMm, 0), heightMm, text, options),
      };
    },
    text: () => `${writer.stringify()}\n`,
  };
}
