/** The mark that pictures carry in their metadata, so that a later run knows which it may replace. */
export const MADE_BY = "Made by Lacunar";
