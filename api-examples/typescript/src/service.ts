import { readFileSync } from "node:fs";
import createClient from "openapi-fetch";
import type { components, paths } from "./generated/api.js";

export type HookupDocument = components["schemas"]["HookupDocument"];
export type CheckReport = components["schemas"]["CheckReport"];

/** The demo on this machine, unless SPLICEBOOK_URL and SPLICEBOOK_KEY say otherwise. */
export const service = createClient<paths>({
  baseUrl: process.env["SPLICEBOOK_URL"] ?? "http://127.0.0.1:8080",
  headers: { Authorization: `Bearer ${process.env["SPLICEBOOK_KEY"] ?? "splicebook-demo-key"}` },
});

/** Asks whether a hookup is right; what is wrong with the question itself is thrown. */
export async function check(hookup: HookupDocument): Promise<CheckReport> {
  const { data, error } = await service.POST("/v1/checks", { body: hookup });
  if (data === undefined) {
    throw new Error(`${error.status} ${error.title}: ${error.detail}`);
  }
  return data;
}

/** A hookup that lies beside this folder, like `rear-entertainment/check-3-ready.json`. */
export function hookup(file: string): HookupDocument {
  return JSON.parse(readFileSync(new URL(`../../${file}`, import.meta.url), "utf8")) as HookupDocument;
}

/** Prints what a check found, and in which order to connect once nothing is. */
export function print(what: string, report: CheckReport): void {
  console.log(`${what}: ${report.verdict}`);
  for (const finding of report.findings ?? []) {
    console.log(`  ${finding.severity} ${finding.rule}: ${finding.message}`);
    console.log(`    ${finding.help}`);
  }
  if (report.verdict === "ready") {
    for (const step of report.order ?? []) {
      console.log(`  ${(step.ends ?? []).join(" to ")}: ${step.why}`);
    }
  }
}
