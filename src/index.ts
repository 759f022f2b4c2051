/** The stages of Lacunar as a library. The same functions serve the command line. */

export { fontBytes, loadBoundaries, loadSkyData } from "./cli/dataFiles.ts";
export { loadGazetteer } from "./cli/gazetteerFile.ts";
export { coreMagnitude, type PhotometricFit, photometricFit } from "./fibre/brightness.ts";
export { type Graded, strandBySize } from "./fibre/grade.ts";
export { type Mergeable, type MergedObjects, mergeClose, summedMag } from "./fibre/merge.ts";
export { type StrandOrder, strandsFor } from "./fibre/order.ts";
export { type StrandStock, strandStock } from "./fibre/stock.ts";
export { holesCsv } from "./outputs/holesCsv.ts";
export type { Dialect } from "./outputs/machine/gcode.ts";
export { machineFiles } from "./outputs/machine/machineFiles.ts";
export { planYaml } from "./outputs/planYaml.ts";
export { preflightMachine } from "./outputs/preflight.ts";
export { type Frame, proofWords } from "./outputs/proofWords.ts";
export { scheduleCsv } from "./outputs/scheduleCsv.ts";
export { scheduleJson } from "./outputs/scheduleJson.ts";
export { starsCsv } from "./outputs/starsCsv.ts";
export { layOutPanels, type Panel, type RectangleMm } from "./panel/panels.ts";
export { makePlacer, type Place, type Placer } from "./panel/placement.ts";
export { type WorkPanel, workPanels } from "./panel/work.ts";
export { type Finding, InputError, UnbuildableError } from "./plan/errors.ts";
export type { PlaceLookUp } from "./plan/fill.ts";
export { planJsonSchema } from "./plan/jsonSchema.ts";
export { parseLengthMm } from "./plan/lengths.ts";
export type * from "./plan/plan.ts";
export { readPlan } from "./plan/read.ts";
export { type ChangedKey, type SetPlan, type SetRequest, setKeys } from "./plan/setKeys.ts";
export { STARTER_PLAN } from "./plan/starter.ts";
export { resolveAim } from "./projection/aim.ts";
export { type Field, findField } from "./projection/field.ts";
export {
  ceilingToFace,
  faceToBack,
  inCeilingFrame,
  type PointMm,
  reflectXMm,
} from "./projection/frames.ts";
export { NO_SLIDE, type Slide } from "./projection/slide.ts";
export { type AimedAt, makeView, type View } from "./projection/view.ts";
export {
  encodePreview,
  type LineChoice,
  loadFont,
  type PreviewLines,
  type PreviewScene,
  previewLabelsSvg,
  previewLines,
  previewSvg,
  rasterizePreview,
  sceneOf,
} from "./render/index.ts";
export { boardAsCut, type CutPanelRecord } from "./schedule/asCut.ts";
export { askForStrands } from "./schedule/ask.ts";
export type * from "./schedule/fidelityTypes.ts";
export { type Found, type FoundObject, findInSky } from "./schedule/find.ts";
export { type FreeMoment, type FreeMoments, freeMoments } from "./schedule/freeMoments.ts";
export {
  makeSchedule,
  type PlannedSky,
  planAndSchedule,
  planSky,
  scheduleFrom,
} from "./schedule/makeSchedule.ts";
export { type PassCount, passCounts } from "./schedule/passes.ts";
export { type ProofHole, type Proofs, proofsOf } from "./schedule/proofs.ts";
export { type SampleBoard, sampleBoard } from "./schedule/sampleBoard.ts";
export { listStars, type StarRecord } from "./schedule/stars.ts";
export type * from "./schedule/types.ts";
export { validateSchedule } from "./schedule/validate.ts";
export {
  altitudeDeg,
  apparentDirection,
  apparentDirections,
  azimuthDeg,
  directionOf,
  equatorialVector,
  horizontalCoordinates,
} from "./sky/apparent.ts";
export {
  type Catalogue,
  decodeCatalogue,
  NO_COLOUR_INDEX,
  type StarVectors,
  starVectors,
} from "./sky/catalogue.ts";
export { type Moment, resolveMoment } from "./sky/civilTime.ts";
export {
  CONSTELLATION_CODES,
  type Constellation,
  type Constellations,
  parseConstellations,
} from "./sky/constellations.ts";
export { type Darkness, darknessOf, sunAltitudeDeg } from "./sky/darkness.ts";
export { type Designations, parseDesignations } from "./sky/designations.ts";
export { type Observer, observerAt } from "./sky/observer.ts";
export type { GeoPlace } from "./sky/place.ts";
export {
  decodeGazetteer,
  type FoundPlace,
  findPlaces,
  type Gazetteer,
  type PlaceRecord,
  resolvePlace,
  type WantedPlace,
} from "./sky/places.ts";
export type { SkyData } from "./sky/skyData.ts";
export { bodyAt, moonAt, PLANETS, type PlanetName, type SkyBody } from "./sky/solarSystem.ts";
