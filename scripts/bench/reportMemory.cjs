"use strict";
// Loaded before a command: at its end tells the most memory it held, in KiB.
process.on("exit", () => process.stderr.write(`maxRSS=${process.resourceUsage().maxRSS}\n`));
