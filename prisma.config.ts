import { defineConfig } from "prisma/config";

export default defineConfig({
  schema: "prisma/schema.prisma",
  migrations: { path: "prisma/migrations" },
  // For the stock command only (`prisma migrate status`, `resolve`); the server reads its own environment.
  datasource: { url: process.env.DATABASE_URL ?? "" },
});
