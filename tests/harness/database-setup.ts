import type { TestProject } from "vitest/node";
import { startDatabaseServer } from "./database-server";
import { createMigratedDatabase, type DatabaseUrls, templateName } from "./template";

declare module "vitest" {
  export interface ProvidedContext {
    serverUrl: string;
    template: DatabaseUrls;
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const server = await startDatabaseServer();
  try {
    project.provide("serverUrl", server.url);
    project.provide("template", await createMigratedDatabase(server.url, templateName));
  } catch (error) {
    await server.stop();
    throw error;
  }
  return server.stop;
}
