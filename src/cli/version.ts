declare const LACUNAR_VERSION: string | undefined;

/** The build writes the version in; run from the sources, it is not known. */
export const VERSION: string = typeof LACUNAR_VERSION === "string" ? LACUNAR_VERSION : "0.0.0-source";
