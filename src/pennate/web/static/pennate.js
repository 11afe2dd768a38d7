// Small comforts on top of pages that work without any script.
import { startClock } from "./rest.js";
import { guardForms } from "./once.js";

startClock(document);
guardForms(document);
