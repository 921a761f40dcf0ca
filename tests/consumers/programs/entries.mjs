// Every entry of the package, imported by name: what a bundler can see.
import * as main from "aimed-movement";
import * as endpoints from "aimed-movement/endpoints";
import * as equipment from "aimed-movement/equipment";
import * as fitts from "aimed-movement/fitts";
import * as formula from "aimed-movement/formula";
import * as learning from "aimed-movement/learning";
import * as movement from "aimed-movement/movement";
import * as pacing from "aimed-movement/pacing";
import * as practice from "aimed-movement/practice";
import * as pursuit from "aimed-movement/pursuit";
import * as record from "aimed-movement/record";
import * as report from "aimed-movement/report";
import * as sequence from "aimed-movement/sequence";
import * as simulate from "aimed-movement/simulate";
import * as tally from "aimed-movement/tally";
import * as trace from "aimed-movement/trace";

export const entries = {
  "aimed-movement": main,
  "aimed-movement/endpoints": endpoints,
  "aimed-movement/equipment": equipment,
  "aimed-movement/fitts": fitts,
  "aimed-movement/formula": formula,
  "aimed-movement/learning": learning,
  "aimed-movement/movement": movement,
  "aimed-movement/pacing": pacing,
  "aimed-movement/practice": practice,
  "aimed-movement/pursuit": pursuit,
  "aimed-movement/record": record,
  "aimed-movement/report": report,
  "aimed-movement/sequence": sequence,
  "aimed-movement/simulate": simulate,
  "aimed-movement/tally": tally,
  "aimed-movement/trace": trace,
};
