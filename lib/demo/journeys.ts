import type { Actor } from "@/lib/auth/actor";
import { keepNote } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import { answerByRecord } from "@/lib/data/corrections";
import { type DemoOuting, type DemoTrialRows, dateDemoLetter } from "@/lib/data/demo";
import { keepPin } from "@/lib/data/pins";
import { joinLine } from "@/lib/data/waiting";
import type { RandomSource } from "@/lib/engine/random/source";
import type { Result } from "@/lib/errors/result";
import { answerCorrection } from "@/lib/services/growing/corrections";
import { makeHelperLink } from "@/lib/services/growing/helper-link";
import { jarChoices, makeJar } from "@/lib/services/growing/jars";
import { leaveTrial } from "@/lib/services/growing/leave-trial";
import { recordWeather, setWeather } from "@/lib/services/growing/weather";
import { askCorrection } from "@/lib/services/lead/corrections";
import { sendLetter } from "@/lib/services/lead/letters";
import { pauseTrial, resumeTrial } from "@/lib/services/lead/pause";
import { AGREEMENT_VERSION } from "@/shared/schemas/enrolment";
import { between, daysAfter, idAt } from "./chance";
import type { DemoHousehold, DemoPeople } from "./people";
import { STORIES } from "./stories";

/** What was done, or a fault that names the refusal: the demo asks for nothing that may be refused. */
export function must<Value>(result: Result<Value, string>): Value {
  if (!result.ok) throw new Error(`The demo can't be made: ${result.reason}.`);
  return result.value;
}

/** The season under way and who takes part in it. */
export interface DemoSeason {
  readonly people: DemoPeople;
  readonly season: DemoTrialRows;
}

/** What happens around the boxes of the season under way, by the services that serve everyone. */
export async function liveSeason(
  tx: Transaction,
  source: RandomSource,
  { people, season }: DemoSeason,
  now: Date,
): Promise<void> {
  const { id: trialId } = season.trial;
  await waitForSeats(tx, source, people, trialId, now);
  must(await pauseTrial(tx, people.lead, { trialId, reason: "fire" }, daysAfter(now, -20)));
  must(await resumeTrial(tx, people.lead, trialId, daysAfter(now, -17)));
  must(await leaveTrial(tx, adultOf(people, "dry", 2), trialId, daysAfter(now, -4)));
  await writeLetters(tx, source, people, trialId, now);
  await askForCorrections(tx, people, season, now);
  for (const { household, outing } of setsOut(people, season)) {
    await keepPin(
      tx,
      { outingId: outing.id, accountId: household.adults[0]!.accountId },
      pinOf(people, household, now),
    );
  }
  for (const band of ["mild-wet", "dry"]) {
    const helped = adultOf(people, band, 10);
    must(await makeHelperLink(tx, helped, setsOf(season, helped)[0]!.id, now));
    await tellWeather(tx, source, season, adultOf(people, band, 0));
    await fillJar(tx, source, adultOf(people, band, 3), daysAfter(now, -15));
  }
}

/** The first adult of a climate group's household by its turn there. */
function adultOf({ households }: DemoPeople, band: string, turn: number): Actor {
  return households.find((one) => one.band === band && one.turn === turn)!.adults[0]!;
}

/** A grower's sets in the order they were planned. */
function setsOf({ outings }: DemoTrialRows, { growerId }: Actor): DemoOuting[] {
  return outings.filter((one) => one.growerId === growerId);
}

function setsOut({ households }: DemoPeople, season: DemoTrialRows) {
  return households.flatMap((household) => {
    const isOut = STORIES[household.turn]!.some(({ toldTo }) => toldTo === "set-out");
    const outing = setsOf(season, household.adults[0]!).at(-1);
    return isOut && outing ? [{ household, outing }] : [];
  });
}

/** An invented spot within the household's cell of 0.1°. */
function pinOf({ rows }: DemoPeople, { siteId }: DemoHousehold, takenAt: Date) {
  const { cellLatitude, cellLongitude } = rows.places.find((place) => place.siteId === siteId)!;
  const off = (degrees: unknown, by: number) => Math.round((Number(degrees) + by) * 1e5) / 1e5;
  const [latitude, longitude] = [off(cellLatitude, 0.01234), off(cellLongitude, -0.02345)];
  return { latitude, longitude, accuracyM: 8, source: "phone", takenAt } as const;
}

