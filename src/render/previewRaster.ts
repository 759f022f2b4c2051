export interface PreviewRaster {
  /** Rows from the top, three bytes a pixel: red, green, blue in sRGB. */
  readonly data: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly channels: 3;
}
