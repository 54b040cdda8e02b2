import type { MetadataRoute } from "next";
import { commonMessages } from "@/lib/ui/messages/en/common";

export default function manifest(): MetadataRoute.Manifest {
  return {
    name: commonMessages.name,
    short_name: commonMessages.name,
    description: commonMessages.description,
    start_url: "/outings",
    display: "standalone",
    background_color: "#ffffff",
    theme_color: "#ffffff",
    icons: [{ src: "/icon.svg", sizes: "any", type: "image/svg+xml" }],
  };
}
