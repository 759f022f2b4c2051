"use strict";
// Stands in the bundle for what unpacks fonts of the format WOFF2: no such font is shipped.
module.exports = () => {
  throw new Error("fonts of the format WOFF2 are not read here");
};