async function waitForSeats(
  tx: Transaction,
  source: RandomSource,
  { households }: DemoPeople,
  trialId: string,
  now: Date,
): Promise<void> {
  for (const { id: householdId, turn, regionId, adults } of households) {
    if (STORIES[turn]!.length > 0) continue;
    const { growerId } = adults[0]!;
    const place = { id: idAt(source, now), trialId, householdId, growerId, regionId };
    await joinLine(tx, { ...place, agreementVersion: AGREEMENT_VERSION });
  }
}

async function writeLetters(
  tx: Transaction,
  source: RandomSource,
  { lead, coLead }: DemoPeople,
  trialId: string,
  now: Date,
): Promise<void> {
  const send = async (by: Actor, at: Date, letter: Parameters<typeof sendLetter>[2]["letter"]) => {
    must(await sendLetter(tx, by, { trialId, letter }, at));
    await dateDemoLetter(tx, letter.subject, at);
  };
  const letterId = (at: Date) => idAt(source, at);
  const resumed = daysAfter(now, -17);
  await send(lead, resumed, {
    id: letterId(resumed),
    audience: "everyone",
    subject: "The fire danger is over (invented)",
    body: "Thank you for waiting. Boxes may go out again. Keep to what your forest office says, it comes first.",
  });
  await send(coLead, now, {
    id: letterId(now),
    audience: "overdue",
    subject: "Your boxes are waiting (invented)",
    body: "Your boxes have been out for more than a week. Please fetch them when you can, with mask and gloves.",
  });
}

/** One request waits, one was answered by a new record, one by "it stands". */
async function askForCorrections(
  tx: Transaction,
  people: DemoPeople,
  season: DemoTrialRows,
  now: Date,
): Promise<void> {
  const ask = async (grower: Actor, kind: "grams" | "per-cent" | "times", words: string, at: Date) => {
    const [outing] = setsOf(season, grower);
    const box = season.boxes.find(({ outingId, position }) => outingId === outing!.id && position === 2)!;
    const correction = { kind, words };
    const asked = await askCorrection(
      tx,
      people.lead,
      { trialId: season.trial.id, code: box.code, correction },
      at,
    );
    return { ...must(asked), box };
  };
  const weeksAgo = daysAfter(now, -14);
  const corrected = await ask(adultOf(people, "hot-dry-summer", 4), "per-cent", "", weeksAgo);
  await answerByRecord(tx, corrected.box.id, daysAfter(now, -13));
  const sure = adultOf(people, "dry", 3);
  const stands = await ask(sure, "times", "Opened in the middle of the night?", weeksAgo);
  must(await answerCorrection(tx, sure, stands.requestId, daysAfter(now, -12)));
  await ask(
    adultOf(people, "mild-wet", 0),
    "grams",
    "Was the box weighed with its lid on?",
    daysAfter(now, -3),
  );
}

/** The whole window of a grower's first set, as a thermometer and a rain gauge there might have shown it. */
async function tellWeather(
  tx: Transaction,
  source: RandomSource,
  season: DemoTrialRows,
  grower: Actor,
): Promise<void> {
  const [outing] = setsOf(season, grower);
  const weather = await setWeather(tx, grower, outing!.id);
  const days = weather!.days.map(({ day }) => {
    const minC = between(source, 30, 90) / 10;
    return { day, minC, maxC: minC + between(source, 4, 12), rainMm: Math.max(0, between(source, -12, 14)) };
  });
  const id = idAt(source, outing!.createdAt as Date);
  must(await recordWeather(tx, grower, { id, outingId: outing!.id, days }));
  const note = { accountId: grower.accountId, subjectId: outing!.id };
  await keepNote(tx, { ...note, id, text: "Under the oldest hazel, litter to the ankle (invented)." });
}

/** A jar of what a grower's boxes still hold, with as much sugar. */
async function fillJar(tx: Transaction, source: RandomSource, grower: Actor, madeAt: Date): Promise<void> {
  const boxes = (await jarChoices(tx, grower))
    .filter(({ leftG, openedAt }) => leftG !== 0 && openedAt !== null && openedAt < madeAt)
    .map(({ boxId, leftG }) => ({ boxId, grainG: Math.min(250, leftG ?? 250) }));
  const sugarG = boxes.reduce((sum, { grainG }) => sum + grainG, 0);
  must(await makeJar(tx, grower, { id: idAt(source, madeAt), boxes, sugarG, madeAt: madeAt.toISOString() }));
}
