// An amplifier and two subwoofers go into a coupé with a factory amplifier: five mistakes, and the corrected hookup.
import { check, hookup, print } from "./service.js";

print("first draft", await check(hookup("amplifier-and-subwoofers/check-1-first-draft.json")));
print("corrected", await check(hookup("amplifier-and-subwoofers/check-2-ready.json")));
