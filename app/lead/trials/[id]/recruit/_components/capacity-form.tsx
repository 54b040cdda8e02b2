"use client";

import type { RegionSeats } from "@/lib/services/growing/join";
import { ActionForm } from "@/lib/ui/components/action-form";
import { NumberField } from "@/lib/ui/components/number-field";
import { recruitMessages as words } from "@/lib/ui/messages/en/recruit";
import { changeSeats } from "../actions";

interface Props {
  readonly trialId: string;
  readonly region: RegionSeats;
  readonly isOpen: boolean;
}

/** How many seats a region has. */
export function CapacityForm({ trialId, region, isOpen }: Props) {
  if (!isOpen) return null;
  return (
    <ActionForm action={changeSeats} words={words.outcomes} submit={words.submit} kind="quiet">
      {(state) => (
        <>
          <input type="hidden" name="trialId" value={trialId} />
          <input type="hidden" name="regionId" value={region.id} />
          <NumberField
            key={region.capacity}
            name="capacity"
            label={words.capacity(region.name)}
            step={1}
            min={Math.max(1, region.seatsTaken)}
            defaultValue={state.values?.capacity ?? region.capacity}
            error={state.fields?.capacity ? words.outcomes[state.fields.capacity] : undefined}
          />
        </>
      )}
    </ActionForm>
  );
}
