import { typedNumber } from "@/lib/ui/form-numbers";
import { localNow, withOffset } from "@/lib/ui/moments";

/** A spot as it stands in its fields, degrees as text. */
export interface TypedPin {
  readonly latitude: string;
  readonly longitude: string;
  readonly accuracyM: number | null;
  readonly source: "phone" | "typed";
}

/** The spot as it is sent, taken now. */
export function pinToSend({ latitude, longitude, ...rest }: TypedPin) {
  const degrees = { latitude: typedNumber(latitude), longitude: typedNumber(longitude) };
  return { ...degrees, ...rest, takenAt: withOffset(localNow())! };
}
