import { deskMessages } from "@/lib/ui/messages/en/desk";
import type { Audience } from "@/shared/schemas/letter";
import { PEOPLE_GROUPS } from "@/shared/vocabulary/desk";

/** To whom a letter goes, in words. */
export function audienceWords(audience: Audience): string {
  const group = PEOPLE_GROUPS.find((each) => each === audience);
  if (group) return deskMessages.groups[group].name;
  return audience === "everyone"
    ? deskMessages.letters.everyone
    : deskMessages.letters.home(audience.slice("home-".length));
}
