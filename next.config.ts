import type { NextConfig } from "next";

const config: NextConfig = {
  poweredByHeader: false,
  // Loaded from node_modules as they are: they look for optional parts at run time, which a bundle can't hold.
  serverExternalPackages: ["fontkit", "nodemailer", "pdfkit", "pg-boss", "rate-limiter-flexible"],
  // Checked by `npm run check`; a first start need not wait for it.
  typescript: { ignoreBuildErrors: true },
};

export default config;
