import { typedNumber } from "@/lib/ui/form-numbers";
import { localNow, withOffset } from "@/lib/ui/moments";
import type { PinInput } from "@/shared/schemas/box-event";

/** A spot as it stands in its fields, degrees as text. */
export interface TypedPin extends Omit<PinInput, "latitude" | "longitude"> {
  readonly latitude: string;
  readonly longitude: string;
}

/** A spot given now. */
export function pinGivenNow(pin: Omit<TypedPin, "takenAt">): TypedPin {
  return { ...pin, takenAt: withOffset(localNow())! };
}

/** The spot as it is sent. */
export function pinToSend({ latitude, longitude, ...rest }: TypedPin): PinInput {
  return { latitude: typedNumber(latitude), longitude: typedNumber(longitude), ...rest };
}
