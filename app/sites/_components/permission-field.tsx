import type { SiteView } from "@/lib/services/growing/sites";
import { Caution } from "@/lib/ui/components/caution";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { dayWords } from "@/lib/ui/format";
import { placeMessages as words } from "@/lib/ui/messages/en/places";
import { PERMISSIONS } from "@/shared/vocabulary/place";

/** By what right boxes stand at a place this season; what was said before stands until answered again. */
export function PermissionField({
  standing,
  error,
}: {
  standing?: SiteView["permission"];
  error: string | undefined;
}) {
  const said = standing && words.permissionStays(words.permission[standing.kind], dayWords(standing.on));
  return (
    <>
      <ChoiceField
        id="permission"
        name="permission"
        legend={words.permissionTitle}
        hint={said ?? words.permissionHint}
        error={error}
        options={PERMISSIONS.map((value) => ({ value, label: words.permission[value] }))}
        stacked
      />
      <Caution title={words.cautionTitle}>
        {words.caution.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </Caution>
    </>
  );
}
