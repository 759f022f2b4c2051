import type { Wall } from "../panel/walls.ts";
import type { BuildReport } from "../schedule/buildReport.ts";

const hundredths = (value: number) => Math.round(value * 100) / 100;
const wallOf = ({ side, name }: Wall) => ({ side, name });

/** Room, keep-outs and frames of `check --json`: mm to hundredths, holes by their numbers; a key only where there is something to say. */
export function buildJson({ room, keepOuts, frame }: BuildReport): Readonly<Record<string, unknown>> {
  return {
    ...(room === null
      ? {}
      : {
          room: {
            ...(room.fit === null
              ? {}
              : {
                  rmsMm: hundredths(room.fit.rmsMm),
                  worst: room.fit.worst.measure,
                  measures: room.fit.misfits.map(({ measure, measuredMm, fittedMm, aloneMm }) => ({
                    measure,
                    measuredMm,
                    fittedMm: hundredths(fittedMm),
                    aloneMm: Number.isFinite(aloneMm) ? hundredths(aloneMm) : null,
                  })),
                }),
            perimeter: room.perimeter.map(({ wall, fromMm, toMm }) => ({
              wall: wallOf(wall),
              fromMm: hundredths(fromMm),
              toMm: hundredths(toMm),
            })),
          },
        }),
    ...(keepOuts.length === 0
      ? {}
      : {
          keepOuts: keepOuts.map(({ keepOut: { id, kind, stars, frontMm, behindMm }, from }) => ({
            id,
            kind,
            stars,
            clearance: { frontMm, behindMm },
            from: from.map(({ wall, mm }) => ({ wall: wallOf(wall), mm: hundredths(mm) })),
          })),
        }),
    ...(frame === null
      ? {}
      : {
          frame: {
            ways: frame.ways.map(({ sag, laneMm, edgeBandMm, deadShare, ...way }) => ({
              ...way,
              edgeBandMm: hundredths(edgeBandMm),
              laneMm: laneMm?.map(hundredths) ?? null,
              deadShare: Math.round(deadShare * 1e4) / 1e4,
              sag: sag && { ...sag, spanMm: hundredths(sag.spanMm), sagMm: hundredths(sag.sagMm) },
            })),
            screws: frame.screws,
            hangers: frame.hangers,
            bored: frame.bored.map(({ hole, panel, hip, name, mag }) => ({ hole, panel, hip, name, mag })),
            brightest: frame.brightest,
            moves: frame.moves.map(({ frees, takes, ...move }) => ({
              ...move,
              frees: frees.map(({ hole }) => hole),
              takes: takes.map(({ hole }) => hole),
            })),
          },
        }),
  };
}
