// Holds model.glb and section.glb of each folder against the format's own validator: no errors, warnings, infos or hints.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import validator from "gltf-validator";

let passed = 0;
let failed = 0;
const files = process.argv.slice(2).flatMap((folder) => ["model.glb", "section.glb"].map((name) => join(folder, name)));
for (const file of files) {
  const result = await validator.validateBytes(new Uint8Array(readFileSync(file)));
  const { numErrors, numWarnings, numInfos, numHints, messages } = result.issues;
  for (const [kind, count] of Object.entries({ numErrors, numWarnings, numInfos, numHints })) {
    if (count === 0) {
      passed += 1;
    } else {
      failed += 1;
      console.log(`validator: FAILED: ${file}: ${kind} is ${count}`);
    }
  }
  for (const message of messages.slice(0, 20)) {
    console.log(`  ${message.code}: ${message.message} ${message.pointer ?? ""}`);
  }
}
console.log(`validator: ${passed} passed, ${failed} failed`);
process.exit(failed === 0 && passed > 0 ? 0 : 1);
