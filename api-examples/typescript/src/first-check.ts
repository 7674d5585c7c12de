// A head unit, with memory and accessory mixed up because the vehicle's colours are not the head unit's.
import { check, print, type HookupDocument } from "./service.js";

const hookup: HookupDocument = {
  vehicle: {
    inline: {
      circuits: {
        "C1-7": {
          function: "power.battery",
          colour: "YE/RD",
          verifiedOn: "2026-01-29",
          electrical: {
            kind: "supply",
            maxAmps: 15,
            fuseAmps: 15,
            live: ["asleep", "accessory", "ignition", "cranking", "running", "restarting"],
          },
        },
        "C1-8": {
          function: "power.accessory",
          colour: "RD/BU",
          verifiedOn: "2026-01-29",
          electrical: {
            kind: "supply",
            maxAmps: 10,
            fuseAmps: 10,
            live: ["accessory", "ignition", "running", "restarting"],
          },
        },
      },
    },
    unplugged: ["C1"],
  },
  parts: {
    HU: {
      inline: {
        terminals: {
          memory: {
            function: "power.battery",
            colour: "YE",
            electrical: { kind: "load", typicalAmps: 2, maxAmps: 10, needs: "constant", minVolts: 6, sleepAmps: 0.003 },
          },
          accessory: {
            function: "power.accessory",
            colour: "RD",
            electrical: { kind: "load", typicalAmps: 0.1, maxAmps: 0.3, needs: "switched", minVolts: 6, sleepAmps: 0 },
          },
          ground: { function: "ground.chassis", colour: "BK", electrical: { kind: "ground" } },
        },
      },
    },
  },
  connections: {
    W1: { ends: ["CAR.C1-7", "HU.accessory"], conductor: { size: "18 AWG" }, length: { value: 0.3, unit: "m" } },
    W2: { ends: ["CAR.C1-8", "HU.memory"], conductor: { size: "18 AWG" }, length: { value: 0.3, unit: "m" } },
    W3: { ends: ["CAR.chassis", "HU.ground"], conductor: { size: "16 AWG" }, length: { value: 0.5, unit: "m" } },
  },
};

print("memory and accessory mixed up", await check(hookup));

const swapped: HookupDocument = {
  ...hookup,
  connections: {
    W1: { ends: ["CAR.C1-7", "HU.memory"], conductor: { size: "18 AWG" }, length: { value: 0.3, unit: "m" } },
    W2: { ends: ["CAR.C1-8", "HU.accessory"], conductor: { size: "18 AWG" }, length: { value: 0.3, unit: "m" } },
    W3: { ends: ["CAR.chassis", "HU.ground"], conductor: { size: "16 AWG" }, length: { value: 0.5, unit: "m" } },
  },
};

print("the two swapped", await check(swapped));
