import type { AbandonReason } from "@/shared/vocabulary/box";
import type { KoppenClass } from "@/shared/vocabulary/climate";
import type { Transaction } from "./client";
import { Prisma } from "./generated/client";

/** A household of a trial, by its pseudonym there: nothing that says who or where it is. */
export interface DeskHousehold {
  readonly enrolmentId: string;
  readonly pseudonym: string;
  readonly region: string;
  readonly joinedAt: Date;
  /** Whether it has a place in one of the climate classes asked for. */
  readonly hasPlace: boolean;
  /** Whether it keeps its seat and somebody of it still has an account: whom a letter can reach. */
  readonly isHere: boolean;
}

/** A trial's households in the order of their pseudonyms. */
export function householdsOfTrial(
  tx: Transaction,
  trialId: string,
  classes: readonly KoppenClass[],
): Promise<DeskHousehold[]> {
  return tx.$queryRaw<DeskHousehold[]>`
    SELECT enrolment.id::text AS "enrolmentId", pseudonym, region.name AS region, joined_at AS "joinedAt",
      EXISTS (SELECT FROM site WHERE site.household_id = enrolment.household_id
        AND site.koppen_class = ANY (${[...classes]}::text[])) AS "hasPlace",
      left_at IS NULL AND EXISTS (SELECT FROM grower
        JOIN agreement ON agreement.grower_id = grower.id AND agreement.trial_id = enrolment.trial_id
        JOIN account ON account.grower_id = grower.id
        WHERE grower.household_id = enrolment.household_id) AS "isHere"
    FROM enrolment JOIN region ON region.id = enrolment.region_id
    WHERE enrolment.trial_id = ${trialId}::uuid ORDER BY pseudonym`;
}

/** A set of boxes by how far it has come; no recipe and no place. */
export interface DeskSet {
  readonly enrolmentId: string;
  readonly code: string;
  readonly status: "planned" | "drawn" | "abandoned";
  /** The day it is planned for, `YYYY-MM-DD`. */
  readonly day: string;
  readonly abandonReason: AbandonReason | null;
  readonly boxes: number;
  readonly setOut: number;
  /** Boxes that are out and neither fetched, opened, recorded nor lost. */
  readonly waiting: number;
  /** Boxes fetched or opened that are neither recorded nor lost. */
  readonly unrecorded: number;
  /** Boxes recorded, or said to be past recording. */
  readonly settled: number;
  /** When the first waiting box was set out, as the clocks there had it, in the UTC fields. */
  readonly outSince: Date | null;
  /** Mean temperature there of the month it was set out in, °C. */
  readonly monthMeanC: number | null;
  readonly fetchAfterDays: number | null;
}

/**
 * A trial's sets, those given up included, in the order they were planned.
 * @param of the households whose sets they are; null: all
 */
export function setsOfTrial(
  tx: Transaction,
  trialId: string,
  of: readonly string[] | null = null,
): Promise<DeskSet[]> {
  const isAsked = of
    ? Prisma.sql`outing.trial_id = ${trialId}::uuid AND outing.enrolment_id = ANY (${[...of]}::uuid[])`
    : Prisma.sql`outing.trial_id = ${trialId}::uuid`;
  // Events are read once, here: of `drawn_boxes` the columns that would read them again aren't asked for.
  return tx.$queryRaw<DeskSet[]>`
    WITH moved AS (
      SELECT event.box_id, bool_or(event.kind <> 'set-out') AS back,
        min((event.occurred_at AT TIME ZONE 'UTC') + make_interval(mins => event.offset_minutes))
          FILTER (WHERE event.kind = 'set-out') AS out_since
      FROM outing JOIN box ON box.outing_id = outing.id JOIN box_event event ON event.box_id = box.id
      WHERE ${isAsked} AND event.kind IN ('set-out', 'fetched', 'opened')
        AND NOT EXISTS (SELECT FROM box_event later
          WHERE later.withdraws_id = event.id AND later.withdraws_id IS NOT NULL)
      GROUP BY event.box_id),
    boxes AS (
      SELECT drawn.outing_id, moved.box_id IS NOT NULL OR recorded AS set_out, recorded OR unrecordable AS settled,
        coalesce(moved.back, false) AS back, moved.out_since
      FROM drawn_boxes(${trialId}::uuid, NULL) drawn JOIN outing ON outing.id = drawn.outing_id
      LEFT JOIN moved ON moved.box_id = drawn.box_id WHERE ${isAsked}),
    counted AS (
      SELECT outing_id, count(*) FILTER (WHERE set_out)::int AS set_out, count(*) FILTER (WHERE settled)::int AS settled,
        count(*) FILTER (WHERE set_out AND NOT back AND NOT settled)::int AS waiting,
        count(*) FILTER (WHERE back AND NOT settled)::int AS unrecorded,
        min(out_since) FILTER (WHERE NOT back AND NOT settled) AS out_since
      FROM boxes GROUP BY outing_id)
    SELECT outing.enrolment_id::text AS "enrolmentId", outing.code, outing.status,
      to_char(outing.day, 'YYYY-MM-DD') AS day, outing.abandon_reason AS "abandonReason",
      (SELECT count(*)::int FROM box WHERE box.outing_id = outing.id) AS boxes,
      coalesce(counted.set_out, 0) AS "setOut", coalesce(waiting, 0) AS waiting,
      coalesce(unrecorded, 0) AS unrecorded, coalesce(settled, 0) AS settled, counted.out_since AS "outSince",
      (place.climate -> 'monthlyMeanC' ->> (extract(month FROM counted.out_since)::int - 1))::float8 AS "monthMeanC",
      draw.fetch_after_days AS "fetchAfterDays"
    FROM outing LEFT JOIN counted ON counted.outing_id = outing.id
    LEFT JOIN draw ON draw.outing_id = outing.id
    LEFT JOIN site_place place ON place.site_id = outing.site_id
    WHERE ${isAsked} ORDER BY outing.day, outing.id`;
}
