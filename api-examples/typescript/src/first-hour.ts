// A shop's first hour: a spreadsheet goes in once its fault is mended, the map is found by VIN, and a wire in every vehicle.
import { readFileSync } from "node:fs";
import { service } from "./service.js";

const query = { maker: "Vandry", model: "Hauler", modelYearFrom: 2021, modelYearTo: 2024, vinPattern: ["S0VHL2"] };
const body = readFileSync(new URL("../../spreadsheet/circuits.csv", import.meta.url), "utf8");
const asText = { headers: { "Content-Type": "text/csv" }, bodySerializer: (text: string) => text };

const draft = await service.POST("/v1/spreadsheets", { params: { query: { ...query, dryRun: true } }, body, ...asText });
for (const fault of draft.error?.errors ?? []) {
  console.log(`line ${fault.line}, column ${fault.column}: ${fault.detail}`);
}

const created = await service.POST("/v1/spreadsheets", {
  // the same key gives the same van, however often this runs
  params: { query, header: { "Idempotency-Key": "first-hour-in-typescript" } },
  body: body.replace(",pink,", ",PK,"),
  ...asText,
});
if (created.error !== undefined) {
  throw new Error(`${created.error.status} ${created.error.title}: ${created.error.detail}`);
}

const found = await service.GET("/v1/vehicles", { params: { query: { vin: "S0VHL2AA9N1000123" } } });
const vehicle = found.data?.items?.[0];
if (vehicle === undefined) {
  throw new Error("no vehicle of the book has this VIN");
}
console.log(`${vehicle.maker} ${vehicle.model}, ${vehicle.circuits} circuits`);

const map = await service.GET("/v1/vehicles/{id}", { params: { path: { id: vehicle.id } } });
for (const [name, circuit] of Object.entries(map.data?.document.circuits ?? {})) {
  console.log(`  ${name} ${circuit.colour ?? ""} ${circuit.function ?? "not known"}`);
}

const reverse = await service.GET("/v1/circuits", { params: { query: { function: "control.reverse" } } });
for (const circuit of reverse.data?.items ?? []) {
  console.log(`reverse: ${circuit.maker} ${circuit.model}, ${circuit.name} ${circuit.circuit.colour ?? ""}`);
}
