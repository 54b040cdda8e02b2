-- What stands of a box, read in less time: the latest of its kind is what has none newer beside it, so that nothing need
-- be sorted; and with the measures of the grade that stands, so that whoever wants them needn't look for it again.
-- Beside that it says whether a box was cooked, by what was told last, and takes a fetched box to have stood outside,
-- whether or not that was told.
--
-- Every drawn box of a trial with what stands of it. `until` is when the trial closed, and then only what the
-- server had received by then counts; null while it is open.
-- recorded, take, clean_take, measures: the latest unmasked revision by the outing's own grower.
-- Events withdrawn count for nothing; unrecordable and cooked go by the latest event in force on the matter.
-- lost: growth can't be recorded whatever grade there is; or there is no grade and the set was given up or the
-- trial has closed.
-- Each part is read as a set, not box by box: a trial of 100,000 boxes in one pass, a small one by its indexes.
DROP FUNCTION drawn_boxes(uuid, timestamptz);
CREATE FUNCTION drawn_boxes(of_trial uuid, until timestamptz)
RETURNS TABLE (
  box_id uuid, box text, "position" int, outing_id uuid, outing text, band text, region_id uuid, enrolment_id uuid,
  arm_id uuid, abandoned boolean, recorded boolean, take int, clean_take boolean, measures jsonb, cooked boolean,
  set_out boolean, opened boolean, unrecordable boolean, lost boolean)
LANGUAGE sql STABLE AS $$
  WITH own AS NOT MATERIALIZED (
    SELECT grade.box_id, grade.grader_id, grade.take, grade.clean_take, grade.measures
    FROM grade
    WHERE NOT grade.masked AND grade.received_at <= coalesce(until, 'infinity')
      AND NOT EXISTS (SELECT FROM grade newer
        WHERE newer.box_id = grade.box_id AND newer.grader_id = grade.grader_id AND NOT newer.masked
          AND newer.revision > grade.revision AND newer.received_at <= coalesce(until, 'infinity'))),
  told AS NOT MATERIALIZED (
    SELECT event.box_id, event.kind, event.received_at, event.id
    FROM outing JOIN box ON box.outing_id = outing.id JOIN box_event event ON event.box_id = box.id
    WHERE outing.trial_id = of_trial AND event.received_at <= coalesce(until, 'infinity')
      AND NOT EXISTS (SELECT FROM box_event later
        WHERE later.withdraws_id = event.id AND later.withdraws_id IS NOT NULL
          AND later.received_at <= coalesce(until, 'infinity'))),
  stage AS (
    SELECT box_id, bool_or(kind IN ('set-out', 'fetched')) AS set_out, bool_or(kind = 'opened') AS opened,
      max(received_at) FILTER (WHERE kind IN ('cooked-as-drawn', 'cooked-otherwise'))
        >= coalesce(max(received_at) FILTER (WHERE kind = 'not-cooked'), '-infinity') AS cooked
    FROM told WHERE kind IN ('set-out', 'fetched', 'opened', 'cooked-as-drawn', 'cooked-otherwise', 'not-cooked')
    GROUP BY box_id),
  matter AS (
    SELECT DISTINCT box_id FROM told
    WHERE kind = 'growth-not-recordable'
      AND NOT EXISTS (SELECT FROM box_event newer
        WHERE newer.box_id = told.box_id AND newer.kind = 'growth-recordable'
          AND newer.received_at <= coalesce(until, 'infinity')
          AND (newer.received_at, newer.id) > (told.received_at, told.id)
          AND NOT EXISTS (SELECT FROM box_event later
            WHERE later.withdraws_id = newer.id AND later.withdraws_id IS NOT NULL
              AND later.received_at <= coalesce(until, 'infinity'))))
  SELECT box.id, box.code, box.position, outing.id, outing.code, outing.band, outing.region_id, outing.enrolment_id,
    allocation.arm_id, outing.status = 'abandoned', own.box_id IS NOT NULL, own.take, own.clean_take, own.measures,
    coalesce(stage.cooked, false), coalesce(stage.set_out, false), coalesce(stage.opened, false), matter.box_id IS NOT NULL,
    matter.box_id IS NOT NULL
      OR (own.box_id IS NULL AND (outing.status = 'abandoned' OR until IS NOT NULL))
  FROM outing
  JOIN box ON box.outing_id = outing.id
  JOIN allocation ON allocation.box_id = box.id
  LEFT JOIN own ON own.box_id = box.id AND own.grader_id = outing.grower_id
  LEFT JOIN stage ON stage.box_id = box.id
  LEFT JOIN matter ON matter.box_id = box.id
  WHERE outing.trial_id = of_trial
$$;
