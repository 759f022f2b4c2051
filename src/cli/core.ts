/**
 * What the actions need of the stages, as one module: loaded by an action, not at start-up, and bundled as one file, since
 * every further file costs a command some of its start.
 */
export { buildJson } from "../outputs/buildJson.ts";
export { checkReport } from "../outputs/checkReport.ts";
export { freeReport } from "../outputs/freeReport.ts";
export { holesCsv } from "../outputs/holesCsv.ts";
export { scheduleCsv } from "../outputs/scheduleCsv.ts";
export { scheduleJson } from "../outputs/scheduleJson.ts";
export { starsCsv } from "../outputs/starsCsv.ts";
export { askForStrands } from "../schedule/ask.ts";
export { buildReport } from "../schedule/buildReport.ts";
export { freeMoments } from "../schedule/freeMoments.ts";
export { planSky } from "../schedule/makeSchedule.ts";
export { markingFindings } from "../schedule/marking.ts";
export { listStars } from "../schedule/stars.ts";
export { dataVersion, loadBoundaries, loadSkyData } from "./dataFiles.ts";
export { locating, readPlanFile } from "./planFile.ts";
export { scheduled, validScheduled } from "./scheduled.ts";
