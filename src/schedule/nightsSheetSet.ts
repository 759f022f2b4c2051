import type { Plan, ViewPlan } from "../plan/plan.ts";

/** A key of the plan file and what it is to say. */
export interface KeyValue {
  readonly key: string;
  readonly value: unknown;
}

/** What has to be written into a plan file to make `from` into `to`, which differ in moment or view alone. */
export function keysToSet(from: Plan, to: Plan): KeyValue[] {
  return [
    ...(from.moment === to.moment ? [] : [{ key: "moment", value: to.moment }]),
    ...viewKeys(from, to.view),
  ];
}

/** One kind of view has keys that the other refuses: then the whole view is written anew. */
function viewKeys({ view: from, ceiling }: Plan, to: ViewPlan): KeyValue[] {
  const own = ownKeys(to, ceiling);
  if (from.kind !== to.kind) return [{ key: "view", value: { kind: to.kind, ...own, ...aside(to) } }];
  const before: Record<string, unknown> = { ...ownKeys(from, ceiling), aim: from.aim };
  return Object.entries({ ...own, aim: to.aim })
    .filter(([key, value]) => JSON.stringify(value) !== JSON.stringify(before[key]))
    .map(([key, value]) => ({ key: `view.${key}`, value }));
}

function ownKeys(view: ViewPlan, ceiling: Plan["ceiling"]): Record<string, unknown> {
  if (view.kind === "chart") return { projection: view.projection, span: view.span };
  const { below, x, y } = view.eye;
  const middle = x === ceiling.width / 2 && y === ceiling.length / 2;
  return { eye: { below: `${below}mm`, ...(middle ? {} : { x: `${x}mm`, y: `${y}mm` }) } };
}

/** What both kinds of view have, where it is not the default. */
const aside = ({ aim, topBearing, up, roll }: ViewPlan): Record<string, unknown> => ({
  ...(aim === "zenith" ? {} : { aim }),
  ...(topBearing === 0 ? {} : { topBearing }),
  ...(up === "zenith" ? {} : { up }),
  ...(roll === 0 ? {} : { roll }),
});
