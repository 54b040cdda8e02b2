import Link from "next/link";
import { PermissionField } from "@/app/sites/_components/permission-field";
import type { PlanningView } from "@/lib/services/growing/planning-view";
import { dayWords } from "@/lib/ui/format";
import { placeMessages } from "@/lib/ui/messages/en/places";
import { setMessages } from "@/lib/ui/messages/en/sets";

const words = setMessages.plan;

interface Props {
  readonly site: PlanningView["sites"][number];
  readonly error: string | undefined;
}

/** That boxes may stand at the place chosen: what it says for this season, or the question where it doesn't say so. */
export function PlacePermission({ site: { id, permission, standing }, error }: Props) {
  if (standing !== "said" || !permission) {
    return (
      <>
        <p className="mb-3 font-semibold">{placeMessages.permissionStanding[standing]}</p>
        <PermissionField key={id} error={error} />
      </>
    );
  }
  return (
    <div className="mb-5 max-w-[44em]">
      <p className="font-semibold">{placeMessages.permissionTitle}</p>
      <p>
        {placeMessages.permissionSaid(placeMessages.permission[permission.kind], dayWords(permission.on))}
      </p>
      <p className="text-[0.9375rem] text-quiet">{words.ticks}</p>
      <Link href={`/sites/${id}/edit#permission`} className="inline-flex min-h-[44px] items-center">
        {words.permissionChange}
      </Link>
    </div>
  );
}
